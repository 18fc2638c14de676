"""Receipts, reminders, notices and the estimates behind invoices can no longer be blanked."""

from __future__ import annotations

revision = "0012"
down_revision = "0011"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """No table changes: the trigger on papers is made anew behind the last revision, as all are."""
