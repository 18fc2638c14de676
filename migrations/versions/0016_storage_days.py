"""How long a player is kept once it is ready, as its ticket says."""

from __future__ import annotations

from alembic import op

revision = "0016"
down_revision = "0015"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """An empty column: of players taken in earlier the ticket says it in words, and the settings hold as before."""
    op.get_bind().exec_driver_sql("ALTER TABLE jobs ADD COLUMN storage_days INTEGER")
