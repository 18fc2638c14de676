"""Parts ordered from a supplier. What came of an order is the sum of the moves that name it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime
from typing import Any

from sqlalchemy import ColumnElement, ForeignKey, Subquery, func, select
from sqlalchemy.orm import Mapped, Session, mapped_column

from app.book.base import Base, Versioned, micro
from app.book.bench.work_done import PartMove


class PartOrder(Versioned, Base):
    """So many of one part, ordered on a day. Only the day on which it is expected may change, until it is given up."""

    __tablename__ = "part_orders"

    part_id: Mapped[int] = mapped_column(ForeignKey("parts.id"), index=True)
    job_id: Mapped[int | None] = mapped_column(ForeignKey("jobs.id"), index=True)  # the job that waits for it
    quantity: Mapped[int] = micro()
    supplier: Mapped[str]  # as it was named on that day
    ordered_on: Mapped[date]
    expected_on: Mapped[date]
    note: Mapped[str] = mapped_column(default="")
    at: Mapped[datetime]
    by: Mapped[int] = mapped_column(ForeignKey("staff.id"))
    given_up_at: Mapped[datetime | None]
    given_up_by: Mapped[int | None] = mapped_column(ForeignKey("staff.id"))
    given_up_reason: Mapped[str] = mapped_column(default="")


def came_of_orders() -> Subquery:
    """``order_id`` and ``came``: what came of each order, in millionths. To be joined from outside."""
    return (
        select(PartMove.order_id, func.sum(PartMove.quantity).label("came"))
        .where(PartMove.order_id.is_not(None))
        .group_by(PartMove.order_id)
        .subquery()
    )


def still_to_come(came: Subquery) -> tuple[ColumnElement[bool], ...]:
    """What holds for an order of which some are still on their way; ``came`` is joined."""
    return PartOrder.given_up_at.is_(None), PartOrder.quantity > func.coalesce(came.c.came, 0)


def on_order() -> Subquery:
    """``part_id``, ``sum`` still to come in millionths, and ``next``: the day on which the first is expected."""
    came = came_of_orders()
    rest = func.sum(PartOrder.quantity - func.coalesce(came.c.came, 0))
    return (
        select(PartOrder.part_id, rest.label("sum"), func.min(PartOrder.expected_on).label("next"))
        .outerjoin(came, came.c.order_id == PartOrder.id)
        .where(*still_to_come(came))
        .group_by(PartOrder.part_id)
        .subquery()
    )


def parts_due(session: Session, job_ids: Sequence[int]) -> dict[int, date]:
    """By job, the day on which the last of what was ordered for it is expected; jobs without such an order are not
    in it."""
    if not job_ids:
        return {}
    came = came_of_orders()
    asked = (
        select(PartOrder.job_id, func.max(PartOrder.expected_on))
        .outerjoin(came, came.c.order_id == PartOrder.id)
        .where(PartOrder.job_id.in_(job_ids), *still_to_come(came))
        .group_by(PartOrder.job_id)
    )
    found: Any = session.execute(asked).all()  # a job is named in each of them
    return dict(found)
