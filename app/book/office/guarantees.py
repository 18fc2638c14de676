"""What was decided about a comeback within the guarantee; rows that never change, the last one counts."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from app.book.base import Base, Row
from app.book.columns import Word
from app.trade.office.guarantee import Answer


class GuaranteeAnswer(Row, Base):
    """A person's word on the invoice of a job that came back within the guarantee of ``former_job_id``."""

    __tablename__ = "guarantee_answers"

    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True)
    former_job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"))
    answer: Mapped[Answer] = mapped_column(Word(Answer))
    reason: Mapped[str] = mapped_column(default="")
    at: Mapped[datetime]
    by: Mapped[int] = mapped_column(ForeignKey("staff.id"))
