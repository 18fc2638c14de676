"""The reading or trial expected to tell most next: expected information gain, by the minute, and what is barred.

The gain of a candidate is by how much the entropy of the shares is expected to fall, which is the mutual information
of suspect and outcome, in bits.
"""

from __future__ import annotations

import math
from collections.abc import Container, Mapping
from dataclasses import dataclass
from functools import reduce
from typing import TypeAlias

from app.trade.bench.changes import BenchChange, Grade, Leaves
from app.trade.bench.likelihoods import ReadingRatios
from app.trade.bench.quantities import Quantity
from app.trade.bench.ranking import Knowledge, Ranking
from app.trade.bench.stages import TrialOutcome
from app.trade.bench.verdict import VerdictWord
from app.trade.bench.weighing import Evidence, moving
from app.trade.sentence import Sentence

LEAST_GAIN = 0.001  # bits; below that nobody would notice what was learnt
QUICK_MINUTES = 10
MOST_NAMED = 3  # changes that a refusal names
WORTH_TRYING = 0.05  # share above which a suspect deserves its reversible changes first

Outcome: TypeAlias = "VerdictWord | TrialOutcome"


@dataclass(frozen=True)
class Gain:
    """What a candidate is expected to tell: ``bits`` in all, the chance of each outcome, and the suspect among
    those it speaks of whose case it is expected to change most; empty when it speaks of none here."""

    bits: float
    chances: Mapping[Outcome, float]
    speaks_of: str


@dataclass(frozen=True)
class Offer:
    """A reading or a trial that may be made next. ``leaves_nothing`` in the player. ``first``: reversible changes
    that come before it, unless a reason is typed."""

    id: str
    trial: bool
    name: Sentence
    minutes: int
    gain: Gain
    leaves_nothing: bool
    reason: Sentence
    first: tuple[BenchChange, ...] = ()
    quantities: tuple[str, ...] = ()  # that the reading takes; of a trial none

    @property
    def per_minute(self) -> float:
        """Bits for each minute of work."""
        return self.gain.bits / self.minutes

    @property
    def quick(self) -> bool:
        """Leaves nothing and takes at most ten minutes: such steps come first."""
        return self.leaves_nothing and self.minutes <= QUICK_MINUTES


@dataclass(frozen=True)
class Barred:
    """A reading that is not offered, as one of its family is there already."""

    id: str
    name: Sentence
    reason: Sentence


@dataclass(frozen=True)
class NextSteps:
    """What may be made next, best first, and the readings that are barred."""

    offers: tuple[Offer, ...]
    barred: tuple[Barred, ...]


def next_steps(
    ranking: Ranking,
    evidence: Evidence,
    knowledge: Knowledge,
    quantities: Mapping[str, Quantity],
    tried: Container[str] = (),
) -> NextSteps:
    """What to read or try next. First what leaves nothing and takes at most ten minutes, then by bits for each
    minute; what is hard to undo comes last. ``tried``: ids of changes that were tried already, whatever came of
    it. A reading is offered only when the rung that it needs was reached."""
    offers = [
        *_readings(ranking, evidence, knowledge, quantities),
        *_trials(ranking, evidence, knowledge, tried),
    ]
    offers.sort(key=lambda offer: (bool(offer.first), not offer.quick, -offer.per_minute, offer.id))
    return NextSteps(tuple(offers), _barred(ranking, evidence, knowledge, quantities))


def reading_gain(ranking: Ranking, ratios: ReadingRatios) -> Gain:
    """What a reading is expected to tell, when none of its family is there yet."""
    words = (VerdictWord.HIGH, VerdictWord.LOW, VerdictWord.WITHIN)
    return _gain(
        ranking,
        {
            line.suspect.id: dict(zip(words, map(float, ratios.chances(line.suspect.id)), strict=True))
            for line in ranking.lines
        },
        ratios.suspects,
    )


def trial_gain(ranking: Ranking, change: BenchChange, knowledge: Knowledge) -> Gain:
    """What a trial is expected to tell; nothing when it leaves a modification, as that addresses nobody."""
    likelihoods = knowledge.likelihoods
    return _gain(
        ranking,
        {
            line.suspect.id: {
                outcome: float(chance)
                for outcome, chance in likelihoods.trial_chances(change, line.suspect.id).all.items()
            }
            for line in ranking.lines
        },
        change.addresses,
    )


def _gain(ranking: Ranking, likely: Mapping[str, Mapping[Outcome, float]], named: Container[str]) -> Gain:
    shares = {suspect: float(share) for suspect, share in ranking.shares.items()}
    outcomes = list(next(iter(likely.values())))
    chances = {one: sum(shares[s] * likely[s][one] for s in shares) for one in outcomes}
    bits = {
        suspect: share
        * sum(
            likely[suspect][one] * math.log2(likely[suspect][one] / chances[one])
            for one in outcomes
            if likely[suspect][one] > 0
        )
        for suspect, share in shares.items()
    }
    speaks_of = max((suspect for suspect in bits if suspect in named), key=bits.__getitem__, default="")
    return Gain(max(0.0, sum(bits.values())), chances, speaks_of)


