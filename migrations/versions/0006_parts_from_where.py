"""Parts know their supplier, cost, bin and rating, and whether they protect people; a move knows its donor."""

from __future__ import annotations

from alembic import op

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None

STATEMENTS = (
    "ALTER TABLE parts ADD COLUMN supplier TEXT",
    "ALTER TABLE parts ADD COLUMN order_code TEXT",
    "ALTER TABLE parts ADD COLUMN cost INTEGER",
    "ALTER TABLE parts ADD COLUMN bin TEXT",
    "ALTER TABLE parts ADD COLUMN rating TEXT",
    "ALTER TABLE parts ADD COLUMN safety_critical INTEGER",
    "ALTER TABLE parts ADD COLUMN lead_days INTEGER",
    "ALTER TABLE parts ADD COLUMN service INTEGER",
    """ALTER TABLE part_moves ADD COLUMN unit_id INTEGER
        CONSTRAINT fk_part_moves_unit_id_units REFERENCES units (id)""",
    "CREATE INDEX ix_part_moves_unit_id ON part_moves (unit_id)",
)


def upgrade() -> None:
    """Empty columns; a part that had to carry an approval protects people, of the others nobody said so."""
    for statement in STATEMENTS:
        op.get_bind().exec_driver_sql(statement)
    op.get_bind().exec_driver_sql("UPDATE parts SET safety_critical = (safety_type <> '')")
