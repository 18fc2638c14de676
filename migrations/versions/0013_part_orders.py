"""Parts that were ordered and have not come."""

from __future__ import annotations

from alembic import op

revision = "0013"
down_revision = "0012"
branch_labels = None
depends_on = None

STATEMENTS = (
    """CREATE TABLE part_orders (
    part_id INTEGER NOT NULL,
    job_id INTEGER,
    quantity INTEGER NOT NULL,
    supplier TEXT NOT NULL,
    ordered_on TEXT NOT NULL,
    expected_on TEXT NOT NULL,
    note TEXT NOT NULL,
    at INTEGER NOT NULL,
    "by" INTEGER NOT NULL,
    given_up_at INTEGER,
    given_up_by INTEGER,
    given_up_reason TEXT NOT NULL,
    version INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_part_orders PRIMARY KEY (id),
    CONSTRAINT fk_part_orders_part_id_parts FOREIGN KEY(part_id) REFERENCES parts (id),
    CONSTRAINT fk_part_orders_job_id_jobs FOREIGN KEY(job_id) REFERENCES jobs (id),
    CONSTRAINT fk_part_orders_by_staff FOREIGN KEY("by") REFERENCES staff (id),
    CONSTRAINT fk_part_orders_given_up_by_staff FOREIGN KEY(given_up_by) REFERENCES staff (id)
) STRICT""",
    "CREATE INDEX ix_part_orders_part_id ON part_orders (part_id)",
    "CREATE INDEX ix_part_orders_job_id ON part_orders (job_id)",
    """ALTER TABLE part_moves ADD COLUMN order_id INTEGER
        CONSTRAINT fk_part_moves_order_id_part_orders REFERENCES part_orders (id)""",
    "CREATE INDEX ix_part_moves_order_id ON part_moves (order_id)",
)


def upgrade() -> None:
    """An empty table, and moves of no order: of what was ordered earlier nothing was written down."""
    for statement in STATEMENTS:
        op.get_bind().exec_driver_sql(statement)
