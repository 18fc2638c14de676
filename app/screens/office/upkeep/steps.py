"""Tells a progress line which part of long work comes next."""

from __future__ import annotations

from collections.abc import Callable

from app.screens.threads import Ticket
from app.trade.sentence import Sentence


def steps(ticket: Ticket, of: int) -> Callable[[Sentence], None]:
    """A watch for work of ``of`` parts: each call is the next part; raises Cancelled when nobody waits."""
    at = 0

    def watch(part: Sentence) -> None:
        nonlocal at
        ticket.step(at, of, part)
        at += 1

    return watch
