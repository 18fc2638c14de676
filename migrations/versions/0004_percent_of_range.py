"""An instrument's accuracy may be given per cent of its range."""

from __future__ import annotations

from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Two empty columns; no row that was there changes."""
    for column in ("range_percent", "range_end"):
        op.get_bind().exec_driver_sql(f"ALTER TABLE instruments ADD COLUMN {column} TEXT")
