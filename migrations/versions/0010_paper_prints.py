"""When papers were printed, and by whom."""

from __future__ import annotations

from alembic import op

revision = "0010"
down_revision = "0009"
branch_labels = None
depends_on = None

STATEMENTS = (
    """CREATE TABLE paper_prints (
    job_id INTEGER NOT NULL,
    paper_id INTEGER NOT NULL,
    copied INTEGER NOT NULL,
    at INTEGER NOT NULL,
    "by" INTEGER,
    id INTEGER NOT NULL,
    CONSTRAINT pk_paper_prints PRIMARY KEY (id),
    CONSTRAINT fk_paper_prints_job_id_jobs FOREIGN KEY(job_id) REFERENCES jobs (id),
    CONSTRAINT fk_paper_prints_paper_id_papers FOREIGN KEY(paper_id) REFERENCES papers (id),
    CONSTRAINT fk_paper_prints_by_staff FOREIGN KEY("by") REFERENCES staff (id)
) STRICT""",
    "CREATE INDEX ix_paper_prints_job_id ON paper_prints (job_id)",
    "CREATE INDEX ix_paper_prints_paper_id ON paper_prints (paper_id)",
)


def upgrade() -> None:
    """An empty table: of earlier papers nobody wrote down when they were printed."""
    for statement in STATEMENTS:
        op.get_bind().exec_driver_sql(statement)
