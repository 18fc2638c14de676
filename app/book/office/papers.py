"""Papers that were issued: the frozen facts, and the hash of the filed PDF once it is on disk."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from app.book.base import PERSONAL, Base, Row
from app.book.columns import Plain

# Kept for the legal term when their person is erased: vouchers of money, and letters about what is owed or was left.
KEPT_PAPERS = ("invoice", "credit note", "payment receipt", "reminder", "uncollected notice")
# Kept only while the job has an invoice, as what it was agreed on; one that came to nothing goes.
KEPT_WITH_INVOICE = "estimate"


class Paper(Row, Base):
    """One issued paper. ``sha256`` is empty only between issue and filing; `check` files a missing one."""

    __tablename__ = "papers"

    kind: Mapped[str]  # intake ticket, bench tag, hand-back receipt, invoice, ...
    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True)
    invoice_id: Mapped[int | None] = mapped_column(ForeignKey("invoices.id"), index=True)
    credit_note_id: Mapped[int | None] = mapped_column(ForeignKey("credit_notes.id"), index=True)
    title: Mapped[str]
    language: Mapped[str]
    facts: Mapped[dict[str, Any]] = mapped_column(Plain, info=PERSONAL)
    issued_at: Mapped[datetime]
    issued_by: Mapped[int] = mapped_column(ForeignKey("staff.id"))
    sha256: Mapped[str] = mapped_column(default="")
    filed_at: Mapped[datetime | None]
    names_modifications: Mapped[list[int]] = mapped_column(Plain, default=list)  # ids named on it
