"""What the guarantee of an invoice promised, and what was decided about comebacks within one."""

from __future__ import annotations

from alembic import op

revision = "0009"
down_revision = "0008"
branch_labels = None
depends_on = None

STATEMENTS = (
    "ALTER TABLE invoices ADD COLUMN guarantee_days INTEGER",
    "ALTER TABLE invoices ADD COLUMN guarantee_until TEXT",
    "ALTER TABLE invoices ADD COLUMN guarantee_covers TEXT",
    """CREATE TABLE guarantee_answers (
    job_id INTEGER NOT NULL,
    former_job_id INTEGER NOT NULL,
    answer TEXT NOT NULL,
    reason TEXT NOT NULL,
    at INTEGER NOT NULL,
    "by" INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_guarantee_answers PRIMARY KEY (id),
    CONSTRAINT fk_guarantee_answers_job_id_jobs FOREIGN KEY(job_id) REFERENCES jobs (id),
    CONSTRAINT fk_guarantee_answers_former_job_id_jobs FOREIGN KEY(former_job_id) REFERENCES jobs (id),
    CONSTRAINT fk_guarantee_answers_by_staff FOREIGN KEY("by") REFERENCES staff (id)
) STRICT""",
    "CREATE INDEX ix_guarantee_answers_job_id ON guarantee_answers (job_id)",
)


def upgrade() -> None:
    """Empty columns and an empty table: earlier invoices say on their paper what was promised, and nowhere else."""
    for statement in STATEMENTS:
        op.get_bind().exec_driver_sql(statement)
