"""Units: the players themselves."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import ForeignKey, Index
from sqlalchemy.orm import Mapped, mapped_column

from app.book.base import Base, Versioned, strict
from app.book.columns import Word
from app.trade.bench.stages import MainsClass


class Unit(Versioned, Base):
    """A player with its serial number; ``serial_key`` is the folded serial that matching uses."""

    __tablename__ = "units"

    maker: Mapped[str]
    model: Mapped[str]
    serial: Mapped[str] = mapped_column(default="")
    serial_key: Mapped[str] = mapped_column(default="")
    serial_unreadable: Mapped[bool] = mapped_column(default=False)
    mains_class: Mapped[MainsClass] = mapped_column(Word(MainsClass))
    mains_voltage: Mapped[str] = mapped_column(default="")  # as on the plate, e.g. "230 V 50 Hz"
    look: Mapped[str] = mapped_column(default="")  # colour and the like
    note: Mapped[str] = mapped_column(default="")
    customer_id: Mapped[int | None] = mapped_column(ForeignKey("customers.id"), index=True)
    created_at: Mapped[datetime]
    is_donor: Mapped[bool] = mapped_column(default=False)

    __table_args__ = strict(
        Index("ix_units_serial_key", "serial_key"), Index("ix_units_model", "maker", "model")
    )
