"""Quantities the shop changed, limits with their source, instruments, start-up results and readings."""

from __future__ import annotations

from datetime import date, datetime
from decimal import Decimal
from typing import Any

from sqlalchemy import ForeignKey, Index, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from app.book.base import Base, Versioned, strict
from app.book.columns import Plain, Word
from app.trade.bench.kinds import HowSeen, Warmth
from app.trade.bench.stages import Moment


class QuantityKept(Versioned, Base):
    """A quantity that the shop added or changed; the shipped ones stand in assets/bench/quantities.json."""

    __tablename__ = "quantities"

    code: Mapped[str]
    content: Mapped[dict[str, Any]] = mapped_column(Plain)
    retired: Mapped[bool] = mapped_column(default=False)

    __table_args__ = strict(UniqueConstraint("code"))


class Limit(Versioned, Base):
    """Low and high for a quantity on a transport type or unit model, in SI, with its source."""

    __tablename__ = "limits"

    quantity: Mapped[str] = mapped_column(index=True)
    transport_type_id: Mapped[int | None] = mapped_column(ForeignKey("transport_types.id"), index=True)
    unit_maker: Mapped[str] = mapped_column(default="")
    unit_model: Mapped[str] = mapped_column(default="")
    detail: Mapped[str] = mapped_column(default="")  # which rail, which radius
    relative_to: Mapped[str] = mapped_column(default="")  # empty: absolute; label: share of the label
    low: Mapped[Decimal | None]
    high: Mapped[Decimal | None]
    must: Mapped[bool] = mapped_column(default=False)  # a final reading outside holds the job
    source: Mapped[str]
    retired: Mapped[bool] = mapped_column(default=False)


class Instrument(Versioned, Base):
    """A meter with its accuracy (percent of reading, percent of range, digits, step) and calibration."""

    __tablename__ = "instruments"

    name: Mapped[str]
    kind: Mapped[str] = mapped_column(default="")
    serial: Mapped[str] = mapped_column(default="")
    percent: Mapped[Decimal | None]
    digits: Mapped[Decimal | None]
    step: Mapped[Decimal | None]  # SI, for the quantity it is mostly used for; empty: the quantity's own
    range_percent: Mapped[Decimal | None]
    range_end: Mapped[Decimal | None]  # full scale, SI, as the step
    calibrated_on: Mapped[date | None]
    due_on: Mapped[date | None]
    retired: Mapped[bool] = mapped_column(default=False)


class StartUpResult(Versioned, Base):
    """One climb of the start-up ladder: the highest rung reached, how it was seen, and what was shown."""

    __tablename__ = "start_up_results"

    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True)
    transport_id: Mapped[int | None] = mapped_column(ForeignKey("transports.id"), index=True)
    rung: Mapped[int]  # 0: not even power
    seen: Mapped[HowSeen] = mapped_column(Word(HowSeen))
    tries: Mapped[int] = mapped_column(default=1)
    stopped_in: Mapped[int] = mapped_column(default=1)
    error_shown: Mapped[str] = mapped_column(default="")
    disc: Mapped[str] = mapped_column(default="")
    warmth: Mapped[Warmth] = mapped_column(Word(Warmth))
    warm_minutes: Mapped[int | None]
    room: Mapped[Decimal | None]  # degrees Celsius
    moment: Mapped[Moment] = mapped_column(Word(Moment))
    trial_id: Mapped[int | None] = mapped_column(ForeignKey("trials.id"), index=True)
    trial_side: Mapped[str] = mapped_column(default="")  # before, after
    note: Mapped[str] = mapped_column(default="")
    at: Mapped[datetime]
    by: Mapped[int] = mapped_column(ForeignKey("staff.id"))
    struck_at: Mapped[datetime | None]
    struck_by: Mapped[int | None] = mapped_column(ForeignKey("staff.id"))
    struck_reason: Mapped[str] = mapped_column(default="")


class Reading(Versioned, Base):
    """One measured value, with the verdict and the limit, uncertainty and rule that gave it that day."""

    __tablename__ = "readings"

    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"))
    transport_id: Mapped[int | None] = mapped_column(ForeignKey("transports.id"))
    quantity: Mapped[str]
    detail: Mapped[str] = mapped_column(default="")  # which rail, outer end, ...
    typed: Mapped[str]
    value: Mapped[float | None]  # SI; empty: open circuit
    digits: Mapped[Decimal | None]  # the same as typed, SI, with its digits
    unit: Mapped[str]  # shown that day, one of app/trade/bench/units.py
    bound: Mapped[str] = mapped_column(default="")  # ">" when it is a lower bound
    uncertainty: Mapped[float | None]  # standard uncertainty, SI
    instrument_id: Mapped[int | None] = mapped_column(ForeignKey("instruments.id"), index=True)
    instrument_overdue: Mapped[bool] = mapped_column(default=False)
    moment: Mapped[Moment] = mapped_column(Word(Moment))
    trial_id: Mapped[int | None] = mapped_column(ForeignKey("trials.id"), index=True)
    trial_side: Mapped[str] = mapped_column(default="")
    disc: Mapped[str] = mapped_column(default="")
    place: Mapped[str] = mapped_column(default="")  # radius, track, stand
    warm_minutes: Mapped[int | None]
    room: Mapped[Decimal | None]
    seconds: Mapped[int | None]  # counting time of a counted quantity
    verdict: Mapped[str] = mapped_column(default="")  # empty: no limit that day
    probability: Mapped[float | None]
    limit_id: Mapped[int | None] = mapped_column(ForeignKey("limits.id"), index=True)
    limit_low: Mapped[Decimal | None]
    limit_high: Mapped[Decimal | None]
    limit_source: Mapped[str] = mapped_column(default="")
    limit_must: Mapped[bool] = mapped_column(default=False)
    rule: Mapped[str] = mapped_column(default="")
    at: Mapped[datetime]
    by: Mapped[int] = mapped_column(ForeignKey("staff.id"))
    struck_at: Mapped[datetime | None]
    struck_by: Mapped[int | None] = mapped_column(ForeignKey("staff.id"))
    struck_reason: Mapped[str] = mapped_column(default="")

    __table_args__ = strict(
        Index("ix_readings_job_id", "job_id"),
        Index("ix_readings_transport_id", "transport_id", "quantity", "at"),
    )
