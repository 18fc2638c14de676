"""What was asked for that would make the player unsafe, as it stands on the job."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import select

from app.book.door import Book
from app.book.tables import Staff, UnsafeRequest


@dataclass(frozen=True, slots=True)
class RequestLine:
    """One request. ``refused_at`` None: it is open and holds the job."""

    id: int
    what: str
    at: datetime
    by: str
    refused_at: datetime | None
    refused_by: str


def unsafe_requests(book: Book, job_id: int) -> tuple[RequestLine, ...]:
    """The requests of a job in the order of time; noted and refused in app/work/counter/requests."""
    with book.ask() as session:
        names = dict(session.execute(select(Staff.id, Staff.name)).all())
        return tuple(
            RequestLine(
                row.id, row.what, row.at, names[row.by], row.refused_at, names.get(row.refused_by or 0, "")
            )
            for row in session.scalars(
                select(UnsafeRequest)
                .where(UnsafeRequest.job_id == job_id)
                .order_by(UnsafeRequest.at, UnsafeRequest.id)
            )
        )
