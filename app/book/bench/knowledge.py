"""What the shop changed of the bench knowledge that ships: rows of the ladder, suspects, likelihoods, changes."""

from __future__ import annotations

from typing import Any

from sqlalchemy import UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from app.book.base import Base, Versioned, strict
from app.book.columns import Plain, Word
from app.trade.bench.kinds import KnowledgeKind


class KnowledgeKept(Versioned, Base):
    """One record that the shop added or changed, laid over the shipped one of the same kind and code."""

    __tablename__ = "knowledge"

    kind: Mapped[KnowledgeKind] = mapped_column(Word(KnowledgeKind))
    code: Mapped[str]  # the record's id; ids never change
    content: Mapped[dict[str, Any]] = mapped_column(Plain)
    retired: Mapped[bool] = mapped_column(default=False)

    __table_args__ = strict(UniqueConstraint("kind", "code"))
