"""A modification that was put back by a trial knows which."""

from __future__ import annotations

from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """An empty column; of what was put back earlier no trial is known."""
    op.get_bind().exec_driver_sql(
        "ALTER TABLE modifications ADD COLUMN reversed_trial_id INTEGER"
        " CONSTRAINT fk_modifications_reversed_trial_id_trials REFERENCES trials (id)"
    )
