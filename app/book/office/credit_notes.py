"""Credit notes and their lines: each refers to an invoice, and is frozen by triggers from its first moment."""

from __future__ import annotations

from datetime import date, datetime
from typing import Any

from sqlalchemy import ForeignKey, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from app.book.base import Base, Row, micro, minor, strict
from app.book.columns import Plain, Word
from app.trade.office.vat import VatCategory


class CreditNote(Row, Base):
    """An issued credit note. Amounts are positive; ``due`` is what it takes off its invoice."""

    __tablename__ = "credit_notes"

    series: Mapped[str] = mapped_column(default="")
    number: Mapped[int]
    invoice_id: Mapped[int] = mapped_column(ForeignKey("invoices.id"), index=True)
    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True)
    customer_id: Mapped[int] = mapped_column(ForeignKey("customers.id"), index=True)
    issued_on: Mapped[date]
    issued_at: Mapped[datetime]
    issued_by: Mapped[int] = mapped_column(ForeignKey("staff.id"))
    currency: Mapped[str]
    reason: Mapped[str]
    lines_net: Mapped[int] = minor()
    discount: Mapped[int] = minor()
    charge: Mapped[int] = minor()
    net: Mapped[int] = minor()
    vat: Mapped[int] = minor()
    gross: Mapped[int] = minor()
    rounding: Mapped[int] = minor()
    due: Mapped[int] = minor()
    groups: Mapped[list[Any]] = mapped_column(Plain)  # per VAT group: rate, category, base, tax, reason
    adjustments: Mapped[list[Any]] = mapped_column(
        Plain
    )  # as an invoice has them, behind each its place there
    line_count: Mapped[int]

    __table_args__ = strict(UniqueConstraint("series", "number"))


class CreditNoteLine(Row, Base):
    """One line of a credit note, frozen with it."""

    __tablename__ = "credit_note_lines"

    credit_note_id: Mapped[int] = mapped_column(ForeignKey("credit_notes.id"), index=True)
    position: Mapped[int]
    invoice_position: Mapped[int]  # of the line on the invoice that it gives back
    kind: Mapped[str]
    words: Mapped[str]
    quantity: Mapped[int] = micro()
    unit: Mapped[str]
    price: Mapped[int] = micro()
    price_with_vat: Mapped[int | None] = micro()
    discount: Mapped[int] = minor()
    discount_reason: Mapped[str] = mapped_column(default="")
    net: Mapped[int] = minor()
    vat_rate: Mapped[int]
    category: Mapped[VatCategory] = mapped_column(Word(VatCategory), default=VatCategory.STANDARD)
    vat_reason: Mapped[str] = mapped_column(default="")
