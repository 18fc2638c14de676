"""When jobs waited is found in history by an index of its own."""

from __future__ import annotations

revision = "0014"
down_revision = "0013"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """No table changes: missing indexes are made behind the last revision."""
