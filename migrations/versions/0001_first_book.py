"""The first book: every table as it was when the first one was made; see first_book.sql beside this folder."""

from __future__ import annotations

from pathlib import Path

from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

# Text, so that it stays as it was whatever later becomes of the tables in app/book.
FIRST_BOOK = Path(__file__).resolve().parent.parent / "first_book.sql"


def upgrade() -> None:
    """Make the tables and indexes. Triggers are made anew after the last revision."""
    for statement in FIRST_BOOK.read_text(encoding="utf-8").split(";\n"):
        if statement.strip():
            op.get_bind().exec_driver_sql(statement)
