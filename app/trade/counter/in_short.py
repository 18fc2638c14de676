"""A fault in short, for lists and tags: the customer's first sentence, or the words that were picked."""

from __future__ import annotations

import re

ROOM = 60  # letters
_END = re.compile(r"(?<=[.!?;])\s|\n")


def first_words(fault: str, room: int = ROOM) -> str:
    """The first sentence of what the customer said, cut between words where it is longer than ``room``."""
    first = _END.split(fault.strip(), maxsplit=1)[0].strip().rstrip(".;")
    line = " ".join(first.split())
    if len(line) <= room:
        return line
    cut = line[: room - 1]
    if " " in cut:
        cut = cut.rsplit(" ", 1)[0]
    return cut.rstrip(",;: ") + "…"
