"""The day by which an invoice asked to be paid, as its paper says."""

from __future__ import annotations

import json

from alembic import op

revision = "0015"
down_revision = "0014"
branch_labels = None
depends_on = None

PAPERS = "SELECT invoice_id, facts FROM papers WHERE kind = 'invoice' AND invoice_id IS NOT NULL"


def upgrade() -> None:
    """A column filled from the frozen papers; it stays empty where nothing was to pay, or the paper kept no facts."""
    connection = op.get_bind()
    connection.exec_driver_sql("ALTER TABLE invoices ADD COLUMN pay_by TEXT")
    for invoice, facts in connection.exec_driver_sql(PAPERS).all():
        day = (json.loads(facts or "{}").get("pay_by") or {}).get("day")
        if day:
            connection.exec_driver_sql("UPDATE invoices SET pay_by = ? WHERE id = ?", (day, invoice))
