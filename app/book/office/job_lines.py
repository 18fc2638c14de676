"""What a job has come to so far, as an invoice draft: labour, parts used, charges, less what was paid."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, replace

from app.book.bench.job_rows import JobRows, Rows
from app.book.bench.job_rows import Line as Kept
from app.book.office.estimate_lines import line_of, taken_of
from app.trade.money import Money, decimals
from app.trade.office.estimate import Taken, taken_lines
from app.trade.office.invoice import Adjustment, Draft, Line, LineKind, asked_with_vat
from app.trade.office.on_the_bill import LineOf, OnBill, exempt, without_vat
from app.trade.settings.prices import (
    CURRENCY,
    HOURLY_RATE,
    ROUND_DUE_TO,
    SMALL_BUSINESS,
    SMALL_BUSINESS_WORDS,
    VAT_RATES,
)

Source = tuple[LineOf, int]  # where a line comes from, and its key there; of a part its own key


@dataclass(frozen=True, slots=True)
class Drafted:
    """A draft with what stands behind it: of each line its source, of discounts and charges on the whole and of
    discounts on lines the keys of their entries, and that of the entry which takes VAT off it all."""

    draft: Draft
    sources: tuple[Source, ...]
    discount_ids: tuple[int, ...]
    surcharge_ids: tuple[int, ...]
    line_discount_ids: dict[Source, int]
    no_vat_id: int | None


def draft_of(rows: JobRows, *, fees_only: bool = False) -> Draft:
    """The draft of everything on the job; ``fees_only`` for a player returned unrepaired and unsafe."""
    return drafted(rows, fees_only=fees_only).draft


def drafted(rows: JobRows, *, fees_only: bool = False) -> Drafted:
    """The same with what stands behind it."""
    currency = rows.settings[CURRENCY]
    coin = 10 ** (6 - decimals(currency))
    found = [] if fees_only else [*_worked(rows), *_estimated(rows)]
    found += [_charge(row) for row in charged(rows, fees_only=fees_only)]
    off = (
        {} if fees_only else {(row.line_of, row.line_id): row for row in _entries(rows, OnBill.LINE_DISCOUNT)}
    )
    given: dict[Source, int] = {}
    for at, (source, line) in enumerate(found):
        if (row := off.pop(source, None)) is not None:
            given[source] = row.id
            less = replace(line, discount=row.price // coin, discount_reason=row.words)
            found[at] = (source, less)
    discounts = [] if fees_only else _entries(rows, OnBill.DISCOUNT)
    surcharges = [] if fees_only else _entries(rows, OnBill.SURCHARGE)
    free = next(reversed(_entries(rows, OnBill.NO_VAT)), None)
    draft = Draft(
        currency,
        tuple(line for _, line in found),
        tuple(_adjustment(row, coin) for row in discounts),
        tuple(_adjustment(row, coin) for row in surcharges),
        prepaid=paid(rows),
        round_due_to=rows.settings[ROUND_DUE_TO],
    )
    if rows.settings[SMALL_BUSINESS]:
        draft = exempt(draft, rows.settings[SMALL_BUSINESS_WORDS])
    elif free is not None:
        draft = without_vat(draft, free.category, free.vat_reason)
    return Drafted(
        draft,
        tuple(source for source, _ in found),
        tuple(row.id for row in discounts),
        tuple(row.id for row in surcharges),
        given,
        None if free is None else free.id,
    )


def _adjustment(row: Kept, coin: int) -> Adjustment:
    return Adjustment(row.price // coin, row.words, row.vat_rate, row.category, row.vat_reason)


def charged(rows: JobRows, *, fees_only: bool = False) -> Rows:
    """The charges that are lines of the draft, in the order of its last lines."""
    kinds = (LineKind.FEE, LineKind.TEXT) if fees_only else tuple(LineKind)
    return [row for row in rows.charges if row.struck_at is None and row.kind in kinds]


def _entries(rows: JobRows, kind: OnBill) -> list[Kept]:
    return [row for row in rows.charges if row.struck_at is None and row.kind == kind]


def _charge(row: Kept) -> tuple[Source, Line]:
    return (LineOf.CHARGE, row.id), Line(
        row.words,
        LineKind(row.kind),
        row.quantity,
        row.unit,
        row.price,
        row.vat_rate,
        row.category,
        row.vat_reason,
        price_with_vat=row.price_with_vat,
    )


def _worked(rows: JobRows) -> Iterator[tuple[Source, Line]]:
    """Working time and parts of the bench, where no estimate stands in their place.

    They keep only their rate; the shop's list of rates says of which category it is, and why.
    """
    if taken_of(rows) is not Taken.AS_WORKED:
        return
    known = {rate.rate: rate for rate in rows.settings[VAT_RATES][::-1]}
    for source, line in (*_labour(rows), *_parts(rows)):
        if rate := known.get(line.vat_rate):
            line = replace(line, category=rate.category, vat_reason=rate.reason)
        yield source, line


def _estimated(rows: JobRows) -> Iterator[tuple[Source, Line]]:
    """The lines of the option that the customer chose which go onto the invoice."""
    for row in rows.estimate_lines:
        for line in taken_lines([line_of(row)], taken_of(rows)):
            yield (LineOf.ESTIMATE, row.id), line


def _labour(rows: JobRows) -> Iterator[tuple[Source, Line]]:
    """Time that was entered while the shop had no hourly rate yet is charged at the rate of now."""
    now = rows.settings[HOURLY_RATE]
    for row in rows.labour:
        if row.struck_at is None and row.charged:
            line = Line(row.words, LineKind.LABOUR, row.hours, "HUR", row.rate or now, row.vat_rate)
            yield (LineOf.LABOUR, row.id), line


def _parts(rows: JobRows) -> Iterator[tuple[Source, Line]]:
    used: dict[tuple[int, str, str, int, int], int] = defaultdict(int)
    for move in rows.part_moves:
        used[(move.part_id, move.words, move.unit, move.price, move.vat_rate)] -= move.quantity
    for (part, words, unit, price, vat_rate), quantity in used.items():
        if quantity > 0:
            yield (LineOf.PART, part), Line(words, LineKind.PART, quantity, unit, price, vat_rate)


def paid(rows: JobRows) -> int:
    """Minor units paid on the job so far, refunds taken off."""
    return sum(row.amount for row in rows.payments)


def work_so_far(rows: JobRows) -> Money:
    """Work, parts and charges of the job with VAT, to set against the agreed amount."""
    return asked_with_vat(draft_of(rows))


def credited(rows: JobRows, invoice_id: int | None = None) -> int:
    """Minor units that credit notes gave back, on the whole job or on one of its invoices."""
    return sum(row.due for row in rows.credit_notes if invoice_id in (None, row.invoice_id))


def standing_invoice(rows: JobRows) -> Kept | None:
    """The invoice of the job that still asks for something or did; None when there is none, or all was credited."""
    if not rows.invoices:
        return None
    last = rows.invoices[-1]
    noted = any(
        row.invoice_id == last.id for row in rows.credit_notes
    )  # one at no charge is credited with nothing
    return None if noted and credited(rows, last.id) == last.gross + last.rounding else last


def balance(rows: JobRows) -> Money:
    """Open on the job: its invoices without their credit notes, less everything paid on it. Zero without one."""
    currency = rows.settings[CURRENCY]
    if not rows.invoices:
        return Money(0, currency)
    billed = sum(row.gross + row.rounding for row in rows.invoices) - credited(rows)
    return Money(billed - paid(rows), currency)
