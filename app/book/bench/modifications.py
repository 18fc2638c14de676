"""Modifications: departures from the maker's design that stay inside until they are reversed."""

from __future__ import annotations

from datetime import datetime
from decimal import Decimal

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from app.book.base import Base, Versioned
from app.book.columns import Word
from app.trade.bench.modifications import Circuit, Kind, Law


class Modification(Versioned, Base):
    """One departure. It belongs to the transport when ``transport_id`` is set, else to the unit."""

    __tablename__ = "modifications"

    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True)
    unit_id: Mapped[int | None] = mapped_column(ForeignKey("units.id"), index=True)
    transport_id: Mapped[int | None] = mapped_column(ForeignKey("transports.id"), index=True)
    trial_id: Mapped[int | None] = mapped_column(ForeignKey("trials.id"), index=True)
    ours: Mapped[bool] = mapped_column(default=True)  # False: found, done by somebody else
    kind: Mapped[Kind] = mapped_column(Word(Kind))
    circuit: Mapped[Circuit] = mapped_column(Word(Circuit))
    law: Mapped[Law] = mapped_column(Word(Law))
    reference: Mapped[str]
    part_before: Mapped[str] = mapped_column(default="")  # words, where a value says too little
    part_after: Mapped[str] = mapped_column(default="")
    value_before: Mapped[Decimal | None]  # the maker's value, SI
    value_after: Mapped[Decimal | None]  # the value fitted (replaced) or added (parallel, series), SI
    unit: Mapped[str] = mapped_column(default="ohm")
    tolerance_before: Mapped[Decimal | None]  # percent
    tolerance_after: Mapped[Decimal | None]
    rating: Mapped[Decimal | None]  # W, of the part fitted
    power: Mapped[Decimal | None]  # W, what it takes at its hottest
    reading_before: Mapped[bool] = mapped_column(default=False)
    current_before: Mapped[Decimal | None]  # A through the setting part, as made
    coil_resistance: Mapped[Decimal | None]  # ohm
    ratio: Mapped[Decimal | None]  # of current or gain against the maker's value, worked out when entered
    safety_critical: Mapped[bool] = mapped_column(default=False)
    why: Mapped[str] = mapped_column(default="")
    way_back: Mapped[str] = mapped_column(default="")
    assessed_at: Mapped[datetime | None]
    assessed_by: Mapped[int | None] = mapped_column(ForeignKey("staff.id"))
    assessed_words: Mapped[str] = mapped_column(default="")
    at: Mapped[datetime]
    by: Mapped[int] = mapped_column(ForeignKey("staff.id"))
    reversed_at: Mapped[datetime | None]
    reversed_job_id: Mapped[int | None] = mapped_column(ForeignKey("jobs.id"), index=True)
    reversed_trial_id: Mapped[int | None] = mapped_column(ForeignKey("trials.id"), index=True)
    reversed_by: Mapped[int | None] = mapped_column(ForeignKey("staff.id"))
    reversed_note: Mapped[str] = mapped_column(default="")
    reversal_tried: Mapped[bool] = mapped_column(default=False)  # the switch was tried after it
    struck_at: Mapped[datetime | None]
    struck_by: Mapped[int | None] = mapped_column(ForeignKey("staff.id"))
    struck_reason: Mapped[str] = mapped_column(default="")
