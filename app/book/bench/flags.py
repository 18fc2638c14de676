"""Flags as rows: what the rules said, when it was raised, and what cleared it."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import ForeignKey, Index, text
from sqlalchemy.orm import Mapped, mapped_column

from app.book.base import Base, Row, strict, unique_while
from app.book.columns import Said, Word
from app.trade.bench.flag import Closing, Level, Subject
from app.trade.bench.stages import Mark
from app.trade.sentence import Sentence


class Flag(Row, Base):
    """One flag. Open while ``cleared_at`` is empty; the same rule, subject and detail is open only once."""

    __tablename__ = "flags"

    rule: Mapped[str]
    rule_version: Mapped[int]
    level: Mapped[Level] = mapped_column(Word(Level))
    subject: Mapped[Subject] = mapped_column(Word(Subject))
    job_id: Mapped[int | None] = mapped_column(ForeignKey("jobs.id"))
    unit_id: Mapped[int | None] = mapped_column(ForeignKey("units.id"))
    transport_id: Mapped[int | None] = mapped_column(ForeignKey("transports.id"))
    detail: Mapped[str] = mapped_column(default="")  # tells apart two flags of one rule on one subject
    word: Mapped[Sentence] = mapped_column(Said)
    sentence: Mapped[Sentence] = mapped_column(Said)
    clears: Mapped[Sentence] = mapped_column(Said)
    closing: Mapped[Closing] = mapped_column(Word(Closing))
    owner_sees: Mapped[bool] = mapped_column(default=False)
    needs: Mapped[Mark | None] = mapped_column(Word(Mark))
    raised_at: Mapped[datetime]
    cleared_at: Mapped[datetime | None]
    cleared_by: Mapped[int | None] = mapped_column(ForeignKey("staff.id"))
    cleared_reason: Mapped[str] = mapped_column(default="")
    acknowledged_at: Mapped[datetime | None]
    acknowledged_by: Mapped[int | None] = mapped_column(ForeignKey("staff.id"))
    acknowledged_reason: Mapped[str] = mapped_column(default="")
    answered_mark: Mapped[Mark | None] = mapped_column(Word(Mark))  # under which mark it was answered

    __table_args__ = strict(
        unique_while(
            "uq_flags_open",
            "rule",
            "subject",
            text("coalesce(job_id, 0)"),
            text("coalesce(unit_id, 0)"),
            text("coalesce(transport_id, 0)"),
            "detail",
            where="cleared_at IS NULL",
        ),
        Index("ix_flags_job_id", "job_id"),
        Index("ix_flags_unit_id", "unit_id"),
        Index("ix_flags_transport_id", "transport_id"),
    )
