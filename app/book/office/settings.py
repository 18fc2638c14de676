"""The shop's settings that differ from the defaults, and the gapless number series."""

from __future__ import annotations

from typing import Any, ClassVar

from sqlalchemy import UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from app.book.base import Base, Row, Versioned, strict
from app.book.columns import Plain


class SettingKept(Versioned, Base):
    """One setting. Which there are, their types and defaults are declared in app/trade/settings.py."""

    __tablename__ = "settings"

    key: Mapped[str]
    value: Mapped[Any] = mapped_column(Plain)

    __table_args__ = strict(UniqueConstraint("key"))


class NumberSeries(Row, Base):
    """The next number of a gapless series; taken only inside the door, so a rollback gives it back."""

    __tablename__ = "number_series"
    told: ClassVar[bool] = False

    name: Mapped[str]
    next: Mapped[int]

    __table_args__ = strict(UniqueConstraint("name"))
