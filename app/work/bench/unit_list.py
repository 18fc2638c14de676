"""The list of players: those that were here last, or those that what is typed may mean."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from app.book.door import Book
from app.book.find.lookup import ids_by_tail, ids_by_words
from app.book.tables import Customer, Job, Modification, Unit
from app.trade.bench.stages import Stage

SHOWN = 60


@dataclass(frozen=True, slots=True)
class UnitLine:
    """One line of the list. ``here`` is the number of the job that it is in the shop with; ``changed`` counts the
    modifications that stay in the player itself."""

    id: int
    maker: str
    model: str
    serial: str
    owner: str
    jobs: int
    last_at: datetime | None
    here: int | None
    changed: int


def unit_list(book: Book, typed: str = "", limit: int = SHOWN) -> tuple[UnitLine, ...]:
    """Players by maker, model or the end of their serial; with nothing typed those that came in last."""
    with book.ask() as session:
        words = typed.strip()
        if not words:
            return _lines(session, _latest(session, limit))
        ids = ids_by_words(session, words, ("unit",), limit)["unit"]
        ids += ids_by_tail(session, words, ("unit",), limit)["unit"]
        return _lines(session, list(dict.fromkeys(ids))[:limit])


def units_to_print(book: Book, typed: str, most: int) -> tuple[tuple[UnitLine, ...], int]:
    """The same for a paper of at most ``most`` lines, and how many more there are; below zero where something is
    typed, as then they are not counted."""
    lines = unit_list(book, typed, most + 1)
    if typed.strip() or len(lines) <= most:
        return lines[:most], -1 if len(lines) > most else 0
    with book.ask() as session:
        every = session.scalar(select(func.count(Job.unit_id.distinct()))) or 0
    return lines[:most], every - most


def _latest(session: Session, limit: int) -> list[int]:
    last = select(Job.unit_id).group_by(Job.unit_id).order_by(func.max(Job.id).desc()).limit(limit)
    return list(session.scalars(last))


def _lines(session: Session, ids: list[int]) -> tuple[UnitLine, ...]:
    jobs = (
        select(Job.unit_id, func.count().label("jobs"), func.max(Job.taken_in_at).label("at"))
        .where(Job.unit_id.in_(ids))
        .group_by(Job.unit_id)
        .subquery()
    )
    changed = (
        select(Modification.unit_id, func.count().label("changed"))
        .where(
            Modification.unit_id.in_(ids),
            Modification.reversed_at.is_(None),
            Modification.struck_at.is_(None),
        )
        .group_by(Modification.unit_id)
        .subquery()
    )
    here = dict(
        session.execute(
            select(Job.unit_id, Job.number).where(Job.unit_id.in_(ids), Job.stage != Stage.HANDED_BACK)
        ).all()
    )
    rows = session.execute(
        select(Unit, func.coalesce(Customer.name, ""), jobs.c.jobs, jobs.c.at, changed.c.changed)
        .outerjoin(Customer, Customer.id == Unit.customer_id)
        .outerjoin(jobs, jobs.c.unit_id == Unit.id)
        .outerjoin(changed, changed.c.unit_id == Unit.id)
        .where(Unit.id.in_(ids))
    )
    lines = {
        unit.id: UnitLine(
            unit.id,
            unit.maker,
            unit.model,
            unit.serial,
            owner,
            count or 0,
            at,
            here.get(unit.id),
            live or 0,
        )
        for unit, owner, count, at, live in rows
    }
    return tuple(lines[key] for key in ids if key in lines)
