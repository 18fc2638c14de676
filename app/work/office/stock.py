"""Stock of a part: received, taken from a donor, sent back, scrapped, counted. What is on hand is the sum of moves."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from typing import Any

from sqlalchemy import func, select
from sqlalchemy.orm import Session, aliased

from app.book.door import Book, Change
from app.book.tables import Job, Part, PartMove, PartOrder, Staff, Unit
from app.trade.money import MICRO
from app.trade.office.stock import MOST, OUT_OF_STOCK, MoveKind, quantity_refused
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.trade.typed_words import check_typed
from app.work.office.parts import pieces
from app.work.shop_book import Done

NOTE_ROOM = 200


@dataclass(frozen=True, slots=True)
class MoveLine:
    """One move of a part, with what was on hand after it. ``job`` is the number that people say; ``player`` that of
    the job, or the donor; ``out_of`` the donor of a part that went straight into a job; ``ordered_on`` the day of the
    order that it came of."""

    id: int
    kind: MoveKind
    quantity: Decimal
    after: Decimal
    job_id: int | None
    job: int | None
    note: str
    at: datetime
    by: str
    unit_id: int | None = None
    player: str = ""
    out_of: str = ""
    ordered_on: date | None = None


@dataclass(frozen=True, slots=True)
class Donor:
    """A player that stays here for its parts. ``taken``: moves of parts out of it so far."""

    unit_id: int
    player: str
    serial: str
    taken: int


def part_moves(book: Book, part_id: int, *, most: int | None = None) -> tuple[MoveLine, ...]:
    """The moves of one part, newest first, each with what was on hand after it; at most so many."""
    with book.ask() as session:
        donor, mended = aliased(Unit), aliased(Unit)
        found: Any = session.execute(  # what was joined from outside may be missing
            select(PartMove, Job.number, Staff.name, donor, mended, PartOrder.ordered_on)
            .join(Staff, Staff.id == PartMove.by)
            .outerjoin(Job, Job.id == PartMove.job_id)
            .outerjoin(donor, donor.id == PartMove.unit_id)
            .outerjoin(mended, mended.id == Job.unit_id)
            .outerjoin(PartOrder, PartOrder.id == PartMove.order_id)
            .where(PartMove.part_id == part_id)
            .order_by(PartMove.id.desc())
            .limit(most)
        )
        lines, after = [], stock_of(session, part_id)
        for row, number, name, out_of, into, ordered_on in found:
            player = into or out_of
            lines.append(
                MoveLine(
                    id=row.id,
                    kind=row.kind,
                    quantity=pieces(row.quantity),
                    after=pieces(after),
                    job_id=row.job_id,
                    job=number,
                    # The note of what was put back holds the key of the move undone.
                    note="" if row.kind is MoveKind.PUT_BACK else row.note,
                    at=row.at,
                    by=name,
                    unit_id=None if player is None else player.id,
                    player="" if player is None else _named(player),
                    out_of=_named(out_of) if into is not None and out_of is not None else "",
                    ordered_on=ordered_on,
                )
            )
            after -= row.quantity
    return tuple(lines)


def donors(book: Book) -> tuple[Donor, ...]:
    """Players that stay here for their parts, by name."""
    with book.ask() as session:
        taken = (
            select(PartMove.unit_id, func.count().label("count"))
            .where(PartMove.kind == MoveKind.FROM_DONOR)
            .group_by(PartMove.unit_id)
            .subquery()
        )
        return tuple(
            Donor(unit.id, _named(unit), unit.serial, count or 0)
            for unit, count in session.execute(
                select(Unit, taken.c.count)
                .outerjoin(taken, taken.c.unit_id == Unit.id)
                .where(Unit.is_donor)
                .order_by(Unit.maker, Unit.model, Unit.serial, Unit.id)
            )
        )


def receive_part(book: Book, who: int, part_id: int, quantity: Decimal, *, note: str = "") -> Done[int]:
    """Put bought parts into stock. Raises FieldRefusal under ``quantity`` and ``note``."""
    return _moved(book, who, Sentence("received parts"), part_id, MoveKind.RECEIVED, quantity, note)


def send_back_part(book: Book, who: int, part_id: int, quantity: Decimal, *, note: str = "") -> Done[int]:
    """Send parts back to their supplier. Raises FieldRefusal as `receive_part` does, and for more than there are."""
    return _moved(book, who, Sentence("sent parts back"), part_id, MoveKind.SENT_BACK, quantity, note)


def scrap_part(book: Book, who: int, part_id: int, quantity: Decimal, *, note: str = "") -> Done[int]:
    """Throw parts away, with the reason as ``note``. Raises FieldRefusal as `send_back_part` does."""
    wrong = {} if note.strip() else {"note": Sentence("Say why they are scrapped.")}
    return _moved(book, who, Sentence("scrapped parts"), part_id, MoveKind.SCRAPPED, quantity, note, wrong)


def take_from_donor(
    book: Book, who: int, part_id: int, unit_id: int, quantity: Decimal, *, note: str = ""
) -> Done[int]:
    """Take parts out of a player that stays here as a donor. Raises FieldRefusal, also under ``unit``."""
    why = Sentence("took parts from a donor")
    return _moved(book, who, why, part_id, MoveKind.FROM_DONOR, quantity, note, unit_id=unit_id)


def count_part(book: Book, who: int, part_id: int, counted: Decimal, *, note: str = "") -> Done[int]:
    """Correct the stock to what was counted, by a move of the difference, which may be 0.

    What the book has is read in the same action, so that a part used in between is not counted away.
    """
    wrong = wrong_note(note)
    if not 0 <= counted <= MOST:
        wrong["quantity"] = Sentence("Say how many there are, 0 or more.")
    if wrong:
        raise FieldRefusal(wrong)
    with book.change(who, Sentence("counted parts")) as change:
        difference = int(counted * MICRO) - stock_of(change.session, part_id)
        row = move_part(change, change.get(Part, part_id), MoveKind.COUNTED, difference, note=note)
    return Done(row.id, change.changes)


def stock_of(session: Session, part_id: int) -> int:
    """What is on hand of one part, in millionths."""
    return session.scalar(select(func.sum(PartMove.quantity)).where(PartMove.part_id == part_id)) or 0


def move_part(
    change: Change,
    part: Part,
    kind: MoveKind,
    quantity: int,
    *,
    job_id: int | None = None,
    unit_id: int | None = None,
    order_id: int | None = None,
    note: str = "",
) -> PartMove:
    """Write one move inside an action, at the part's price of now; ``quantity`` in millionths, with its sign."""
    return change.add(
        PartMove(
            part_id=part.id,
            kind=kind,
            quantity=quantity,
            job_id=job_id,
            unit_id=unit_id,
            order_id=order_id,
            price=part.price,
            vat_rate=part.vat_rate,
            note=note.strip(),
            at=change.now,
            by=change.by,
        )
    )


