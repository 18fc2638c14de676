"""Symptom words of a job: each said or denied by the customer; one that nobody asked has no row."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import ForeignKey, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from app.book.base import Base, Versioned, strict


class Symptom(Versioned, Base):
    """One symptom word (an id of the shop's list) that was asked for, and what the answer was."""

    __tablename__ = "symptoms"

    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"))
    word: Mapped[str]
    said: Mapped[bool | None]  # False: denied; empty: the answer was taken back
    at: Mapped[datetime]
    by: Mapped[int] = mapped_column(ForeignKey("staff.id"))

    __table_args__ = strict(UniqueConstraint("job_id", "word"))
