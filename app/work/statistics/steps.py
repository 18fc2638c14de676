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
        self._part = READING

    def next(self, part: Sentence = COUNTING) -> None:
        """The part before is done (if there was one), and ``part`` begins. What is told may raise."""
        self._done = min(self._done + 1, self._of - 1)
        self._part = part
        self.still()

    def still(self) -> None:
        """The same part goes on: what takes longer in a larger book says so again and again. What is told may raise."""
        if self._step is not None:
            self._step(max(self._done, 0), self._of, self._part)
