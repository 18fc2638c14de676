"""What was said to and by the customer, and what he said yes or no to."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from app.book.base import PERSONAL, Base, Row, minor
from app.book.columns import Word
from app.trade.bench.stages import Way


class Message(Row, Base):
    """One call or message. ``to_customer`` False: it came from the customer."""

    __tablename__ = "messages"

    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True)
    to_customer: Mapped[bool]
    way: Mapped[Way] = mapped_column(Word(Way))
    text: Mapped[str] = mapped_column(info=PERSONAL)
    spoke_with: Mapped[str] = mapped_column(default="", info=PERSONAL)
    at: Mapped[datetime]
    by: Mapped[int] = mapped_column(ForeignKey("staff.id"))


class Agreement(Row, Base):
    """The customer's recorded yes or no to exact work, price or modification."""

    __tablename__ = "agreements"

    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True)
    kind: Mapped[str]  # work, price, modification
    yes: Mapped[bool]
    what: Mapped[str] = mapped_column(info=PERSONAL)
    amount: Mapped[int | None] = minor()  # the new agreed ceiling with VAT, where a price was agreed
    modification_id: Mapped[int | None] = mapped_column(ForeignKey("modifications.id"), index=True)
    way: Mapped[Way] = mapped_column(Word(Way))
    said_by: Mapped[str] = mapped_column(info=PERSONAL)
    said_at: Mapped[datetime]
    at: Mapped[datetime]
    by: Mapped[int] = mapped_column(ForeignKey("staff.id"))
