"""Estimates with their options and lines, and what customers answered."""

from __future__ import annotations

from alembic import op

revision = "0007"
down_revision = "0006"
branch_labels = None
depends_on = None

STATEMENTS = (
    """CREATE TABLE estimates (
    job_id INTEGER NOT NULL,
    number INTEGER,
    intro TEXT NOT NULL,
    valid_until TEXT NOT NULL,
    at INTEGER NOT NULL,
    "by" INTEGER NOT NULL,
    issued_at INTEGER,
    issued_by INTEGER,
    paper_id INTEGER,
    given_up_at INTEGER,
    version INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_estimates PRIMARY KEY (id),
    CONSTRAINT uq_estimates_number UNIQUE (number),
    CONSTRAINT fk_estimates_job_id_jobs FOREIGN KEY(job_id) REFERENCES jobs (id),
    CONSTRAINT fk_estimates_by_staff FOREIGN KEY("by") REFERENCES staff (id),
    CONSTRAINT fk_estimates_issued_by_staff FOREIGN KEY(issued_by) REFERENCES staff (id),
    CONSTRAINT fk_estimates_paper_id_papers FOREIGN KEY(paper_id) REFERENCES papers (id)
) STRICT""",
    "CREATE INDEX ix_estimates_job_id ON estimates (job_id)",
    """CREATE TABLE estimate_options (
    estimate_id INTEGER NOT NULL,
    title TEXT NOT NULL,
    what TEXT NOT NULL,
    design TEXT NOT NULL,
    risk TEXT NOT NULL,
    guarantee TEXT NOT NULL,
    ready TEXT NOT NULL,
    never_above INTEGER,
    taken_out_at INTEGER,
    version INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_estimate_options PRIMARY KEY (id),
    CONSTRAINT fk_estimate_options_estimate_id_estimates FOREIGN KEY(estimate_id)
        REFERENCES estimates (id)
) STRICT""",
    "CREATE INDEX ix_estimate_options_estimate_id ON estimate_options (estimate_id)",
    """CREATE TABLE estimate_lines (
    option_id INTEGER NOT NULL,
    kind TEXT NOT NULL,
    words TEXT NOT NULL,
    quantity INTEGER NOT NULL,
    unit TEXT NOT NULL,
    price INTEGER NOT NULL,
    price_with_vat INTEGER,
    vat_rate INTEGER NOT NULL,
    category TEXT NOT NULL,
    vat_reason TEXT NOT NULL,
    taken_out_at INTEGER,
    version INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_estimate_lines PRIMARY KEY (id),
    CONSTRAINT fk_estimate_lines_option_id_estimate_options FOREIGN KEY(option_id)
        REFERENCES estimate_options (id)
) STRICT""",
    "CREATE INDEX ix_estimate_lines_option_id ON estimate_lines (option_id)",
    """CREATE TABLE estimate_answers (
    job_id INTEGER NOT NULL,
    estimate_id INTEGER NOT NULL,
    option_id INTEGER,
    agreement_id INTEGER NOT NULL,
    words TEXT NOT NULL,
    taken TEXT NOT NULL,
    fee_charge_id INTEGER,
    at INTEGER NOT NULL,
    "by" INTEGER NOT NULL,
    version INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_estimate_answers PRIMARY KEY (id),
    CONSTRAINT fk_estimate_answers_job_id_jobs FOREIGN KEY(job_id) REFERENCES jobs (id),
    CONSTRAINT fk_estimate_answers_estimate_id_estimates FOREIGN KEY(estimate_id)
        REFERENCES estimates (id),
    CONSTRAINT fk_estimate_answers_option_id_estimate_options FOREIGN KEY(option_id)
        REFERENCES estimate_options (id),
    CONSTRAINT fk_estimate_answers_agreement_id_agreements FOREIGN KEY(agreement_id)
        REFERENCES agreements (id),
    CONSTRAINT fk_estimate_answers_fee_charge_id_charges FOREIGN KEY(fee_charge_id)
        REFERENCES charges (id),
    CONSTRAINT fk_estimate_answers_by_staff FOREIGN KEY("by") REFERENCES staff (id)
) STRICT""",
    "CREATE INDEX ix_estimate_answers_estimate_id ON estimate_answers (estimate_id)",
    "CREATE INDEX ix_estimate_answers_job_id ON estimate_answers (job_id)",
)


def upgrade() -> None:
    """Four empty tables; what was estimated earlier stands in no book."""
    for statement in STATEMENTS:
        op.get_bind().exec_driver_sql(statement)
