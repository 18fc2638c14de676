"""Staff, the marks they carry, and their PINs (a signature and accident guard, not a lock)."""

from __future__ import annotations

from datetime import date, datetime

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from app.book.base import Base, Row, Versioned
from app.book.columns import Word
from app.trade.bench.stages import Mark


class Staff(Versioned, Base):
    """One who works in the shop. ``pin_hash`` is argon2id, empty until a PIN is set."""

    __tablename__ = "staff"

    name: Mapped[str]
    active: Mapped[bool] = mapped_column(default=True)
    pin_hash: Mapped[str] = mapped_column(default="", info={"secret": True})
    pin_failures: Mapped[int] = mapped_column(default=0, info={"untold": True})
    pin_failed_at: Mapped[datetime | None] = mapped_column(info={"untold": True})


class StaffMark(Row, Base):
    """A mark with its proof; past its end it counts as none. Ended by date, never deleted."""

    __tablename__ = "staff_marks"

    staff_id: Mapped[int] = mapped_column(ForeignKey("staff.id"), index=True)
    mark: Mapped[Mark] = mapped_column(Word(Mark))
    proof: Mapped[str]
    proof_from: Mapped[str] = mapped_column(default="")
    dated: Mapped[date]
    ends: Mapped[date | None]
