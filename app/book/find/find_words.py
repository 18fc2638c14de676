"""The search index as a portable table; on SQLite two FTS tables beside it answer while typing."""

from __future__ import annotations

from typing import ClassVar

from sqlalchemy import UniqueConstraint
from sqlalchemy.orm import Mapped

from app.book.base import Base, Row, strict


class FindWords(Row, Base):
    """What one job, customer, unit or transport can be found by. ``words`` and ``tails`` are folded."""

    __tablename__ = "find_words"
    told: ClassVar[bool] = False

    kind: Mapped[str]  # job, customer, unit, transport
    ref_id: Mapped[int]
    words: Mapped[str]
    tails: Mapped[str]  # digits and serials run together, for finding by their end

    __table_args__ = strict(UniqueConstraint("kind", "ref_id"))
