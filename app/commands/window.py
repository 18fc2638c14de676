"""No command: the window on the shop's own book."""

from __future__ import annotations

from app.commands.command import Surroundings


def run(around: Surroundings) -> int:
    """Open the window. The shop's own book is made when it is missing, another only with ``--new``."""
    return around.doors.open_window(around.book, make=around.named is None or around.asked.new)
