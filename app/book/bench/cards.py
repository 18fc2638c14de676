"""Know-how cards: the shop's own notes on a transport type or a unit model."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from app.book.base import Base, Versioned
from app.book.columns import Plain


class Card(Versioned, Base):
    """One card. ``sections``: section to marked-up text. It concerns a transport type, a unit model or both."""

    __tablename__ = "cards"

    title: Mapped[str]
    transport_type_id: Mapped[int | None] = mapped_column(ForeignKey("transport_types.id"), index=True)
    unit_maker: Mapped[str] = mapped_column(default="")
    unit_model: Mapped[str] = mapped_column(default="")
    sections: Mapped[dict[str, str]] = mapped_column(Plain)
    retired: Mapped[bool] = mapped_column(default=False)
    at: Mapped[datetime]  # written last
    by: Mapped[int] = mapped_column(ForeignKey("staff.id"))
