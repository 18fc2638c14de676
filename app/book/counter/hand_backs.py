"""Handing back: who collected, by which right, and the one way past an open safety stop."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from app.book.base import PERSONAL, Base, Row, Versioned
from app.book.columns import Word
from app.trade.bench.stages import Collector


class HandBack(Row, Base):
    """The moment a player left the shop."""

    __tablename__ = "hand_backs"

    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), unique=True)
    at: Mapped[datetime]
    by: Mapped[int] = mapped_column(ForeignKey("staff.id"))
    collector: Mapped[Collector] = mapped_column(Word(Collector))
    collector_name: Mapped[str] = mapped_column(default="", info=PERSONAL)
    proof: Mapped[str] = mapped_column(default="", info=PERSONAL)
    paid_words: Mapped[str] = mapped_column(default="")  # how an open balance was agreed
    shown_and_told: Mapped[bool] = mapped_column(default=False)
    unsafe: Mapped[bool] = mapped_column(default=False)  # by the decision in unsafe_returns


class UnsafeReturnKept(Versioned, Base):
    """The owner's decision that a customer's own player goes back unrepaired and unsafe."""

    __tablename__ = "unsafe_returns"

    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), unique=True)
    reason: Mapped[str]
    law_looked_at: Mapped[bool]
    plug_tagged: Mapped[bool] = mapped_column(default=False)
    signed: Mapped[bool] = mapped_column(default=False)
    at: Mapped[datetime]
    by: Mapped[int] = mapped_column(ForeignKey("staff.id"))


class UnsafeRequest(Versioned, Base):
    """Something a customer asked for that would make the player unsafe; closed only by refusing it."""

    __tablename__ = "unsafe_requests"

    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True)
    what: Mapped[str]
    at: Mapped[datetime]
    by: Mapped[int] = mapped_column(ForeignKey("staff.id"))
    refused_at: Mapped[datetime | None]
    refused_by: Mapped[int | None] = mapped_column(ForeignKey("staff.id"))
