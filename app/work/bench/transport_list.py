"""The list of transports: where each is now, those on a shelf or in a donor alone, or those that are typed for."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from sqlalchemy import ColumnElement, func, or_, select

from app.book.door import Book
from app.book.find.lookup import ids_by_tail, ids_by_words
from app.book.tables import Fitting, Transport, TransportType, Unit
from app.trade.bench.kinds import Arrangement
from app.trade.sentence import words

SHOWN = 60


class Where(StrEnum):
    """Which transports the list shows."""

    EVERY = words("all of them")
    FREE = words("on a shelf or in a donor")
    FITTED = words("in players")


@dataclass(frozen=True, slots=True)
class TransportLine:
    """One line of the list. ``unit`` is the player it is in since ``since``; empty on the ``shelf``."""

    id: int
    type: str
    arrangement: Arrangement
    marking: str
    unit_id: int | None
    unit: str
    unit_serial: str
    donor: bool
    shelf: str
    since: datetime | None
    scrapped: bool


def transport_list(
    book: Book, typed: str = "", where: Where = Where.EVERY, limit: int = SHOWN
) -> tuple[TransportLine, ...]:
    """Transports by type, marking or the end of it; with nothing typed those that came into the book last.

    Free are those that can go into another player: on a shelf or in a donor, and not scrapped.
    """
    asked = (
        select(Transport, TransportType, Fitting, Unit)
        .join(TransportType, TransportType.id == Transport.type_id)
        .outerjoin(Fitting, (Fitting.transport_id == Transport.id) & Fitting.removed_at.is_(None))
        .outerjoin(Unit, Unit.id == Fitting.unit_id)
        .where(*_where(where))
    )
    with book.ask() as session:
        question = typed.strip()
        if not question:
            rows = session.execute(asked.order_by(Transport.id.desc()).limit(limit)).all()
            return tuple(_line(*row) for row in rows)
        found = ids_by_words(session, question, ("transport",), limit)["transport"]
        found += ids_by_tail(session, question, ("transport",), limit)["transport"]
        ids = list(dict.fromkeys(found))[:limit]
        lines = {row[0].id: _line(*row) for row in session.execute(asked.where(Transport.id.in_(ids)))}
        return tuple(lines[key] for key in ids if key in lines)


def transports_to_print(
    book: Book, typed: str, where: Where, most: int
) -> tuple[tuple[TransportLine, ...], int]:
    """The same for a paper of at most ``most`` lines, and how many more there are; below zero where something is
    typed, as then they are not counted."""
    lines = transport_list(book, typed, where, most + 1)
    if typed.strip() or len(lines) <= most:
        return lines[:most], -1 if len(lines) > most else 0
    asked = (
        select(func.count())
        .select_from(Transport)
        .outerjoin(Fitting, (Fitting.transport_id == Transport.id) & Fitting.removed_at.is_(None))
        .outerjoin(Unit, Unit.id == Fitting.unit_id)
        .where(*_where(where))
    )
    with book.ask() as session:
        return lines[:most], (session.scalar(asked) or 0) - most


def _where(where: Where) -> tuple[ColumnElement[bool], ...]:
    if where is Where.FREE:
        return (Transport.scrapped_at.is_(None), or_(Fitting.id.is_(None), Unit.is_donor))
    if where is Where.FITTED:
        return (Fitting.id.is_not(None), Unit.is_donor.is_(False))
    return ()


def _line(
    transport: Transport, kind: TransportType, fitting: Fitting | None, unit: Unit | None
) -> TransportLine:
    return TransportLine(
        id=transport.id,
        type=kind.name,
        arrangement=kind.arrangement,
        marking=transport.marking,
        unit_id=unit.id if unit is not None else None,
        unit=f"{unit.maker} {unit.model}".strip() if unit is not None else "",
        unit_serial=unit.serial if unit is not None else "",
        donor=unit is not None and unit.is_donor,
        shelf=transport.shelf if unit is None else "",
        since=fitting.fitted_at if fitting is not None else None,
        scrapped=transport.scrapped_at is not None,
    )