def donor_refused(change: Change, unit_id: int) -> Sentence | None:
    """Why a player gives no parts, or None for a donor."""
    if change.get(Unit, unit_id).is_donor:
        return None
    return Sentence("Only a player that stays here as a donor gives parts.")


def _moved(
    book: Book,
    who: int,
    why: Sentence,
    part_id: int,
    kind: MoveKind,
    quantity: Decimal,
    note: str,
    also_wrong: dict[str, Sentence] | None = None,
    unit_id: int | None = None,
) -> Done[int]:
    with book.change(who, why) as change:
        part = change.get(Part, part_id)
        wrong = {**(also_wrong or {}), **wrong_note(note)}
        if refused := quantity_refused(kind, quantity, pieces(stock_of(change.session, part_id))):
            wrong["quantity"] = refused
        if unit_id is not None and (no_donor := donor_refused(change, unit_id)):
            wrong["unit"] = no_donor
        if wrong:
            raise FieldRefusal(wrong)
        micro = int(quantity * MICRO)
        signed = -micro if kind in OUT_OF_STOCK else micro
        row = move_part(change, part, kind, signed, unit_id=unit_id, note=note)
    return Done(row.id, change.changes)


def wrong_note(note: str) -> dict[str, Sentence]:
    """What cannot stand as the note of a move, under ``note``."""
    why = check_typed(note, NOTE_ROOM)
    return {"note": why} if why else {}


def _named(unit: Unit) -> str:
    return f"{unit.maker} {unit.model}".strip()
