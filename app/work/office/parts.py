"""Parts that the shop keeps: what they are, where they come from, and what is on hand."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any

from sqlalchemy import Subquery, func, select

from app.book.door import Book
from app.book.office.part_orders import on_order
from app.book.office.shop_settings import settings_of
from app.book.tables import Part, PartMove
from app.trade.money import MICRO
from app.trade.office.invoice import UNITS
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.trade.settings.parts import SERVICE_LEVELS
from app.trade.settings.prices import VAT_RATES
from app.trade.typed_words import check_typed
from app.work.shop_book import Done

CODE_ROOM, WORDS_ROOM, NAME_ROOM, BIN_ROOM = 40, 120, 80, 40
LONGEST_LEAD = 730  # days
HIGHEST = 1_000_000 * MICRO


@dataclass(frozen=True, slots=True, kw_only=True)
class PartLine:
    """One part with what is on hand. ``price`` and ``cost`` in millionths, net; ``cost`` None: not known.

    ``lead_days`` and ``service`` (10^-4) None: as the shop's settings have them. ``on_order`` is still to come, the
    first of it expected on ``expected_on``.
    """

    id: int
    version: int
    code: str
    words: str
    unit: str
    price: int
    vat_rate: int
    safety_type: str
    on_hand: Decimal
    retired: bool = False
    supplier: str = ""
    order_code: str = ""
    cost: int | None = None
    bin: str = ""
    rating: str = ""
    safety_critical: bool = False
    lead_days: int | None = None
    service: int | None = None
    on_order: Decimal = Decimal(0)
    expected_on: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PartEntry:
    """A part as entered. ``vat_rate`` None: the shop's first rate; the rest as `PartLine` has it."""

    code: str
    words: str
    price: int
    unit: str = "H87"
    vat_rate: int | None = None
    safety_type: str = ""
    retired: bool = False
    supplier: str = ""
    order_code: str = ""
    cost: int | None = None
    bin: str = ""
    rating: str = ""
    safety_critical: bool = False
    lead_days: int | None = None
    service: int | None = None


def parts(book: Book, *, retired: bool = False) -> tuple[PartLine, ...]:
    """Parts in use, by code; with ``retired`` also those no longer kept."""
    with book.ask() as session:
        stock, ordered = stock_sums(), on_order()
        asked = (
            select(Part, stock.c.sum, ordered.c.sum, ordered.c.next)
            .outerjoin(stock, stock.c.part_id == Part.id)
            .outerjoin(ordered, ordered.c.part_id == Part.id)
            .order_by(Part.code)
        )
        return tuple(
            part_line(row, on_hand or 0, to_come or 0, expected_on)
            for row, on_hand, to_come, expected_on in session.execute(asked)
            if retired or not row.retired
        )


def stock_sums() -> Subquery:
    """``part_id`` and ``sum`` of its moves, in millionths."""
    return (
        select(PartMove.part_id, func.sum(PartMove.quantity).label("sum"))
        .group_by(PartMove.part_id)
        .subquery()
    )


def part_line(row: Any, on_hand: int = 0, to_come: int = 0, expected_on: date | None = None) -> PartLine:
    """A row of the list, or what stands for it; ``on_hand`` and ``to_come`` in millionths."""
    return PartLine(
        id=row.id,
        version=row.version,
        code=row.code,
        words=row.words,
        unit=row.unit,
        price=row.price,
        vat_rate=row.vat_rate,
        safety_type=row.safety_type,
        on_hand=pieces(on_hand),
        retired=row.retired,
        supplier=row.supplier or "",
        order_code=row.order_code or "",
        cost=row.cost,
        bin=row.bin or "",
        rating=row.rating or "",
        safety_critical=bool(row.safety_critical),
        lead_days=row.lead_days,
        service=row.service,
        on_order=pieces(to_come),
        expected_on=expected_on,
    )


def suppliers(book: Book) -> tuple[str, ...]:
    """The names of suppliers that parts have, by name."""
    with book.ask() as session:
        named = select(Part.supplier).where(Part.supplier != "").distinct().order_by(Part.supplier)
        return tuple(name for name in session.scalars(named) if name)


def save_part(
    book: Book, who: int, entry: PartEntry, *, part_id: int | None = None, version: int | None = None
) -> Done[int]:
    """Add a part, or change its words and price. Raises FieldRefusal, StaleRow."""
    wrong = _wrong(entry)
    with book.change(who, Sentence("changed a part in the list")) as change:
        row = Part() if part_id is None else change.get(Part, part_id, version=version)
        other = change.session.scalar(select(Part.id).where(Part.code == entry.code.strip()))
        if other is not None and other != part_id:
            wrong["code"] = Sentence("Another part has this code.")
        rates = [rate.rate for rate in settings_of(change.session)[VAT_RATES]]
        rate = rates[0] if entry.vat_rate is None else entry.vat_rate
        if rate not in rates and rate != row.vat_rate:
            wrong["vat_rate"] = Sentence("Choose one of the shop's VAT rates.")
        if wrong:
            raise FieldRefusal(wrong)
        row.code, row.words, row.unit = entry.code.strip(), entry.words.strip(), entry.unit
        row.price, row.vat_rate, row.safety_type = entry.price, rate, entry.safety_type.strip()
        row.retired, row.safety_critical = entry.retired, entry.safety_critical
        row.supplier, row.order_code = entry.supplier.strip(), entry.order_code.strip()
        row.bin, row.rating, row.cost = entry.bin.strip(), entry.rating.strip(), entry.cost
        row.lead_days, row.service = entry.lead_days, entry.service
        change.add(row)
    return Done(row.id, change.changes)


def _wrong(entry: PartEntry) -> dict[str, Sentence]:
    wrong: dict[str, Sentence] = {}
    if not entry.code.strip():
        wrong["code"] = Sentence("Give the part a code, as it stands on its drawer.")
    if not entry.words.strip():
        wrong["words"] = Sentence("Say what the part is.")
    rooms = {
        "code": CODE_ROOM,
        "words": WORDS_ROOM,
        "safety_type": WORDS_ROOM,
        "supplier": NAME_ROOM,
        "order_code": NAME_ROOM,
        "bin": BIN_ROOM,
        "rating": NAME_ROOM,
    }
    for field, room in rooms.items():
        if why := check_typed(getattr(entry, field), room):
            wrong[field] = why
    if entry.safety_critical and not (entry.rating.strip() or entry.safety_type.strip()):
        wrong["rating"] = Sentence("A part that protects people needs its rating, or what it must carry.")
    for field, amount in (("price", entry.price), ("cost", entry.cost or 0)):
        if amount < 0:
            wrong[field] = Sentence("A price is not below zero.")
        elif amount > HIGHEST:
            wrong[field] = Sentence("That price is too high to be meant.")
    if entry.lead_days is not None and not 1 <= entry.lead_days <= LONGEST_LEAD:
        wrong["lead_days"] = Sentence("A supplier takes 1 to {most} days.", {"most": LONGEST_LEAD})
    if entry.service is not None and entry.service not in SERVICE_LEVELS:
        wrong["service"] = Sentence("Choose one of the values offered.")
    if entry.unit not in UNITS:
        wrong["unit"] = Sentence("Choose a unit.")
    return wrong


def pieces(micro: int) -> Decimal:
    """A quantity without digits that say nothing."""
    number = (Decimal(micro) / MICRO).normalize()
    return number.quantize(Decimal(1)) if number == number.to_integral() else number
