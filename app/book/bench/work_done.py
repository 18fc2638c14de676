"""Case opened and closed, parts and their moves, labour, files and photos of the job."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import ForeignKey, Index, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from app.book.base import Base, Row, Versioned, micro, strict
from app.book.columns import Word
from app.trade.office.stock import MoveKind


class CaseEvent(Row, Base):
    """The case was opened or closed. ``assumed``: the book took it as opened from what was entered."""

    __tablename__ = "case_events"

    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True)
    opened: Mapped[bool]
    assumed: Mapped[bool] = mapped_column(default=False)
    at: Mapped[datetime]
    by: Mapped[int] = mapped_column(ForeignKey("staff.id"))


class Part(Versioned, Base):
    """A part that the shop keeps. Stock on hand is the sum of its moves; no quantity stands here."""

    __tablename__ = "parts"

    code: Mapped[str]
    words: Mapped[str]
    unit: Mapped[str] = mapped_column(default="H87")  # UN/ECE recommendation 20: piece
    price: Mapped[int] = micro()  # net, per unit
    vat_rate: Mapped[int]  # 10^-4
    safety_type: Mapped[str] = mapped_column(default="")  # approval it must carry, empty: none
    retired: Mapped[bool] = mapped_column(default=False)
    supplier: Mapped[str | None]
    order_code: Mapped[str | None]  # its number at the supplier
    cost: Mapped[int | None] = micro()  # what one costs the shop, net; empty: not known
    bin: Mapped[str | None]
    rating: Mapped[str | None]  # "T 315 mA 250 V", "0.6 W"
    safety_critical: Mapped[bool | None]  # it protects people
    lead_days: Mapped[int | None]  # empty: as the shop's settings have it
    service: Mapped[int | None]  # 10^-4, how often it is there when needed; empty: as the settings have it

    __table_args__ = strict(UniqueConstraint("code"))


class PartMove(Row, Base):
    """Parts that came into stock (positive) or left it (negative), and why. Nothing edits a quantity."""

    __tablename__ = "part_moves"

    part_id: Mapped[int] = mapped_column(ForeignKey("parts.id"))
    kind: Mapped[MoveKind] = mapped_column(Word(MoveKind))
    quantity: Mapped[int] = micro()
    job_id: Mapped[int | None] = mapped_column(ForeignKey("jobs.id"))
    price: Mapped[int] = micro()  # net, per unit, of that day
    vat_rate: Mapped[int]
    note: Mapped[str] = mapped_column(default="")
    at: Mapped[datetime]
    by: Mapped[int] = mapped_column(ForeignKey("staff.id"))
    unit_id: Mapped[int | None] = mapped_column(ForeignKey("units.id"))  # the donor it was taken from
    order_id: Mapped[int | None] = mapped_column(ForeignKey("part_orders.id"))  # the order that it came of

    __table_args__ = strict(
        Index("ix_part_moves_part_id", "part_id"),
        Index("ix_part_moves_job_id", "job_id"),
        Index("ix_part_moves_unit_id", "unit_id"),
        Index("ix_part_moves_order_id", "order_id"),
    )


class Labour(Versioned, Base):
    """Time spent on a job, by the hour. Struck out, never deleted."""

    __tablename__ = "labour"

    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True)
    words: Mapped[str]
    hours: Mapped[int] = micro()
    rate: Mapped[int] = micro()  # net, per hour
    vat_rate: Mapped[int]
    charged: Mapped[bool] = mapped_column(default=True)
    at: Mapped[datetime]
    by: Mapped[int] = mapped_column(ForeignKey("staff.id"))
    struck_at: Mapped[datetime | None]
    struck_by: Mapped[int | None] = mapped_column(ForeignKey("staff.id"))
    struck_reason: Mapped[str] = mapped_column(default="")


class Attachment(Row, Base):
    """A photo or file of a job or a card. The file lies beside the book under its SHA-256, safe before this row."""

    __tablename__ = "attachments"

    job_id: Mapped[int | None] = mapped_column(ForeignKey("jobs.id"), index=True)
    card_id: Mapped[int | None] = mapped_column(ForeignKey("cards.id"), index=True)
    sha256: Mapped[str] = mapped_column(index=True)
    name: Mapped[str]
    media_type: Mapped[str]
    size: Mapped[int]
    note: Mapped[str] = mapped_column(default="")
    at: Mapped[datetime]
    by: Mapped[int] = mapped_column(ForeignKey("staff.id"))
    struck_at: Mapped[datetime | None]
    struck_by: Mapped[int | None] = mapped_column(ForeignKey("staff.id"))
    struck_reason: Mapped[str] = mapped_column(default="")
