"""Parts that the shop keeps: listed, received, counted. Stock on hand is the sum of moves."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from app.book.door import Book, Change
from app.book.office.shop_settings import settings_of
from app.book.tables import Job, Part, PartMove, Staff
from app.trade.money import MICRO
from app.trade.office.invoice import UNITS
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence, words
from app.trade.settings.prices import VAT_RATES
from app.trade.typed_words import check_typed
from app.work.shop_book import Done

MOST = Decimal(1_000_000)
CODE_ROOM, WORDS_ROOM, NOTE_ROOM = 40, 120, 200
# How a move is told, by the word that is kept.
MOVES = {
    "received": words("received"),
    "counted": words("counted"),
    "used": words("used"),
    "put back": words("put back"),
}


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
    retired: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class PartEntry:
    """A part as entered. ``vat_rate`` None: the shop's first rate."""

    code: str
    words: str
    price: int
    unit: str = "H87"
    vat_rate: int | None = None
    safety_type: str = ""
    retired: bool = False


@dataclass(frozen=True, slots=True)
class MoveLine:
    """One move of a part, with what was on hand after it. ``job`` is the number that people say."""

    id: int
    kind: str
    quantity: Decimal
    after: Decimal
    job_id: int | None
    job: int | None
    note: str
    at: datetime
    by: str


def parts(book: Book, *, retired: bool = False) -> tuple[PartLine, ...]:
    """Parts in use, by code; with ``retired`` also those no longer kept."""
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
                _pieces(on_hand or 0),
                row.retired,
            )
            for row, on_hand in session.execute(
                select(Part, stock.c.sum).outerjoin(stock, stock.c.part_id == Part.id).order_by(Part.code)
            )
            if retired or not row.retired
        )


def part_moves(book: Book, part_id: int) -> tuple[MoveLine, ...]:
    """The moves of one part, newest first, each with what was on hand after it."""
    with book.ask() as session:
        found = session.execute(
            select(PartMove, Job.number, Staff.name)
            .join(Staff, Staff.id == PartMove.by)
            .outerjoin(Job, Job.id == PartMove.job_id)
            .where(PartMove.part_id == part_id)
            .order_by(PartMove.id)
        )
        lines, after = [], 0
        for row, number, name in found:
            after += row.quantity
            note = "" if row.kind == "put back" else row.note  # there it holds the key of the move undone
            lines.append(
                MoveLine(
                    row.id,
                    row.kind,
                    _pieces(row.quantity),
                    _pieces(after),
                    row.job_id,
                    number,
                    note,
                    row.at,
                    name,
                )
            )
    return tuple(reversed(lines))


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
        row.retired = entry.retired
        change.add(row)
    return Done(row.id, change.changes)


def _wrong(entry: PartEntry) -> dict[str, Sentence]:
    wrong: dict[str, Sentence] = {}
    if not entry.code.strip():
        wrong["code"] = Sentence("Give the part a code, as it stands on its drawer.")
    if not entry.words.strip():
        wrong["words"] = Sentence("Say what the part is.")
    rooms = {"code": CODE_ROOM, "words": WORDS_ROOM, "safety_type": WORDS_ROOM}
    for field, room in rooms.items():
        if why := check_typed(getattr(entry, field), room):
            wrong[field] = why
    if entry.price < 0:
        wrong["price"] = Sentence("A price is not below zero.")
    if entry.unit not in UNITS:
        wrong["unit"] = Sentence("Choose a unit.")
    return wrong


def receive_part(book: Book, who: int, part_id: int, quantity: Decimal, *, note: str = "") -> Done[int]:
    """Put parts into stock. Raises FieldRefusal under ``quantity`` and ``note``."""
    wrong = _wrong_note(note)
    if not 0 < quantity <= MOST:
        wrong["quantity"] = Sentence("Say how many, more than 0.")
    if wrong:
        raise FieldRefusal(wrong)
    with book.change(who, Sentence("received parts")) as change:
        row = _move(change, part_id, "received", int(quantity * MICRO), note)
    return Done(row.id, change.changes)


def count_part(book: Book, who: int, part_id: int, counted: Decimal, *, note: str = "") -> Done[int]:
    """Correct the stock to what was counted, by a move of the difference, which may be 0.

    What the book has is read in the same action, so that a part used in between is not counted away.
    """
    wrong = _wrong_note(note)
    if not 0 <= counted <= MOST:
        wrong["quantity"] = Sentence("Say how many there are, 0 or more.")
    if wrong:
        raise FieldRefusal(wrong)
    with book.change(who, Sentence("counted parts")) as change:
        difference = int(counted * MICRO) - _on_hand(change.session, part_id)
        row = _move(change, part_id, "counted", difference, note)
    return Done(row.id, change.changes)


def _wrong_note(note: str) -> dict[str, Sentence]:
    why = check_typed(note, NOTE_ROOM)
    return {"note": why} if why else {}


def _on_hand(session: Session, part_id: int) -> int:
    return session.scalar(select(func.sum(PartMove.quantity)).where(PartMove.part_id == part_id)) or 0


def _move(change: Change, part_id: int, kind: str, quantity: int, note: str) -> PartMove:
    part = change.get(Part, part_id)
    return change.add(
        PartMove(
            part_id=part.id,
            kind=kind,
            quantity=quantity,
            price=part.price,
            vat_rate=part.vat_rate,
            note=note.strip(),
            at=change.now,
            by=change.by,
        )
    )


def _pieces(micro: int) -> Decimal:
    """A quantity without digits that say nothing."""
    number = (Decimal(micro) / MICRO).normalize()
    return number.quantize(Decimal(1)) if number == number.to_integral() else number
