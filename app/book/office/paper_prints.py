"""When an issued paper was printed, and by whom; rows that never change."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from app.book.base import Base, Row


class PaperPrint(Row, Base):
    """One print. ``copied``: with the stamp over it. ``by`` is empty where nobody had said who works."""

    __tablename__ = "paper_prints"

    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True)
    paper_id: Mapped[int] = mapped_column(ForeignKey("papers.id"), index=True)
    copied: Mapped[bool]
    at: Mapped[datetime]
    by: Mapped[int | None] = mapped_column(ForeignKey("staff.id"))
