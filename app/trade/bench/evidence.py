"""What was seen at the bench that speaks of the suspects: symptom words, judged readings, judged trials."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from app.trade.bench.likelihoods import ReadingRatios
from app.trade.bench.stages import TrialOutcome
from app.trade.bench.verdict import VerdictWord
from app.trade.sentence import Sentence, words

_CLEAR = {
    VerdictWord.HIGH: (Fraction(1), Fraction(0)),
    VerdictWord.LOW: (Fraction(0), Fraction(1)),
    VerdictWord.WITHIN: (Fraction(0), Fraction(0)),
}


class Asked(StrEnum):
    """What came of asking for a symptom word."""

    SAID = words("said")
    DENIED = words("denied")
    NOT_ASKED = words("not asked")


@dataclass(frozen=True)
class ReadingSeen:
    """A judged reading. ``evidence``: id of its ratios. ``high`` and ``low``: chance that the true value lies
    beyond that limit, 0 or 1 when the verdict is clear. ``name``: what was read, with its place."""

    evidence: str
    name: Sentence
    verdict: VerdictWord
    high: Fraction
    low: Fraction


@dataclass(frozen=True)
class TrialSeen:
    """A judged trial, ``number`` within its job. ``modifies``: it left a modification in the player, or raised
    current, light, gain or supply, even if it was put back. ``shown``: a cure that came undone with the change
    undone, or held for 30 minutes' play and a cold start."""

    number: int
    change: str
    name: Sentence
    outcome: TrialOutcome
    modifies: bool = False
    shown: bool = True


def reading_seen(
    ratios: ReadingRatios,
    name: Sentence,
    verdict: VerdictWord,
    high: float | None,
    low: float | None,
    both_signs: bool = False,
) -> ReadingSeen | None:
    """A reading from its verdict and the chances of lying beyond its limits (JCGM 106). None for one too close
    to call whose chances are not known: it says nothing. ``both_signs``: its limit holds values below 0 as well
    as above, so that a reading judged by its size is high on either side."""
    if verdict is not VerdictWord.CLOSE:
        above, below = _CLEAR[verdict]
    elif high is None or low is None:
        return None
    else:
        above, below = Fraction(high), Fraction(low)
    if ratios.by_size and both_signs:
        above, below = min(above + below, Fraction(1)), Fraction(0)
        verdict = VerdictWord.HIGH if verdict.outside else verdict
    return ReadingSeen(ratios.id, name, verdict, above, below)


def either(first: ReadingSeen, second: ReadingSeen) -> ReadingSeen:
    """Two readings judged by size that are one in evidence, as the two directions of a tilt: high when either
    is; the name says both, the verdict is the worse one."""
    high = 1 - (1 - first.high) * (1 - second.high)
    worse = first if first.high >= second.high else second
    name = Sentence("{these}; {one}", {"these": first.name, "one": second.name})
    return ReadingSeen(worse.evidence, name, worse.verdict, high, Fraction(0))


def verdict_words(verdict: VerdictWord) -> Sentence:
    """The verdict inside a reason: above its limit."""
    return {
        VerdictWord.WITHIN: Sentence("within its limit"),
        VerdictWord.HIGH: Sentence("above its limit"),
        VerdictWord.LOW: Sentence("below its limit"),
        VerdictWord.CLOSE: Sentence("too close to call"),
    }[verdict]