def still_to_try(
    ranking: Ranking, evidence: Evidence, knowledge: Knowledge, tried: Container[str] = ()
) -> tuple[BenchChange, ...]:
    """Reversible changes that aim at, or often help, a suspect with a share above 5 in 100 and were not tried:
    they come before what leaves a modification, turns the grating or opens the pick-up."""
    worth = {s for s, share in ranking.shares.items() if share > WORTH_TRYING}
    return tuple(
        change
        for change in knowledge.changes.values()
        if change.id not in tried
        and change.leaves in (Leaves.NOTHING, Leaves.DEPENDS)
        and not change.last
        and _fits(change, evidence, knowledge)
        and any(change.addresses.get(s) in (Grade.AIMS, Grade.OFTEN) for s in worth)
    )


def comes_last(change: BenchChange) -> bool:
    """Leaves a modification, or is hard to undo."""
    return change.last or change.leaves is Leaves.MODIFICATION


def out_of_order(first: tuple[Sentence, ...]) -> Sentence:
    """What to say of a change before which others come."""
    named = reduce(_with, first[:MOST_NAMED])
    if len(first) > MOST_NAMED:
        return Sentence(
            "First comes what can be undone: {changes}; and {n} more. Say why not.",
            {"changes": named, "n": len(first) - MOST_NAMED},
        )
    return Sentence("First comes what can be undone: {changes}. Say why not.", {"changes": named})


def _with(these: Sentence, one: Sentence) -> Sentence:
    return Sentence("{these}; {one}", {"these": these, "one": one})  # names have commas of their own


def _fits(change: BenchChange, evidence: Evidence, knowledge: Knowledge) -> bool:
    """Can be made on this arrangement: one of those that it addresses best exists there."""
    grades = {suspect: grade for suspect, grade in change.addresses.items() if grade is not None}
    best = min(grades.values(), default=None)
    return any(
        grade is best and knowledge.suspects[suspect].arrangement in (None, evidence.arrangement)
        for suspect, grade in grades.items()
    )


def _trials(ranking: Ranking, evidence: Evidence, knowledge: Knowledge, tried: Container[str]) -> list[Offer]:
    first = still_to_try(ranking, evidence, knowledge, tried)
    offers = []
    for change in knowledge.changes.values():
        if change.id in tried or not _fits(change, evidence, knowledge):
            continue
        gain = trial_gain(ranking, change, knowledge)
        if gain.bits >= LEAST_GAIN:
            offers.append(
                Offer(
                    id=change.id,
                    trial=True,
                    name=change.name,
                    minutes=change.minutes,
                    gain=gain,
                    leaves_nothing=change.leaves is Leaves.NOTHING,
                    reason=_reason(change.name, change.minutes, gain, knowledge),
                    first=first if comes_last(change) else (),
                )
            )
    return offers


def _readings(
    ranking: Ranking, evidence: Evidence, knowledge: Knowledge, quantities: Mapping[str, Quantity]
) -> list[Offer]:
    read = _families_read(evidence, knowledge)
    offers = []
    for ratios in _readable(evidence, knowledge, quantities):
        gain = reading_gain(ranking, ratios)
        if ratios.family not in read and gain.bits >= LEAST_GAIN:
            name = reading_name(ratios, quantities)
            reason = _reason(name, ratios.minutes, gain, knowledge)
            offers.append(
                Offer(
                    ratios.id,
                    False,
                    name,
                    ratios.minutes,
                    gain,
                    True,
                    reason,
                    quantities=tuple(ratios.quantities),
                )
            )
    return offers


def _barred(
    ranking: Ranking, evidence: Evidence, knowledge: Knowledge, quantities: Mapping[str, Quantity]
) -> tuple[Barred, ...]:
    read = _families_read(evidence, knowledge)
    seen = {one.evidence for one in evidence.readings}
    barred = []
    for ratios in _readable(evidence, knowledge, quantities):
        if ratios.family not in read or ratios.id in seen:
            continue
        if reading_gain(ranking, ratios).bits >= LEAST_GAIN:
            name = reading_name(ratios, quantities)
            reason = Sentence(
                "{reading} is not offered: it says nearly the same as {other}, which is read already.",
                {"reading": name, "other": read[ratios.family]},
            )
            barred.append(Barred(ratios.id, name, reason))
    return tuple(barred)


def _families_read(evidence: Evidence, knowledge: Knowledge) -> dict[str, Sentence]:
    """The families that are read already, with a reading of each."""
    families = knowledge.likelihoods.readings
    return {families[seen.evidence].family: seen.name for seen in moving(evidence, knowledge.likelihoods)}


def _readable(
    evidence: Evidence, knowledge: Knowledge, quantities: Mapping[str, Quantity]
) -> list[ReadingRatios]:
    """What can be read on this arrangement up to the rung that was reached, and is not the rung itself."""
    return [
        ratios
        for ratios in knowledge.likelihoods.readings.values()
        if ratios.fits(evidence.arrangement)
        and ratios.rung_itself != evidence.rung
        and all(_can_read(quantities.get(one), evidence) for one in ratios.quantities)
    ]


def _can_read(quantity: Quantity | None, evidence: Evidence) -> bool:
    return (
        quantity is not None and quantity.fits(evidence.arrangement) and quantity.readable(evidence.rung - 1)
    )


def reading_name(ratios: ReadingRatios, quantities: Mapping[str, Quantity]) -> Sentence:
    """The words of a reading: its own, else those of its quantity."""
    return Sentence(ratios.words) if ratios.words else quantities[ratios.quantities[0]].name


def _reason(name: Sentence, minutes: int, gain: Gain, knowledge: Knowledge) -> Sentence:
    return Sentence(
        "{step}, {minutes} min: tells most about {suspect}.",
        {"step": name, "minutes": minutes, "suspect": knowledge.suspects[gain.speaks_of].name},
    )
