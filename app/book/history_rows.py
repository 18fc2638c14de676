"""History: append-only rows, each with a hash over itself and the row before it."""

from __future__ import annotations

from datetime import datetime
from typing import Any, ClassVar

from sqlalchemy import ForeignKey, Index, TextClause, text
from sqlalchemy.orm import Mapped, mapped_column

from app.book.base import Base, strict
from app.book.columns import Plain

# The rows in which a job began or ceased to wait. A question that says it in these very words is answered by the index:
# on 100,000 jobs with 2.4 million rows in no time, else in 2 s.
OF_WAITING = "row_table = 'jobs' AND fields LIKE '%\"waiting\":%' AND fields NOT LIKE '%\"waiting\":[null,\"nothing\"]%'"


def is_of_waiting() -> TextClause:
    """The same as a condition, for a question over this table alone."""
    return text(OF_WAITING)


class HistoryRow(Base):
    """What happened to one row in one action. ``fields`` maps column to [before, after].

    A personal text stands there only as ``#`` and a salted SHA-256; the text is in `HistoryText`.
    """

    __tablename__ = "history"
    __table_args__ = strict(
        Index("ix_history_waiting", "row_id", sqlite_where=text(OF_WAITING), info={"where": OF_WAITING})
    )
    told: ClassVar[bool] = False

    seq: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    at: Mapped[datetime]
    staff_id: Mapped[int | None]  # empty: the program itself
    action: Mapped[str]
    action_values: Mapped[dict[str, Any]] = mapped_column(Plain)
    happened: Mapped[str]  # added, changed, erased
    row_table: Mapped[str]
    row_id: Mapped[int]
    job_id: Mapped[int | None] = mapped_column(index=True)
    fields: Mapped[dict[str, Any]] = mapped_column(Plain)
    hash: Mapped[str]


class HistoryText(Base):
    """A personal text of history. Its trigger permits only blanking (text and salt to empty)."""

    __tablename__ = "history_texts"
    told: ClassVar[bool] = False

    id: Mapped[int] = mapped_column(primary_key=True)
    seq: Mapped[int] = mapped_column(ForeignKey("history.seq"), index=True)
    column: Mapped[str]
    side: Mapped[str]  # before, after
    salt: Mapped[str]
    text: Mapped[str]
