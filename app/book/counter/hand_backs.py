"""Handing back: who collected, by which right, and the one way past an open safety stop."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from app.book.base import PERSONAL, Base, Row
from app.book.columns import Word
from app.trade.bench.stages import Collector


class HandBack(Row, Base):
    """The moment a player left the shop. ``unsafe_*`` only when returned unrepaired and unsafe."""

    __tablename__ = "hand_backs"

    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), unique=True)
    at: Mapped[datetime]
    by: Mapped[int] = mapped_column(ForeignKey("staff.id"))
    collector: Mapped[Collector] = mapped_column(Word(Collector))
    collector_name: Mapped[str] = mapped_column(default="", info=PERSONAL)
    proof: Mapped[str] = mapped_column(default="", info=PERSONAL)
    paid_words: Mapped[str] = mapped_column(default="")  # how an open balance was agreed
    shown_and_told: Mapped[bool] = mapped_column(default=False)
    unsafe: Mapped[bool] = mapped_column(default=False)
    unsafe_owner: Mapped[int | None] = mapped_column(ForeignKey("staff.id"))
    unsafe_reason: Mapped[str] = mapped_column(default="")
    unsafe_what: Mapped[str] = mapped_column(default="")
