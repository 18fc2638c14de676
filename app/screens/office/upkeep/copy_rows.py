"""A copy of the book as a row: when, why, how much is inside, and whether it was looked through."""

from __future__ import annotations

from decimal import Decimal

from app.screens.kit.cells import Column, Row, Words
from app.screens.language import moment, number, say
from app.work.upkeep.copies import Copy

MEGABYTE = 1024 * 1024


def columns() -> tuple[Column, ...]:
    """When, why, jobs, last entry, size, checked, file."""
    return (
        Column("made", say("Made"), 180),
        Column("why", say("Why"), 150),
        Column("jobs", say("Jobs"), 80, right=True),
        Column("last", say("Last entry in it"), 190),
        Column("size", say("Size"), 96, right=True),
        Column("checked", say("Looked through"), 170),
        Column("file", say("File"), 0, least=100),
    )


def copy_row(copy: Copy) -> Row:
    """One copy; what no sidecar describes is not promised."""
    sound = Words(say("sound")) if copy.checked else Words(say("not known"), before="note")
    if copy.checked and copy.files_lacking:
        sound = Words(say("{n} files missing", n=copy.files_lacking), before="caution")
    return Row(
        str(copy.path),
        (
            Words(moment(copy.made_at), strong=True),
            Words(say(copy.why.value), soft=True),
            Words(str(copy.jobs) if copy.checked else "", right=True),
            Words(moment(copy.last_at) if copy.last_at is not None else "", soft=True),
            Words(size_words(copy.size), soft=True, right=True),
            sound,
            Words(copy.path.name, soft=True, tip=str(copy.path)),
        ),
    )


def size_words(size: int) -> str:
    """A size in megabytes, with one decimal while it is small."""
    megabytes = Decimal(size) / MEGABYTE
    return f"{number(megabytes.quantize(Decimal('0.1') if megabytes < 10 else Decimal(1)))}\u00a0MB"
