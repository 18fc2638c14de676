"""Fills a credit note's facts from the book: what is given back, how it reaches the customer, where the job stands."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from pathlib import Path
from zoneinfo import ZoneInfo

from app.book.bench.job_rows import JobRows
from app.book.office.job_lines import balance
from app.book.tables import Customer, Unit
from app.papers.credit_note_facts import CreditedLine, CreditNoteFacts, StandLine
from app.papers.e_invoice_facts import Preceding
from app.papers.facts import Said
from app.trade.bench.kinds import Means
from app.trade.money import Money
from app.trade.office.credit_note import CreditDraft
from app.trade.office.numbers import invoice_number
from app.trade.sentence import Sentence
from app.trade.settings.papers_and_days import TIME_ZONE
from app.work.office.e_invoice_facts import e_invoice_facts
from app.work.office.invoice_paper import MEANS, discounts_of, line_on_paper, payment_lines, told, vat_groups
from app.work.papers.sheet_facts import customer_facts, player_facts, sheet_of, wording_of


@dataclass(frozen=True, slots=True)
class Credited:
    """A credit note worked out, with the invoice that it corrects and why."""

    invoice: str
    invoice_issued: date
    draft: CreditDraft
    reason: str


def credit_note_facts(
    files: Path,
    rows: JobRows,
    credited: Credited,
    number: str,
    issued: date,
    *,
    paid_out: Means | None = None,
    preview: bool = False,
) -> CreditNoteFacts:
    """The credit note as it is issued: ``rows`` know of it already. With ``preview`` as it would be."""
    session, settings = rows.session, rows.settings
    customer = session.get_one(Customer, rows.job.customer_id)
    draft, totals = credited.draft.draft, credited.draft.totals
    sheet = sheet_of(files, settings, customer, draft=preview)
    rest = balance(rows)
    if preview:
        rest -= totals.due
    stand = _stand(rows)
    if preview:
        stand = (*stand, StandLine(Sentence("This credit note"), -totals.due))
    return CreditNoteFacts(
        sheet=sheet,
        number=number,
        job=rows.job.number,
        issued=issued,
        invoice=credited.invoice,
        invoice_issued=credited.invoice_issued,
        customer=customer_facts(customer, settings),
        player=player_facts(session, session.get_one(Unit, rows.job.unit_id)),
        heading=Sentence("Correction of invoice {number}", {"number": credited.invoice}),
        reason=credited.reason,
        lines=tuple(
            CreditedLine(line_on_paper(line, net), of + 1)
            for line, net, of in zip(draft.lines, totals.line_nets, credited.draft.of, strict=True)
        ),
        lines_net=totals.lines_net,
        net=totals.net,
        vat=vat_groups(totals),
        total=totals.gross,
        credited=totals.due,
        discounts=discounts_of(draft),
        rounding=totals.rounding if totals.rounding.minor else None,
        how=_how(paid_out, issued, rest),
        signed=paid_out is Means.CASH,
        stand=stand,
        open=rest,
        e_invoice=None
        if preview
        else e_invoice_facts(
            settings,
            customer,
            draft,
            told(totals, wording_of(sheet)),
            number,
            issued,
            corrects=Preceding(credited.invoice, credited.invoice_issued),
            notes=(credited.reason,),
        ),
    )


def _how(paid_out: Means | None, day: date, rest: Money) -> Said:
    """How the money comes back, in one sentence. ``rest`` is what is open on the job after the note."""
    if paid_out is Means.CASH:
        return Sentence("Paid out in cash on {day} against the signature below.", {"day": day})
    if paid_out is not None:
        return Sentence("Paid back {means} on {day}.", {"means": MEANS[paid_out], "day": day})
    if rest.minor < 0:
        return Sentence("You have paid {amount} too much; we give it back to you.", {"amount": -rest})
    if rest.minor:
        return Sentence("It comes off what is open on the job. To pay remains {amount}.", {"amount": rest})
    return Sentence("It comes off what was open on the job. Nothing remains to be paid.")


def _stand(rows: JobRows) -> tuple[StandLine, ...]:
    """Every invoice, credit note and payment of the job."""
    zone = ZoneInfo(rows.settings[TIME_ZONE])
    billed = [
        StandLine(
            Sentence("Invoice {number}, with VAT", {"number": invoice_number(row.series, row.number)}),
            Money(row.gross + row.rounding, row.currency),
        )
        for row in rows.invoices
    ]
    given = [
        StandLine(
            Sentence("Credit note {number}", {"number": invoice_number(row.series, row.number)}),
            Money(-row.due, row.currency),
        )
        for row in rows.credit_notes
    ]
    paid = [StandLine(one.words, -one.amount) for one in payment_lines(rows, zone)]
    return (*billed, *given, *paid)
