"""The cord by which the limit of a safety test was chosen, in numbers."""

from __future__ import annotations

from alembic import op

revision = "0011"
down_revision = "0010"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Two empty columns; of earlier tests the cord stands in the note, as it was written."""
    for column in ("cord_metres", "cord_mm2"):
        op.get_bind().exec_driver_sql(f"ALTER TABLE safety_tests ADD COLUMN {column} TEXT")
