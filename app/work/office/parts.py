"""Parts that the shop keeps: listed, received, counted. Stock on hand is the sum of moves."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from sqlalchemy import func, select

from app.book.door import Book
from app.book.office.shop_settings import settings_of
from app.book.tables import Part, PartMove
from app.trade.money import MICRO
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.trade.settings.prices import VAT_RATES
from app.work.shop_book import Done


@dataclass(frozen=True, slots=True)
class PartLine:
    """One part with what is on hand. ``price`` in millionths, net."""

    id: int
    version: int
    code: str
    words: str
    unit: str
    price: int
    vat_rate: int
    safety_type: str
    on_hand: Decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class PartEntry:
    """A part as entered. ``vat_rate`` None: the shop's first rate."""

    code: str
    words: str
    price: int
    unit: str = "H87"
    vat_rate: int | None = None
    safety_type: str = ""


def parts(book: Book) -> tuple[PartLine, ...]:
    """Parts in use, by code."""
    with book.ask() as session:
        moved = select(PartMove.part_id, func.sum(PartMove.quantity).label("sum")).group_by(PartMove.part_id)
        stock = moved.subquery()
        return tuple(
            PartLine(
                row.id,
                row.version,
                row.code,
                row.words,
                row.unit,
                row.price,
                row.vat_rate,
                row.safety_type,
                (Decimal(on_hand or 0) / MICRO).normalize() + 0,
            )
            for row, on_hand in session.execute(
                select(Part, stock.c.sum)
                .outerjoin(stock, stock.c.part_id == Part.id)
                .where(Part.retired.is_(False))
                .order_by(Part.code)
            )
        )


def save_part(
    book: Book, who: int, entry: PartEntry, *, part_id: int | None = None, version: int | None = None
) -> Done[int]:
    """Add a part, or change its words and price. Raises FieldRefusal, StaleRow."""
    wrong: dict[str, Sentence] = {}
    if not entry.code.strip():
        wrong["code"] = Sentence("Give the part a code, as it stands on its drawer.")
    if not entry.words.strip():
        wrong["words"] = Sentence("Say what the part is.")
    if entry.price < 0:
        wrong["price"] = Sentence("A price is not below zero.")
    with book.change(who, Sentence("changed a part in the list")) as change:
        other = change.session.scalar(select(Part.id).where(Part.code == entry.code.strip()))
        if other is not None and other != part_id:
            wrong["code"] = Sentence("Another part has this code.")
        if wrong:
            raise FieldRefusal(wrong)
        rate = settings_of(change.session)[VAT_RATES][0].rate if entry.vat_rate is None else entry.vat_rate
        row = Part() if part_id is None else change.get(Part, part_id, version=version)
        row.code, row.words, row.unit = entry.code.strip(), entry.words.strip(), entry.unit
        row.price, row.vat_rate, row.safety_type = entry.price, rate, entry.safety_type.strip()
        change.add(row)
    return Done(row.id, change.changes)


def receive_part(book: Book, who: int, part_id: int, quantity: Decimal, *, note: str = "") -> Done[int]:
    """Put parts into stock."""
    if not Decimal(0) < quantity <= Decimal(1_000_000):
        raise FieldRefusal({"quantity": Sentence("Say how many, more than 0.")})
    return _move(book, who, part_id, "received", quantity, note, Sentence("received parts"))


def count_part(book: Book, who: int, part_id: int, counted: Decimal, *, note: str = "") -> Done[int]:
    """Correct the stock to what was counted, by a move of the difference."""
    if not Decimal(0) <= counted <= Decimal(1_000_000):
        raise FieldRefusal({"quantity": Sentence("Say how many there are, 0 or more.")})
    on_hand = next((line.on_hand for line in parts(book) if line.id == part_id), Decimal(0))
    return _move(book, who, part_id, "counted", counted - on_hand, note, Sentence("counted parts"))


def _move(
    book: Book, who: int, part_id: int, kind: str, quantity: Decimal, note: str, deed: Sentence
) -> Done[int]:
    with book.change(who, deed) as change:
        part = change.get(Part, part_id)
        row = change.add(
            PartMove(
                part_id=part.id,
                kind=kind,
                quantity=int(quantity * MICRO),
                price=part.price,
                vat_rate=part.vat_rate,
                note=note.strip(),
                at=change.now,
                by=change.by,
            )
        )
    return Done(row.id, change.changes)
