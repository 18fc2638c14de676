"""Credit notes: what is left of an invoice to credit, worked out, issued with a number of their own, then frozen."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from app.book.bench.job_rows import JobRows
from app.book.door import Book, Change
from app.book.office.job_lines import balance
from app.book.tables import CreditNote, CreditNoteLine, Customer, Invoice, InvoiceLine, Job, Paper, Staff
from app.trade.bench.kinds import Means
from app.trade.money import Money
from app.trade.office.credit_note import CreditDraft, Left, Taken, check_credit, credit, left_to_credit
from app.trade.office.invoice import Adjustment, Draft, Line, LineKind
from app.trade.office.issue_days import IssueDays
from app.trade.office.numbers import invoice_number
from app.trade.office.vat import VatCategory
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.trade.settings.prices import CREDIT_SERIES, INVOICE_SERIES, ROUND_DUE_TO, same_series
from app.work.office.credit_note_paper import Credited, credit_note_facts
from app.work.office.frozen_lines import line_kept
from app.work.office.payments import payment_row
from app.work.papers.issuing import issue_paper, preview_paper
from app.work.papers.kinds import Kind
from app.work.shop_book import Done


@dataclass(frozen=True, slots=True)
class NoteLine:
    """A credit note that was issued on an invoice, with its paper."""

    id: int
    number: str
    issued_on: date
    issued_by: str
    reason: str
    due: Money
    paper_id: int


@dataclass(frozen=True, slots=True)
class CreditView:
    """What can be credited. ``invoice`` as it was frozen, ``left`` of it by line; ``open`` on the whole job now."""

    invoice_id: int
    number: str
    issued_on: date
    job_id: int
    job_number: int
    customer: str
    invoice: Draft
    left: Left
    open: Money
    notes: tuple[NoteLine, ...]
    days: IssueDays  # which dates the next note may carry


@dataclass(frozen=True, slots=True)
class CreditIssued:
    """An issued credit note and its paper, to be filed next."""

    id: int
    number: str
    paper_id: int


def credit_inside(row: Invoice, rows: JobRows, today: date) -> CreditView:
    """An issued invoice, line by line, with what is left of it to credit, inside a question."""
    session, job = rows.session, rows.job
    invoice = frozen_draft(session, row, rows.settings[ROUND_DUE_TO])
    return CreditView(
        row.id,
        invoice_number(row.series, row.number),
        row.issued_on,
        job.id,
        job.number,
        session.get_one(Customer, row.customer_id).name,
        invoice,
        _left(session, row, invoice),
        balance(rows),
        notes_of(session, row.id),
        _days(rows, row, today),
    )


def _days(rows: JobRows, invoice: Invoice, today: date) -> IssueDays:
    series = rows.settings[CREDIT_SERIES]
    previous = rows.session.scalar(select(func.max(CreditNote.issued_on)).where(CreditNote.series == series))
    return IssueDays(today, previous, invoice.issued_on, of_credit=True)


def notes_of(session: Session, invoice_id: int) -> tuple[NoteLine, ...]:
    """The credit notes of an invoice, in the order of issue, inside a question."""
    found = session.execute(
        select(CreditNote, Staff.name, Paper.id)
        .join(Staff, Staff.id == CreditNote.issued_by)
        .join(Paper, Paper.credit_note_id == CreditNote.id)
        .where(CreditNote.invoice_id == invoice_id, Paper.kind == Kind.CREDIT_NOTE.value)
        .order_by(CreditNote.id)
    )
    return tuple(
        NoteLine(
            row.id,
            invoice_number(row.series, row.number),
            row.issued_on,
            name,
            row.reason,
            Money(row.due, row.currency),
            paper,
        )
        for row, name, paper in found
    )


def frozen_draft(session: Session, invoice: Invoice, round_due_to: int = 1) -> Draft:
    """The lines, discounts and charges of an issued invoice as they were worked out, before any payment."""
    lines = session.scalars(
        select(InvoiceLine).where(InvoiceLine.invoice_id == invoice.id).order_by(InvoiceLine.position)
    )
    signed = [
        (amount, Adjustment(abs(amount), reason, rate, VatCategory(category), why))
        for amount, reason, rate, category, why in invoice.adjustments or ()
    ]
    return Draft(
        invoice.currency,
        tuple(
            Line(
                row.words,
                LineKind(row.kind),
                row.quantity,
                row.unit,
                row.price,
                row.vat_rate,
                row.category,
                row.vat_reason,
                row.discount,
                row.discount_reason,
                row.price_with_vat,
            )
            for row in lines
        ),
        tuple(one for amount, one in signed if amount < 0),
        tuple(one for amount, one in signed if amount > 0),
        round_due_to=round_due_to,
    )


def _left(session: Session, row: Invoice, invoice: Draft) -> Left:
    """What the credit notes so far left of an invoice."""
    earlier = []
    for note in session.scalars(select(CreditNote).where(CreditNote.invoice_id == row.id)):
        lines = session.scalars(select(CreditNoteLine).where(CreditNoteLine.credit_note_id == note.id)).all()
        earlier.append(
            Taken(
                {line.invoice_position - 1: line.quantity for line in lines},
                {line.invoice_position - 1: line.discount for line in lines},
                {at: abs(amount) for amount, *_, at in note.adjustments},
                note.due,
            )
        )
    return left_to_credit(invoice, Money(row.gross + row.rounding, row.currency), earlier)


def issue_credit_note(
    book: Book,
    who: int,
    invoice_id: int,
    wanted: Mapping[int, int],
    reason: str,
    *,
    pay_out: Means | None = None,
    on: date | None = None,
) -> Done[CreditIssued]:
    """Credit these quantities (millionths, by place of the line on the invoice): number, lines, sums and the facts
    of its paper frozen in one action. With ``pay_out`` what was paid too much by then is given back in it, too.

    Raises FieldRefusal for what cannot be credited and, under ``on``, for the date; Refusal for the series.
    """
    with book.change(who, Sentence("issued a credit note")) as change:
        session = change.session
        row = change.get(Invoice, invoice_id)
        job = change.get(Job, row.job_id)
        rows = JobRows(session, job)
        invoice = frozen_draft(session, row, rows.settings[ROUND_DUE_TO])
        left = _left(session, row, invoice)
        if wrong_in := check_credit(invoice, left, wanted, reason):
            raise FieldRefusal(wrong_in)
        series = rows.settings[CREDIT_SERIES]
        if wrong := same_series(rows.settings[INVOICE_SERIES], series):
            raise Refusal(wrong, Sentence("The owner chooses them in the settings, under Money."))
        day = on or change.today
        if wrong := _days(rows, row, change.today).check(day):
            raise FieldRefusal({"on": wrong})
        worked_out = credit(invoice, left, wanted)
        note = _freeze(change, row, worked_out, reason.strip(), series, day)
        rows = JobRows(session, job)
        if pay_out is not None:
            over = min(-balance(rows).minor, note.due)
            if over <= 0:
                raise FieldRefusal(
                    {"pay_out": Sentence("Nothing was paid too much: it comes off what is open.")}
                )
            payment_row(change, job.id, row.id, "refund", Money(-over, row.currency), pay_out)
            rows = JobRows(session, job)
        number = invoice_number(series, note.number)
        paper = issue_paper(
            change,
            job.id,
            credit_note_facts(
                book.files, rows, _credited(row, worked_out, reason.strip()), number, day, paid_out=pay_out
            ),
            number=number,
            invoice_id=row.id,
            credit_note_id=note.id,
        )
    return Done(CreditIssued(note.id, number, paper.id), change.changes)


def preview_credit_note(
    book: Book, invoice_id: int, wanted: Mapping[int, int], reason: str, on: date | None = None
) -> bytes:
    """The PDF of the credit note as it would be issued now or ``on`` a day, with "draft" behind every page."""
    with book.ask() as session:
        row = session.get_one(Invoice, invoice_id)
        rows = JobRows(session, session.get_one(Job, row.job_id))
        invoice = frozen_draft(session, row, rows.settings[ROUND_DUE_TO])
        worked_out = credit(invoice, _left(session, row, invoice), wanted)
        credited, day = _credited(row, worked_out, reason.strip()), on or book.today()
        facts = credit_note_facts(book.files, rows, credited, "", day, preview=True)
    return preview_paper(facts)


def _credited(row: Invoice, worked_out: CreditDraft, reason: str) -> Credited:
    return Credited(invoice_number(row.series, row.number), row.issued_on, worked_out, reason)


def _freeze(
    change: Change, invoice: Invoice, worked_out: CreditDraft, reason: str, series: str, day: date
) -> CreditNote:
    draft, totals = worked_out.draft, worked_out.totals
    note = change.add(
        CreditNote(
            series=series,
            number=change.next_number(f"credit note {series}".strip()),
            invoice_id=invoice.id,
            job_id=invoice.job_id,
            customer_id=invoice.customer_id,
            issued_on=day,
            issued_at=change.now,
            issued_by=change.by,
            currency=draft.currency,
            reason=reason,
            lines_net=totals.lines_net.minor,
            discount=totals.discount.minor,
            charge=totals.charge.minor,
            net=totals.net.minor,
            vat=totals.vat.minor,
            gross=totals.gross.minor,
            rounding=totals.rounding.minor,
            due=totals.due.minor,
            groups=[[g.rate, g.category.value, g.base.minor, g.tax.minor, g.reason] for g in totals.groups],
            adjustments=_taken(invoice, worked_out),
            line_count=len(draft.lines),
        )
    )
    change.session.add_all(
        CreditNoteLine(
            credit_note_id=note.id, position=position, invoice_position=of + 1, **line_kept(line, net)
        )
        for position, (line, net, of) in enumerate(
            zip(draft.lines, totals.line_nets, worked_out.of, strict=True), start=1
        )
    )
    change.session.flush()
    return note


def _taken(invoice: Invoice, worked_out: CreditDraft) -> list[list[object]]:
    """What the note takes of discounts (below zero) and charges, each with its place on the invoice."""
    return [
        [-part if amount < 0 else part, *rest, at]
        for at, (amount, *rest) in enumerate(invoice.adjustments or ())
        if (part := worked_out.adjustments[at])
    ]
