"""Customers who were asked and have not answered: since when, and for how long the shop wants to wait."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from app.book.door import Book
from app.book.office.shop_settings import settings_of
from app.book.tables import Estimate, Job, Message
from app.trade.bench.stages import Stage, Waiting
from app.trade.calendar.promise import local_day
from app.trade.office.estimate import days_unanswered
from app.trade.settings.terms import NO_ANSWER_DAYS

# By name, so that the index on stage and promise answers.
HERE = tuple(stage for stage in Stage if stage is not Stage.HANDED_BACK)


def last_asked(session: Session, job_ids: Sequence[int]) -> dict[int, datetime]:
    """When the customer was last asked, of these jobs: the newest message to them, or estimate that went out."""
    asked: dict[int, datetime] = {}
    if not job_ids:
        return asked
    of_these: list[Any] = [
        select(Message.job_id, func.max(Message.at))
        .where(Message.job_id.in_(job_ids), Message.to_customer)
        .group_by(Message.job_id),
        select(Estimate.job_id, func.max(Estimate.issued_at))
        .where(Estimate.job_id.in_(job_ids), Estimate.issued_at.is_not(None))
        .group_by(Estimate.job_id),
    ]
    for statement in of_these:
        for job_id, at in session.execute(statement):
            asked[job_id] = max(at, asked.get(job_id, at))
    return asked


def unanswered_days(session: Session, book: Book, asked: datetime | None) -> int | None:
    """Days without an answer, from the day on at which the shop wants to be reminded; None before."""
    day = None if asked is None else local_day(asked, book.zone)
    return days_unanswered(day, book.today(), settings_of(session)[NO_ANSWER_DAYS])


def count_unanswered(session: Session, book: Book) -> int:
    """How many jobs in the shop wait for an answer for longer than the shop wants to."""
    waiting = session.scalars(select(Job.id).where(Job.waiting == Waiting.ANSWER, Job.stage.in_(HERE))).all()
    asked = last_asked(session, waiting)
    return sum(unanswered_days(session, book, at) is not None for at in asked.values())
