"""What a job has come to so far, as an invoice draft: labour, parts used, charges, less what was paid."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace

from app.book.bench.job_rows import JobRows, Rows
from app.trade.money import Money, decimals
from app.trade.office.invoice import Adjustment, Draft, Line, LineKind, work_out
from app.trade.settings.prices import CURRENCY, HOURLY_RATE, ROUND_DUE_TO, VAT_RATES
from app.trade.settings.shop_settings import ShopSettings

DISCOUNT = "discount"


def draft_of(rows: JobRows, *, fees_only: bool = False) -> Draft:
    """The draft of everything on the job; ``fees_only`` for a player returned unrepaired and unsafe."""
    currency = rows.settings[CURRENCY]
    lines = [] if fees_only else _with_vat([*_labour(rows), *_parts(rows)], rows.settings)
    scale = 10 ** (6 - decimals(currency))
    lines += [
        Line(
            charge.words,
            LineKind(charge.kind),
            charge.quantity,
            charge.unit,
            charge.price,
            charge.vat_rate,
            charge.category,
            charge.vat_reason,
            price_with_vat=charge.price_with_vat,
        )
        for charge in charged(rows, fees_only=fees_only)
    ]
    discounts = [
        Adjustment(row.price // scale, row.words, row.vat_rate, row.category, row.vat_reason)
        for row in discounted(rows, fees_only=fees_only)
    ]
    return Draft(
        currency,
        tuple(lines),
        tuple(discounts),
        prepaid=paid(rows),
        round_due_to=rows.settings[ROUND_DUE_TO],
    )


def charged(rows: JobRows, *, fees_only: bool = False) -> Rows:
    """The charges that stand on the draft, in the order of its last lines."""
    return [
        row
        for row in rows.charges
        if row.struck_at is None
        and row.kind != DISCOUNT
        and (not fees_only or row.kind in (LineKind.FEE, LineKind.TEXT))
    ]


def discounted(rows: JobRows, *, fees_only: bool = False) -> Rows:
    """The discounts that stand on the draft, in its order."""
    return [row for row in rows.charges if row.struck_at is None and row.kind == DISCOUNT and not fees_only]


def _with_vat(lines: list[Line], settings: ShopSettings) -> list[Line]:
    """Labour and parts keep only their rate; the shop's list of rates says of which category it is, and why."""
    rates = settings[VAT_RATES]
    known = {rate.rate: rate for rate in rates[::-1]}
    return [
        replace(line, category=known[line.vat_rate].category, vat_reason=known[line.vat_rate].reason)
        if line.vat_rate in known
        else line
        for line in lines
    ]


def _labour(rows: JobRows) -> list[Line]:
    """Time that was entered while the shop had no hourly rate yet is charged at the rate of now."""
    now = rows.settings[HOURLY_RATE]
    return [
        Line(row.words, LineKind.LABOUR, row.hours, "HUR", row.rate or now, row.vat_rate)
        for row in rows.labour
        if row.struck_at is None and row.charged
    ]


def _parts(rows: JobRows) -> list[Line]:
    used: dict[tuple[int, str, str, int, int], int] = defaultdict(int)
    for move in rows.part_moves:
        used[(move.part_id, move.words, move.unit, move.price, move.vat_rate)] -= move.quantity
    return [
        Line(words, LineKind.PART, quantity, unit, price, vat_rate)
        for (_, words, unit, price, vat_rate), quantity in used.items()
        if quantity > 0
    ]


def paid(rows: JobRows) -> int:
    """Minor units paid on the job so far, refunds taken off."""
    return sum(row.amount for row in rows.payments)


def work_so_far(rows: JobRows) -> Money:
    """Work, parts and charges of the job with VAT, to set against the agreed amount."""
    return work_out(draft_of(rows)).gross


def balance(rows: JobRows) -> Money:
    """Open on issued invoices of the job: gross and rounding, less everything paid on it. Zero without one."""
    currency = rows.settings[CURRENCY]
    if not rows.invoices:
        return Money(0, currency)
    return Money(sum(row.gross + row.rounding for row in rows.invoices) - paid(rows), currency)
