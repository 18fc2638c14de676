"""How far an answer is, told to whoever waits for it: what is told may raise, and so end the work."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

from app.trade.sentence import Sentence

Step: TypeAlias = Callable[[int, int, Sentence | None], object]  # done, of, the part that comes next

READING = Sentence("Reading the jobs in the book")
COUNTING = Sentence("Counting")


class Steps:
    """Counts the ``of`` parts of one answer. Each part takes well under a tenth of a second on 100,000 jobs, so that
    whoever gives up does not wait."""

    def __init__(self, step: Step | None, of: int) -> None:
        self._step = step
        self._of = of
        self._done = -1

    def next(self, part: Sentence = COUNTING) -> None:
        """The part before is done (if there was one), and ``part`` begins. What is told may raise."""
        self._done = min(self._done + 1, self._of - 1)
        if self._step is not None:
            self._step(self._done, self._of, part)
