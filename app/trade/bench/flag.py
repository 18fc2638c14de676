"""What a rule says about a job, unit or transport: a note, a caution or a stop."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from app.trade.bench.stages import Mark
from app.trade.sentence import Sentence, words


class Level(StrEnum):
    """How much a flag weighs. Only a stop holds a job."""

    NOTE = words("note")
    CAUTION = words("caution")
    STOP = words("stop")


class Subject(StrEnum):
    """What the flag hangs on, and leaves the shop with."""

    JOB = words("job")
    UNIT = words("unit")
    TRANSPORT = words("transport")


class Closing(StrEnum):
    """What makes a flag go away."""

    FACTS = words("the facts change")  # reversal, reading, test: nobody's word alone
    SEEN = words("acknowledged, stays")  # a person acknowledges it; it stays until the facts change
    REASON = words("cleared by a reason")  # a person's recorded reason closes it


@dataclass(frozen=True, slots=True, kw_only=True)
class FlagRaised:
    """One flag as the rules see it now. ``rule``, ``subject`` and ``detail`` together are its identity."""

    rule: str
    rule_version: int
    level: Level
    subject: Subject
    detail: str  # tells it from another flag of the same rule: the modification's number, the circuit
    sentence: Sentence
    clears: Sentence  # what clears it
    word: Sentence  # short, for lists
    closing: Closing = Closing.FACTS
    needs: Mark | None = None  # whose PIN acknowledges or clears it; None: anybody at work
    owner_sees: bool = False  # a caution the owner has to acknowledge before the player is handed back
    acknowledged: bool = False

    @property
    def identity(self) -> tuple[str, str, str]:
        """By which the book knows it again when the rules are asked anew."""
        return (self.rule, self.subject.value, self.detail)
