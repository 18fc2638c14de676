"""Customers: who brings players in."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from app.book.base import PERSONAL, Base, Versioned


class Customer(Versioned, Base):
    """A person or a house. Merged ones point at the one that stands for both; erased ones are blank."""

    __tablename__ = "customers"

    name: Mapped[str] = mapped_column(info=PERSONAL)
    phone: Mapped[str] = mapped_column(default="", info=PERSONAL)
    phone_digits: Mapped[str] = mapped_column(default="", index=True, info=PERSONAL)
    email: Mapped[str] = mapped_column(default="", info=PERSONAL)
    street: Mapped[str] = mapped_column(default="", info=PERSONAL)  # one or more lines
    postcode: Mapped[str] = mapped_column(default="", info=PERSONAL)
    city: Mapped[str] = mapped_column(default="", info=PERSONAL)
    country: Mapped[str] = mapped_column(default="")  # ISO 3166 alpha-2, empty: the shop's own
    vat_id: Mapped[str] = mapped_column(default="", info=PERSONAL)
    ring_when: Mapped[str] = mapped_column(default="", info=PERSONAL)
    language: Mapped[str] = mapped_column(default="")  # of papers; empty: the shop's
    note: Mapped[str] = mapped_column(default="", info=PERSONAL)
    created_at: Mapped[datetime]
    merged_into_id: Mapped[int | None] = mapped_column(ForeignKey("customers.id"), index=True)
    erased_at: Mapped[datetime | None]
