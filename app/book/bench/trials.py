"""Trials: one change tried on the bench, and what it did."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from app.book.base import Base, Versioned
from app.book.columns import Word
from app.trade.bench.stages import Left, TrialOutcome


class Trial(Versioned, Base):
    """One change. ``outcome`` is empty until it was judged; a trial is struck out, never deleted."""

    __tablename__ = "trials"

    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True)
    transport_id: Mapped[int | None] = mapped_column(ForeignKey("transports.id"), index=True)
    number: Mapped[int]  # within the job
    change: Mapped[str] = mapped_column(default="")  # id of the shop's list of changes, or empty
    words: Mapped[str]
    reference: Mapped[str] = mapped_column(default="")  # designator or place
    suspect: Mapped[str | None]  # id of what was suspected; empty where nothing was named
    outcome: Mapped[TrialOutcome | None] = mapped_column(Word(TrialOutcome))
    proposed: Mapped[TrialOutcome | None] = mapped_column(Word(TrialOutcome))  # what the book worked out
    left: Mapped[Left] = mapped_column(Word(Left), default=Left.NOT_SAID)
    came_back: Mapped[bool | None]  # the fault, with the change undone: then a cure is shown
    rung_before: Mapped[int | None]
    rung_after: Mapped[int | None]
    order_reason: Mapped[str] = mapped_column(default="")
    note: Mapped[str] = mapped_column(default="")
    at: Mapped[datetime]
    by: Mapped[int] = mapped_column(ForeignKey("staff.id"))
    struck_at: Mapped[datetime | None]
    struck_by: Mapped[int | None] = mapped_column(ForeignKey("staff.id"))
    struck_reason: Mapped[str] = mapped_column(default="")
