"""Tells a scanner's burst (J, digits, Enter, hardly any time between) from typing; knows no Qt."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

THRESHOLD_MS = 50
LONGEST = 12  # digits; no job number is longer


class Step(Enum):
    """What to do with the key just fed."""

    LET = "let"  # it is no part of a burst: first release what is held, then let it through
    HOLD = "hold"  # it may be part of a burst: keep it back
    SCAN = "scan"  # it ends a burst: drop it and what is held, `number` was scanned


@dataclass(frozen=True)
class Fed:
    """The answer to one key: ``release`` says that keys held before come first; ``number`` of a scan."""

    step: Step
    release: bool = False
    number: int = 0


class Burst:
    """Feed it every key press with its instant in ms. ``threshold`` is the longest time between two keys.

    ``expires()`` tells when held keys must be let go if nothing more comes.
    """

    def __init__(self, threshold: int = THRESHOLD_MS) -> None:
        self.threshold = threshold
        self._digits: str | None = None  # None: nothing held; "": J held
        self._last = 0

    @property
    def holding(self) -> bool:
        """Whether keys are held back."""
        return self._digits is not None

    def feed(self, key: str, at: int) -> Fed:
        """``key`` is the character typed, ``"\\n"`` for Enter, ``""`` for any other key."""
        held = self.holding
        in_time = held and at - self._last <= self.threshold
        if held and in_time:
            return self._go_on(key, at)
        self._digits = None
        return self._begin(key, at, release=held)

    def lapse(self) -> None:
        """Nothing more came in time, or the focus went elsewhere: what is held is no scan."""
        self._digits = None

    def _go_on(self, key: str, at: int) -> Fed:
        digits = self._digits or ""
        if len(key) == 1 and key in "0123456789" and len(digits) < LONGEST:
            self._digits, self._last = digits + key, at
            return Fed(Step.HOLD)
        self._digits = None
        if key == "\n" and digits:
            return Fed(Step.SCAN, number=int(digits))
        return self._begin(key, at, release=True)

    def _begin(self, key: str, at: int, *, release: bool) -> Fed:
        if key in ("J", "j"):
            self._digits, self._last = "", at
            return Fed(Step.HOLD, release)
        return Fed(Step.LET, release)
