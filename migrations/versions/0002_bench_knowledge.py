"""Bench knowledge: symptom words of a job, knowledge that the shop made its own, know-how cards, what a trial aims at."""

from __future__ import annotations

from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None

STATEMENTS = (
    """CREATE TABLE cards (
    title TEXT NOT NULL,
    transport_type_id INTEGER,
    unit_maker TEXT NOT NULL,
    unit_model TEXT NOT NULL,
    sections TEXT NOT NULL,
    retired INTEGER NOT NULL,
    at INTEGER NOT NULL,
    "by" INTEGER NOT NULL,
    version INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_cards PRIMARY KEY (id),
    CONSTRAINT fk_cards_transport_type_id_transport_types FOREIGN KEY(transport_type_id)
        REFERENCES transport_types (id),
    CONSTRAINT fk_cards_by_staff FOREIGN KEY("by") REFERENCES staff (id)
) STRICT""",
    "CREATE INDEX ix_cards_transport_type_id ON cards (transport_type_id)",
    """CREATE TABLE knowledge (
    kind TEXT NOT NULL,
    code TEXT NOT NULL,
    content TEXT NOT NULL,
    retired INTEGER NOT NULL,
    version INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_knowledge PRIMARY KEY (id),
    CONSTRAINT uq_knowledge_kind_code UNIQUE (kind, code)
) STRICT""",
    """CREATE TABLE symptoms (
    job_id INTEGER NOT NULL,
    word TEXT NOT NULL,
    said INTEGER,
    at INTEGER NOT NULL,
    "by" INTEGER NOT NULL,
    version INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_symptoms PRIMARY KEY (id),
    CONSTRAINT uq_symptoms_job_id_word UNIQUE (job_id, word),
    CONSTRAINT fk_symptoms_job_id_jobs FOREIGN KEY(job_id) REFERENCES jobs (id),
    CONSTRAINT fk_symptoms_by_staff FOREIGN KEY("by") REFERENCES staff (id)
) STRICT""",
    "ALTER TABLE trials ADD COLUMN suspect TEXT",
    "ALTER TABLE trials ADD COLUMN proposed TEXT",
    """ALTER TABLE attachments ADD COLUMN card_id INTEGER
        CONSTRAINT fk_attachments_card_id_cards REFERENCES cards (id)""",
    "CREATE INDEX ix_attachments_card_id ON attachments (card_id)",
)


def upgrade() -> None:
    """New tables and empty columns; no row that was there changes."""
    for statement in STATEMENTS:
        op.get_bind().exec_driver_sql(statement)
