"""Estimates of a job: their options and lines, and what the customer answered."""

from __future__ import annotations

from datetime import date, datetime

from sqlalchemy import ForeignKey, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from app.book.base import PERSONAL, Base, Versioned, micro, minor, strict
from app.book.columns import Word
from app.trade.office.estimate import Taken
from app.trade.office.vat import VatCategory


class Estimate(Versioned, Base):
    """One estimate. Without a number it is being written; issued, triggers keep it as it went to the customer."""

    __tablename__ = "estimates"

    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True)
    number: Mapped[int | None]  # of its own gapless series, taken when it is issued
    intro: Mapped[str] = mapped_column(default="")  # what was seen and tried
    valid_until: Mapped[date]
    at: Mapped[datetime]
    by: Mapped[int] = mapped_column(ForeignKey("staff.id"))
    issued_at: Mapped[datetime | None]
    issued_by: Mapped[int | None] = mapped_column(ForeignKey("staff.id"))
    paper_id: Mapped[int | None] = mapped_column(ForeignKey("papers.id"))
    given_up_at: Mapped[datetime | None]  # begun, and never issued

    __table_args__ = strict(UniqueConstraint("number"))


class EstimateOption(Versioned, Base):
    """One way to mend the player, with the words that the customer chooses by."""

    __tablename__ = "estimate_options"

    estimate_id: Mapped[int] = mapped_column(ForeignKey("estimates.id"), index=True)
    title: Mapped[str]
    what: Mapped[str] = mapped_column(default="")
    design: Mapped[str] = mapped_column(default="")  # what departs from the maker's design; empty: kept
    risk: Mapped[str] = mapped_column(default="")
    guarantee: Mapped[str] = mapped_column(default="")
    ready: Mapped[str] = mapped_column(default="")
    never_above: Mapped[int | None] = minor()  # with VAT
    taken_out_at: Mapped[datetime | None]


class EstimateLine(Versioned, Base):
    """One line of an option. Columns as of a charge."""

    __tablename__ = "estimate_lines"

    option_id: Mapped[int] = mapped_column(ForeignKey("estimate_options.id"), index=True)
    kind: Mapped[str]  # labour, part, fixed charge, text
    words: Mapped[str]
    quantity: Mapped[int] = micro()
    unit: Mapped[str]
    price: Mapped[int] = micro()  # net, per unit
    price_with_vat: Mapped[int | None] = micro()  # what was typed, when it was typed with VAT
    vat_rate: Mapped[int]
    category: Mapped[VatCategory] = mapped_column(Word(VatCategory), default=VatCategory.STANDARD)
    vat_reason: Mapped[str] = mapped_column(default="")
    taken_out_at: Mapped[datetime | None]


class EstimateAnswer(Versioned, Base):
    """What the customer answered to an estimate. Who said it, when and by which way stands in its agreement."""

    __tablename__ = "estimate_answers"

    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True)
    estimate_id: Mapped[int] = mapped_column(ForeignKey("estimates.id"), index=True)
    option_id: Mapped[int | None] = mapped_column(ForeignKey("estimate_options.id"))  # None: none of them
    agreement_id: Mapped[int] = mapped_column(ForeignKey("agreements.id"))
    words: Mapped[str] = mapped_column(default="", info=PERSONAL)  # the customer's own
    taken: Mapped[Taken] = mapped_column(Word(Taken))
    fee_charge_id: Mapped[int | None] = mapped_column(ForeignKey("charges.id"))  # that none of them brought
    at: Mapped[datetime]
    by: Mapped[int] = mapped_column(ForeignKey("staff.id"))
