"""Transports (the optical mechanisms), their types, and the fittings that put them into units."""

from __future__ import annotations

from datetime import datetime
from decimal import Decimal

from sqlalchemy import ForeignKey, Index, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from app.book.base import Base, Row, Versioned, strict, unique_while
from app.book.columns import Plain, Word
from app.trade.bench.kinds import Arrangement


class TransportType(Versioned, Base):
    """A type of mechanism: swing-arm single-beam or three-beam sled."""

    __tablename__ = "transport_types"

    name: Mapped[str]
    arrangement: Mapped[Arrangement] = mapped_column(Word(Arrangement))
    has_transit_lock: Mapped[bool] = mapped_column(default=False)
    not_testable: Mapped[list[int]] = mapped_column(Plain, default=list)  # rungs that cannot be seen
    sheet: Mapped[list[str]] = mapped_column(
        Plain, default=list
    )  # quantity ids in the order of entry, with their stage
    safety_circuits: Mapped[list[str]] = mapped_column(Plain, default=list)
    note: Mapped[str] = mapped_column(default="")
    retired: Mapped[bool] = mapped_column(default=False)

    __table_args__ = strict(UniqueConstraint("name"))


class Transport(Versioned, Base):
    """One mechanism with its own marking; lives on when its unit does not."""

    __tablename__ = "transports"

    type_id: Mapped[int] = mapped_column(ForeignKey("transport_types.id"), index=True)
    marking: Mapped[str] = mapped_column(default="")  # serial or what is written on it
    label_current: Mapped[Decimal | None]  # printed laser current in A
    shelf: Mapped[str] = mapped_column(default="")  # where it lies while in no unit
    note: Mapped[str] = mapped_column(default="")
    created_at: Mapped[datetime]
    scrapped_at: Mapped[datetime | None]


class Fitting(Versioned, Base):
    """The time a transport spends in a unit. Open (``removed_at`` empty) at most once for either."""

    __tablename__ = "fittings"

    transport_id: Mapped[int] = mapped_column(ForeignKey("transports.id"))
    unit_id: Mapped[int] = mapped_column(ForeignKey("units.id"))
    place: Mapped[str] = mapped_column(default="main")
    fitted_at: Mapped[datetime]
    fitted_job_id: Mapped[int | None] = mapped_column(ForeignKey("jobs.id"), index=True)
    removed_at: Mapped[datetime | None]
    removed_job_id: Mapped[int | None] = mapped_column(ForeignKey("jobs.id"), index=True)
    as_maker: Mapped[bool] = mapped_column(default=True)  # False: another type than the unit's maker fitted
    belongs_type: Mapped[str] = mapped_column(default="")  # then: the type that belongs there

    __table_args__ = strict(
        Index("ix_fittings_transport_id", "transport_id", "fitted_at"),
        Index("ix_fittings_unit_id", "unit_id", "fitted_at"),
        unique_while(
            "uq_fittings_open_transport",
            "transport_id",
            where="removed_at IS NULL",
        ),
        unique_while(
            "uq_fittings_open_place",
            "unit_id",
            "place",
            where="removed_at IS NULL",
        ),
    )


class PartChange(Row, Base):
    """A part of a transport renewed (pick-up, motor): resets what its label says. Struck out, never deleted."""

    __tablename__ = "part_changes"

    transport_id: Mapped[int] = mapped_column(ForeignKey("transports.id"), index=True)
    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True)
    words: Mapped[str]
    same_type: Mapped[bool] = mapped_column(default=True)
    label_before: Mapped[Decimal | None]
    label_after: Mapped[Decimal | None]
    at: Mapped[datetime]
    by: Mapped[int] = mapped_column(ForeignKey("staff.id"))
