"""Electrical safety tests: who, by which standard and edition, each step with its limit of that day."""

from __future__ import annotations

from datetime import datetime
from decimal import Decimal

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from app.book.base import Base, Row
from app.book.columns import Word
from app.trade.bench.stages import MainsClass


class SafetyTest(Row, Base):
    """One whole test, signed by a person who carries the mark. Never changed: a new test follows."""

    __tablename__ = "safety_tests"

    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True)
    unit_id: Mapped[int] = mapped_column(ForeignKey("units.id"), index=True)
    mains_class: Mapped[MainsClass] = mapped_column(Word(MainsClass))
    standard: Mapped[str]
    edition: Mapped[str]
    instrument_id: Mapped[int | None] = mapped_column(ForeignKey("instruments.id"), index=True)
    instrument_overdue: Mapped[bool] = mapped_column(default=False)
    result: Mapped[str]  # passed, failed, not done
    case_closed_at: Mapped[datetime | None]
    note: Mapped[str] = mapped_column(default="")
    cord_metres: Mapped[
        Decimal | None
    ]  # by which the limit was chosen; of tests before 0011 it stands in the note
    cord_mm2: Mapped[Decimal | None]
    at: Mapped[datetime]
    by: Mapped[int] = mapped_column(ForeignKey("staff.id"))


class SafetyStep(Row, Base):
    """One step of a test: value as typed, the standard's limit, and the shop's own verdict beside it."""

    __tablename__ = "safety_steps"

    test_id: Mapped[int] = mapped_column(ForeignKey("safety_tests.id"), index=True)
    position: Mapped[int]
    step: Mapped[str]  # quantity id, or visual, function
    typed: Mapped[str] = mapped_column(default="")
    value: Mapped[Decimal | None]  # SI
    bound: Mapped[str] = mapped_column(default="")
    uncertainty: Mapped[float | None]
    limit_low: Mapped[Decimal | None]
    limit_high: Mapped[Decimal | None]
    meets: Mapped[bool | None]  # empty: not done
    shop_verdict: Mapped[str] = mapped_column(default="")
    probability: Mapped[float | None]
    note: Mapped[str] = mapped_column(default="")
