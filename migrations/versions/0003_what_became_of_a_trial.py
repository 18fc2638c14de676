"""What became of a trial as one of a closed list; other words that stood there go to its note."""

from __future__ import annotations

from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None

# How the words that were offered begin, in both languages of the program.
BEGINNINGS = {
    "not said": ("not said",),
    "put back": ("put back", "zurückgebaut"),
    "left inside": ("left inside", "im Gerät gelassen"),
    "left so": ("left so", "so gelassen"),
}
TOLD_WHOLE = ("left inside: a modification", "im Gerät gelassen: ein Umbau")


def upgrade() -> None:
    """No word is lost: what the closed list does not tell comes behind the note."""
    bind = op.get_bind()
    bind.exec_driver_sql("ALTER TABLE trials ADD COLUMN came_back INTEGER")
    for key, left, note in bind.exec_driver_sql('SELECT id, "left", note FROM trials').all():
        word, whole = _sorted(left.strip().casefold())
        if not whole:
            note = f"{note}; {left}" if note else left
        bind.exec_driver_sql('UPDATE trials SET "left" = ?, note = ? WHERE id = ?', (word, note, key))


def _sorted(said: str) -> tuple[str, bool]:
    """The word of the list, and whether it tells all that was said."""
    for word, beginnings in BEGINNINGS.items():
        folded = tuple(words.casefold() for words in beginnings)
        if said.startswith(folded):
            return word, said in folded or said in [words.casefold() for words in TOLD_WHOLE]
    return "not said", not said
