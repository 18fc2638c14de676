"""What readings, symptom words and trials say about the suspects, as data. Common practice, no source; every
number is the shop's to change.

Only what speaks is data: how often a reading is outside when the suspect has nothing to do with it, and how many
times as often when it is the cause. What a reading within its limit, or a word denied, says follows from that, so
that the chances of one reading always sum to 1.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from app.trade.bench.changes import BenchChange, Grade
from app.trade.bench.kinds import Arrangement
from app.trade.bench.stages import TrialOutcome
from app.trade.sentence import Sentence

ONE = Fraction(1)
# No single word, reading or trial may settle the matter: each says at most ten to one.
LEAST, MOST = Fraction(1, 10), Fraction(10)


@dataclass(frozen=True, kw_only=True)
class ReadingRatios:
    """What one reading says. ``outside_high`` and ``outside_low``: how many times as often it is outside there
    when the suspect is the cause; who is not named has 1. Readings of one ``family`` say nearly the same.

    ``quantities``: what is measured for it, the one that needs most first. ``words``: its own, empty for those
    of its quantity. ``rung_itself``: the rung that this reading is, where it moves nothing. ``unless_outside``:
    another reading which, being outside, explains this one. ``by_size``: the sign does not matter.
    """

    id: str
    words: str
    arrangement: Arrangement | None
    family: str
    quantities: tuple[str, ...]
    minutes: int
    background_high: Fraction
    background_low: Fraction
    outside_high: Mapping[str, Fraction]
    outside_low: Mapping[str, Fraction]
    why: str
    rung_itself: int | None = None
    unless_outside: str = ""
    by_size: bool = False

    def chances(self, suspect: str) -> tuple[Fraction, Fraction, Fraction]:
        """How often it is outside high, outside low and within when this suspect is the cause; they sum to 1."""
        high = self.background_high * self.outside_high.get(suspect, ONE)
        low = self.background_low * self.outside_low.get(suspect, ONE)
        return high, low, 1 - high - low

    def ratio_within(self, suspect: str) -> Fraction:
        """The ratio of a reading within its limit, worked out from the others."""
        return self.chances(suspect)[2] / (1 - self.background_high - self.background_low)

    def ratio(self, suspect: str, high: Fraction, low: Fraction) -> Fraction:
        """The ratio when the true value lies above the limit with chance ``high`` and below it with ``low``: 0 or
        1 for a clear verdict, graded for one too close to call."""
        return clipped(
            high * self.outside_high.get(suspect, ONE)
            + low * self.outside_low.get(suspect, ONE)
            + (1 - high - low) * self.ratio_within(suspect)
        )

    @property
    def suspects(self) -> frozenset[str]:
        """All whom it speaks of."""
        return frozenset(self.outside_high) | frozenset(self.outside_low)

    def fits(self, arrangement: Arrangement) -> bool:
        """Exists on this arrangement."""
        return self.arrangement in (None, arrangement)


@dataclass(frozen=True, kw_only=True)
class SymptomWord:
    """A word about how the fault shows. ``background``: how often it is said when the suspect has nothing to do
    with it; ``said``: how many times as often when it is the cause."""

    id: str
    words: str
    background: Fraction
    said: Mapping[str, Fraction]
    why: str

    @property
    def name(self) -> Sentence:
        """Its words."""
        return Sentence(self.words)

    def ratio(self, suspect: str, said: bool) -> Fraction:
        """The ratio when it was said, or denied."""
        ratio = self.said.get(suspect, ONE)
        return clipped(ratio if said else (1 - self.background * ratio) / (1 - self.background))


@dataclass(frozen=True)
class TrialChances:
    """How often a change cures, helps and does nothing; they sum to 1."""

    cured: Fraction
    better: Fraction
    no_difference: Fraction

    def of(self, outcome: TrialOutcome) -> Fraction:
        """The chance of one outcome; none for a player that got worse."""
        return self.all[outcome]

    @property
    def all(self) -> Mapping[TrialOutcome, Fraction]:
        """Each outcome with its chance."""
        return {
            TrialOutcome.CURED: self.cured,
            TrialOutcome.BETTER: self.better,
            TrialOutcome.NO_DIFFERENCE: self.no_difference,
        }


@dataclass(frozen=True)
class Entrants:
    """Who comes into a row from outside it: whom the shop's jobs name, or whose ratios multiply to ``ratio``.
    Each takes ``weight`` from ``other``, and at most ``most`` come in."""

    weight: Fraction
    ratio: Fraction
    most: int


@dataclass(frozen=True)
class Likelihoods:
    """All of it. ``unaddressed``: what a change does when it does not concern the cause, as things are knocked
    right by accident. ``ladder_worth``: the closed jobs that the ladder's weights count as."""

    readings: Mapping[str, ReadingRatios]
    symptoms: Mapping[str, SymptomWord]
    grades: Mapping[Grade, TrialChances]
    unaddressed: TrialChances
    ladder_worth: int
    entrants: Entrants

    def trial_chances(self, change: BenchChange, suspect: str) -> TrialChances:
        """What a change does when this suspect is the cause."""
        grade = change.addresses.get(suspect)
        return self.unaddressed if grade is None else self.grades[grade]

    def trial_ratio(self, change: BenchChange, suspect: str, outcome: TrialOutcome) -> Fraction:
        """The ratio of an outcome: cured, better or no difference."""
        return clipped(self.trial_chances(change, suspect).of(outcome) / self.unaddressed.of(outcome))


def clipped(ratio: Fraction) -> Fraction:
    """The ratio within 1 to 10 and 10 to 1, whatever numbers a shop has entered."""
    return min(max(ratio, LEAST), MOST)
