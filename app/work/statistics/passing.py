"""Which jobs pass the filters of a question, also those that are still in the shop."""

from __future__ import annotations

from sqlalchemy import ColumnElement, func, or_, select
from sqlalchemy.orm import Session

from app.book.door import Book
from app.book.tables import Fitting, Job, Transport, TransportType
from app.work.statistics.ground import matching
from app.work.statistics.question import Question


def passing(book: Book, session: Session, question: Question) -> frozenset[int] | None:
    """The keys of the jobs that pass the filters beside the period; None where none is set. The transport is the one
    inside when the player was handed back, else now. Whether a modification stays inside is no matter here: of a job
    that is still open nobody knows."""
    only = matching(session, question)
    filters: list[ColumnElement[bool]] = []
    if question.group is not None:
        filters.append(Job.fault_group == question.group)
    if question.transport_type or question.arrangement is not None:
        until = func.coalesce(Job.handed_back_at, book.now())
        inside = (
            select(Fitting.id)
            .join(Transport, Transport.id == Fitting.transport_id)
            .join(TransportType, TransportType.id == Transport.type_id)
            .where(
                Fitting.unit_id == Job.unit_id,
                Fitting.fitted_at <= until,
                or_(Fitting.removed_at.is_(None), Fitting.removed_at > until),
            )
        )
        if question.transport_type:
            inside = inside.where(TransportType.name == question.transport_type)
        if question.arrangement is not None:
            inside = inside.where(TransportType.arrangement == question.arrangement)
        filters.append(inside.exists())
    if not filters:
        return only
    found = frozenset(session.scalars(select(Job.id).where(*filters)))
    return found if only is None else found & only
