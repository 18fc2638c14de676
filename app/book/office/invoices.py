"""Invoices, their lines, fixed charges waiting to be invoiced, and payments."""

from __future__ import annotations

from datetime import date, datetime
from typing import Any

from sqlalchemy import ForeignKey, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from app.book.base import Base, Row, Versioned, micro, minor, strict
from app.book.columns import Plain, Word
from app.trade.bench.kinds import Means
from app.trade.office.guarantee import Covers
from app.trade.office.on_the_bill import LineOf
from app.trade.office.vat import VatCategory


class Charge(Versioned, Base):
    """A fixed charge, fee, text line, discount or the like, put on a job before it is invoiced."""

    __tablename__ = "charges"

    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True)
    kind: Mapped[str]  # of a line as `LineKind` has it, else as `OnBill`
    words: Mapped[str]
    quantity: Mapped[int] = micro()
    unit: Mapped[str] = mapped_column(default="C62")
    price: Mapped[int] = micro()  # net, per unit; of a discount or charge on the whole all of it
    price_with_vat: Mapped[int | None] = micro()  # what was typed, when it was typed with VAT
    vat_rate: Mapped[int]
    category: Mapped[VatCategory] = mapped_column(Word(VatCategory), default=VatCategory.STANDARD)
    vat_reason: Mapped[str] = mapped_column(default="")
    at: Mapped[datetime]
    by: Mapped[int] = mapped_column(ForeignKey("staff.id"))
    struck_at: Mapped[datetime | None]
    struck_by: Mapped[int | None] = mapped_column(ForeignKey("staff.id"))
    struck_reason: Mapped[str] = mapped_column(default="")
    line_of: Mapped[LineOf | None] = mapped_column(Word(LineOf))  # what a discount on a line belongs to
    line_id: Mapped[int | None]


class Invoice(Row, Base):
    """An issued invoice: frozen by triggers from its first moment. Drafts are worked out, not kept."""

    __tablename__ = "invoices"

    series: Mapped[str] = mapped_column(default="")
    number: Mapped[int]
    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True)
    customer_id: Mapped[int] = mapped_column(ForeignKey("customers.id"), index=True)
    issued_on: Mapped[date]
    issued_at: Mapped[datetime]
    issued_by: Mapped[int] = mapped_column(ForeignKey("staff.id"))
    currency: Mapped[str]
    lines_net: Mapped[int] = minor()
    discount: Mapped[int] = minor()
    charge: Mapped[int] = minor()
    net: Mapped[int] = minor()
    vat: Mapped[int] = minor()
    gross: Mapped[int] = minor()
    prepaid: Mapped[int] = minor()
    rounding: Mapped[int] = minor()
    due: Mapped[int] = minor()
    groups: Mapped[list[Any]] = mapped_column(Plain)  # per VAT rate: rate, base, tax
    line_count: Mapped[int]
    fees_only: Mapped[bool] = mapped_column(default=False)
    # Discounts (below zero) and charges on the whole: amount, reason, VAT rate, category, its reason
    adjustments: Mapped[list[Any] | None] = mapped_column(Plain)
    # The guarantee as it was promised; empty where none was given, and on invoices from before it was kept here
    guarantee_days: Mapped[int | None]
    guarantee_until: Mapped[date | None]
    guarantee_covers: Mapped[Covers | None] = mapped_column(Word(Covers))
    pay_by: Mapped[date | None]  # the day that it names; empty on earlier ones whose paper named none

    __table_args__ = strict(UniqueConstraint("series", "number"))


class InvoiceLine(Row, Base):
    """One line of an issued invoice, frozen with it."""

    __tablename__ = "invoice_lines"

    invoice_id: Mapped[int] = mapped_column(ForeignKey("invoices.id"), index=True)
    position: Mapped[int]
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


class Payment(Row, Base):
    """Money taken or given back. A deposit belongs to the job before there is an invoice."""

    __tablename__ = "payments"

    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True)
    invoice_id: Mapped[int | None] = mapped_column(ForeignKey("invoices.id"), index=True)
    kind: Mapped[str]  # deposit, payment, refund
    amount: Mapped[int] = minor()  # minor units; a refund is negative
    currency: Mapped[str]
    means: Mapped[Means] = mapped_column(Word(Means))
    note: Mapped[str] = mapped_column(default="")
    at: Mapped[datetime]
    by: Mapped[int] = mapped_column(ForeignKey("staff.id"))
