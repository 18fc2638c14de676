"""The list of customers: the newest, or those that what is typed may mean."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from app.book.door import Book
from app.book.find.lookup import ids_by_tail, ids_by_words
from app.book.tables import Customer, Job
from app.work.people.phone_matches import has_figures, ids_by_phone

SHOWN = 60
_THERE = (Customer.merged_into_id.is_(None), Customer.erased_at.is_(None))


@dataclass(frozen=True, slots=True)
class CustomerLine:
    """One line of the list."""

    id: int
    name: str
    phone: str
    city: str
    jobs: int
    last_at: datetime | None


def customer_list(book: Book, typed: str = "", limit: int = SHOWN) -> tuple[CustomerLine, ...]:
    """Customers by name, number or town; with nothing typed those whose players came in last."""
    with book.ask() as session:
        words = typed.strip()
        if not words:
            return _lines(session, _latest(session, limit))
        ids = ids_by_phone(session, words, limit) if has_figures(words) else []
        ids += ids_by_words(session, words, ("customer",), limit)["customer"]
        ids += ids_by_tail(session, words, ("customer",), limit)["customer"]
        return _lines(session, list(dict.fromkeys(ids))[:limit])


def customers_to_print(book: Book, typed: str, most: int) -> tuple[tuple[CustomerLine, ...], int]:
    """The same for a paper of at most ``most`` lines, and how many more there are; below zero where something is
    typed, as then they are not counted."""
    lines = customer_list(book, typed, most + 1)
    if typed.strip():
        return lines[:most], -1 if len(lines) > most else 0
    with book.ask() as session:
        every = session.scalar(select(func.count()).select_from(Customer).where(*_THERE)) or 0
    return lines[:most], max(every - len(lines[:most]), 0)


def _latest(session: Session, limit: int) -> list[int]:
    """Those who were here last, then cards without a job."""
    with_jobs = session.scalars(
        select(Job.customer_id).group_by(Job.customer_id).order_by(func.max(Job.id).desc()).limit(limit)
    ).all()
    newest = session.scalars(select(Customer.id).where(*_THERE).order_by(Customer.id.desc()).limit(limit))
    return list(dict.fromkeys([*with_jobs, *newest]))[:limit]


def _lines(session: Session, ids: list[int]) -> tuple[CustomerLine, ...]:
    if not ids:
        return ()
    counted = (
        select(Job.customer_id, func.count().label("jobs"), func.max(Job.taken_in_at).label("at"))
        .where(Job.customer_id.in_(ids))
        .group_by(Job.customer_id)
        .subquery()
    )
    rows = {
        row.id: CustomerLine(row.id, row.name, row.phone, row.city, jobs or 0, at)
        for row, jobs, at in session.execute(
            select(Customer, counted.c.jobs, counted.c.at)
            .outerjoin(counted, counted.c.customer_id == Customer.id)
            .where(Customer.id.in_(ids), *_THERE)
        )
    }
    return tuple(rows[key] for key in ids if key in rows)
