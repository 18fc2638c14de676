"""Credit notes with their lines; discounts on lines; what invoices took off or put on the whole, from their papers."""

from __future__ import annotations

import json
from collections import defaultdict
from typing import Any

from alembic import op

revision = "0008"
down_revision = "0007"
branch_labels = None
depends_on = None

STATEMENTS = (
    """CREATE TABLE credit_notes (
    series TEXT NOT NULL,
    number INTEGER NOT NULL,
    invoice_id INTEGER NOT NULL,
    job_id INTEGER NOT NULL,
    customer_id INTEGER NOT NULL,
    issued_on TEXT NOT NULL,
    issued_at INTEGER NOT NULL,
    issued_by INTEGER NOT NULL,
    currency TEXT NOT NULL,
    reason TEXT NOT NULL,
    lines_net INTEGER NOT NULL,
    discount INTEGER NOT NULL,
    charge INTEGER NOT NULL,
    net INTEGER NOT NULL,
    vat INTEGER NOT NULL,
    gross INTEGER NOT NULL,
    rounding INTEGER NOT NULL,
    due INTEGER NOT NULL,
    groups TEXT NOT NULL,
    adjustments TEXT NOT NULL,
    line_count INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_credit_notes PRIMARY KEY (id),
    CONSTRAINT uq_credit_notes_series_number UNIQUE (series, number),
    CONSTRAINT fk_credit_notes_invoice_id_invoices FOREIGN KEY(invoice_id) REFERENCES invoices (id),
    CONSTRAINT fk_credit_notes_job_id_jobs FOREIGN KEY(job_id) REFERENCES jobs (id),
    CONSTRAINT fk_credit_notes_customer_id_customers FOREIGN KEY(customer_id) REFERENCES customers (id),
    CONSTRAINT fk_credit_notes_issued_by_staff FOREIGN KEY(issued_by) REFERENCES staff (id)
) STRICT""",
    "CREATE INDEX ix_credit_notes_customer_id ON credit_notes (customer_id)",
    "CREATE INDEX ix_credit_notes_invoice_id ON credit_notes (invoice_id)",
    "CREATE INDEX ix_credit_notes_job_id ON credit_notes (job_id)",
    """CREATE TABLE credit_note_lines (
    credit_note_id INTEGER NOT NULL,
    position INTEGER NOT NULL,
    invoice_position INTEGER NOT NULL,
    kind TEXT NOT NULL,
    words TEXT NOT NULL,
    quantity INTEGER NOT NULL,
    unit TEXT NOT NULL,
    price INTEGER NOT NULL,
    price_with_vat INTEGER,
    discount INTEGER NOT NULL,
    discount_reason TEXT NOT NULL,
    net INTEGER NOT NULL,
    vat_rate INTEGER NOT NULL,
    category TEXT NOT NULL,
    vat_reason TEXT NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_credit_note_lines PRIMARY KEY (id),
    CONSTRAINT fk_credit_note_lines_credit_note_id_credit_notes FOREIGN KEY(credit_note_id)
        REFERENCES credit_notes (id)
) STRICT""",
    "CREATE INDEX ix_credit_note_lines_credit_note_id ON credit_note_lines (credit_note_id)",
    """ALTER TABLE papers ADD COLUMN credit_note_id INTEGER
        CONSTRAINT fk_papers_credit_note_id_credit_notes REFERENCES credit_notes (id)""",
    "CREATE INDEX ix_papers_credit_note_id ON papers (credit_note_id)",
    "ALTER TABLE charges ADD COLUMN line_of TEXT",
    "ALTER TABLE charges ADD COLUMN line_id INTEGER",
    "ALTER TABLE invoices ADD COLUMN adjustments TEXT",
)
ADJUSTED = """SELECT invoices.id, invoices.groups, papers.facts FROM invoices
    LEFT JOIN papers ON papers.invoice_id = invoices.id AND papers.kind = 'invoice'
    WHERE invoices.discount <> 0 OR invoices.charge <> 0"""
LINES = (
    "SELECT category, vat_rate, sum(net) FROM invoice_lines WHERE invoice_id = ? GROUP BY category, vat_rate"
)


def upgrade() -> None:
    """Two empty tables and empty columns; discounts that stood in sums only are told with their reasons."""
    connection = op.get_bind()
    for statement in STATEMENTS:
        connection.exec_driver_sql(statement)
    for invoice, groups, facts in connection.exec_driver_sql(ADJUSTED).all():
        lines = {(kind, rate): net for kind, rate, net in connection.exec_driver_sql(LINES, (invoice,))}
        told = _adjustments(json.loads(groups), lines, json.loads(facts or "{}"))
        connection.exec_driver_sql(
            "UPDATE invoices SET adjustments = ? WHERE id = ?",
            (json.dumps(told, ensure_ascii=False), invoice),
        )


def _adjustments(
    groups: list[Any], lines: dict[tuple[str, int], int], facts: dict[str, Any]
) -> list[list[Any]]:
    """What moved each VAT group from its lines to its base; the reasons of its rate as the paper has them."""
    reasons: defaultdict[int, list[str]] = defaultdict(list)
    for one in facts.get("discounts", ()):
        if isinstance(one["reason"], str):
            reasons[round(float(one["vat"]["decimal"]) * 100)].append(one["reason"])
    told = []
    for rate, category, base, _, why in groups:
        if moved := base - lines.get((category, rate), 0):
            told.append([moved, "; ".join(reasons[rate]) or "discount", rate, category, why])
    return told
