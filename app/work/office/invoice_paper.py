"""Fills an invoice's facts from the book: sums worked out, modifications named, safety notes chosen."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path
from zoneinfo import ZoneInfo

from app.book.bench.job_rows import JobRows
from app.book.tables import Customer, Unit
from app.papers.facts import Said
from app.papers.invoice_facts import (
    Discount,
    InvoiceFacts,
    InvoiceLine,
    PaymentLine,
    PaymentPanel,
    VatGroup,
)
from app.trade.bench.facts import JobFacts
from app.trade.bench.kinds import Means
from app.trade.bench.safety_notes import NoteTold, Reader
from app.trade.money import Money, decimals
from app.trade.office.amounts import shown
from app.trade.office.bank_account import compact, grouped
from app.trade.office.creditor_reference import creditor_reference
from app.trade.office.guarantee import modified_clause
from app.trade.office.invoice import Draft, Line, LineKind, Totals, unit_words
from app.trade.sentence import Sentence, Value, joined, words
from app.trade.settings.bank import ACCOUNT_HOLDER, BIC, IBAN
from app.trade.settings.owed import GUARANTEE_MODIFIED_WORDS
from app.trade.settings.papers_and_days import TIME_ZONE
from app.trade.settings.prices import PAY_WITHIN, SMALL_BUSINESS_WORDS
from app.trade.settings.shop import SHOP_NAME
from app.trade.settings.shop_settings import ShopSettings
from app.trade.settings.terms import GUARANTEE_WORDS
from app.trade.wording import Wording
from app.work.bench.safety_notes import safety_notes_of
from app.work.office.e_invoice_facts import e_invoice_facts
from app.work.office.guarantees import Given, guarantee_given
from app.work.office.shop_words import shop_words
from app.work.papers.modification_block import modification_blocks
from app.work.papers.safety_record import safety_record
from app.work.papers.sheet_facts import cautions_of, customer_facts, player_facts, sheet_of, wording_of

MEANS = {
    Means.CASH: Sentence("in cash"),
    Means.CARD: Sentence("by card"),
    Means.TRANSFER: Sentence("by transfer"),
}
_TAKEN, _GIVEN = words("Paid on {day} {means}"), words("Given back on {day} {means}")
HUNDREDTH = Decimal("0.01")


def invoice_facts(
    files: Path,
    rows: JobRows,
    facts: JobFacts,
    draft: Draft,
    totals: Totals,
    number: str,
    issued: date,
    *,
    preview: bool = False,
) -> InvoiceFacts:
    """The invoice of a job as it is issued, or with ``preview`` as it would be."""
    session, settings = rows.session, rows.settings
    customer = session.get_one(Customer, rows.job.customer_id)
    unit = session.get_one(Unit, rows.job.unit_id)
    zone = ZoneInfo(settings[TIME_ZONE])
    pay_by = issued + timedelta(days=settings[PAY_WITHIN])
    fees_only = rows.unsafe_return is not None
    sheet = sheet_of(files, settings, customer, draft=preview)
    return InvoiceFacts(
        sheet=sheet,
        number="" if preview else number,
        job=rows.job.number,
        issued=issued,
        customer=customer_facts(customer, settings),
        player=player_facts(session, unit),
        heading=Sentence("Fees for your disc player")
        if fees_only
        else Sentence("Repair of your disc player"),
        lines=tuple(
            line_on_paper(line, net) for line, net in zip(draft.lines, totals.line_nets, strict=True)
        ),
        lines_net=totals.lines_net,
        net=totals.net,
        vat=vat_groups(totals),
        total=totals.gross,
        balance=totals.due,
        intro=_intro(rows, zone),
        work_from=rows.job.taken_in_at.astimezone(zone).date(),
        work_to=issued,
        pay_by=pay_by if totals.due.minor > 0 else None,
        discounts=discounts_of(draft),
        payments=payment_lines(rows, zone),
        rounding=totals.rounding if totals.rounding.minor else None,
        panel=payment_panel(settings, number, pay_by) if totals.due.minor > 0 else None,
        guarantee=_guarantee(rows, guarantee_given(rows, facts, issued), wording_of(sheet)),
        modifications=modification_blocks(rows, facts),
        cautions_user=cautions_of(safety_notes_of(rows, facts, Reader.USER)),
        cautions_technician=cautions_of(_for_technician(rows, facts)),
        e_invoice=None
        if preview
        else e_invoice_facts(
            settings, customer, draft, told(totals, wording_of(sheet)), number, issued, pay_by=pay_by
        ),
    )


def vat_groups(totals: Totals) -> tuple[VatGroup, ...]:
    """The VAT groups; the shipped words of a small business are said in the language of the paper."""

    def reason(text: str) -> Said:
        return Sentence(text) if text == SMALL_BUSINESS_WORDS.default else text

    return tuple(VatGroup(_percent(g.rate), g.base, g.tax, reason(g.reason)) for g in totals.groups)


def told(totals: Totals, wording: Wording) -> Totals:
    """The same for an e-invoice, whose words are said once for all in the language of its paper."""

    def reason(text: str) -> str:
        return wording(text) if text == SMALL_BUSINESS_WORDS.default else text

    return replace(totals, groups=tuple(replace(g, reason=reason(g.reason)) for g in totals.groups))


def discounts_of(draft: Draft) -> tuple[Discount, ...]:
    """Discounts, then charges on the whole."""
    return tuple(
        Discount(one.reason, _percent(one.vat_rate), Money(one.amount, draft.currency), charge)
        for charge, several in ((False, draft.discounts), (True, draft.charges))
        for one in several
    )


def payment_lines(rows: JobRows, zone: ZoneInfo) -> tuple[PaymentLine, ...]:
    """What was paid on the job and given back, each with its day and means."""
    return tuple(
        PaymentLine(
            Sentence(
                _TAKEN if row.amount > 0 else _GIVEN,
                {"day": row.at.astimezone(zone).date(), "means": MEANS[row.means]},
            ),
            Money(row.amount, row.currency),
        )
        for row in rows.payments
    )


def payment_panel(settings: ShopSettings, number: str, pay_by: date) -> PaymentPanel:
    """How an open balance is paid; by transfer where the shop entered its account, with a reference that fits it."""
    if not settings[IBAN]:
        return PaymentPanel(pay_by=pay_by, how=Sentence("At the counter in cash or by card, or by transfer."))
    return PaymentPanel(
        pay_by=pay_by,
        how=Sentence("At the counter in cash or by card, or by transfer to:"),
        holder=settings[ACCOUNT_HOLDER] or settings[SHOP_NAME],
        iban=grouped(settings[IBAN]),
        bic=compact(settings[BIC]),
        reference=grouped(creditor_reference(number)) if number else "",
    )


def _for_technician(rows: JobRows, facts: JobFacts) -> tuple[NoteTold, ...]:
    """What the next technician reads, and the safety test with its values and limits, which no other page of an
    invoice has."""
    tested = safety_record(rows, facts)
    record = (NoteTold("safety_test", Sentence("Safety test."), joined(tested)),) if tested else ()
    return (*safety_notes_of(rows, facts, Reader.TECHNICIAN), *record)


def line_on_paper(line: Line, net: Money) -> InvoiceLine:
    """A line as papers show it."""
    if line.kind is LineKind.TEXT:
        return InvoiceLine(line.words)
    return InvoiceLine(
        what=line.words,
        quantity=shown(line.quantity),
        unit=unit_words(line.unit, shown(line.quantity)),
        each=shown(line.price, decimals(net.currency)),
        vat=_percent(line.vat_rate),
        net=net,
        discount=Money(line.discount, net.currency) if line.discount else None,
        discount_reason=line.discount_reason,
    )


def _percent(rate: int) -> Decimal:
    percent = Decimal(rate) * HUNDREDTH
    return percent.quantize(Decimal(1)) if percent == percent.to_integral() else percent.normalize()


def _intro(rows: JobRows, zone: ZoneInfo) -> Said:
    """The last price that the customer agreed to, as it was recorded."""
    prices = [row for row in rows.agreements if row.yes and row.amount is not None]
    if not prices:
        return ""
    last = prices[-1]
    return Sentence(
        "You agreed on {day}: {what}.",
        {"day": last.said_at.astimezone(zone).date(), "what": last.what.rstrip(". ")},
    )


def _guarantee(rows: JobRows, given: Given | None, wording: Wording) -> Said:
    """The shop's words on the guarantee, and on a player that was modified; ours are translated."""
    if given is None:
        return ""
    settings = rows.settings
    values: dict[str, Value] = {
        "until": given.until,
        "guarantee_days": given.days,
        "handed_back": given.until - timedelta(days=given.days),
    }
    text = shop_words(settings, GUARANTEE_WORDS, values, wording)
    clause: Said | None = modified_clause(given.covers)
    if clause is None:
        return text
    clause = settings[GUARANTEE_MODIFIED_WORDS].strip() or clause
    return Sentence("{words} {more}", {"words": text, "more": clause})
