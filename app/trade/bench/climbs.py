"""Climbs before and after a trial, or since the first one: how far, in how many tries, and whether a cure held."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from app.trade.bench.figures import rounded
from app.trade.bench.kinds import Warmth
from app.trade.bench.quantities import HIGHEST_RUNG
from app.trade.bench.start_up import SAYS_LITTLE, StartUpResult, fisher_p, tries_sentence
from app.trade.sentence import Sentence, Value

WARM_MINUTES = 30  # of play that show a cure, beside a cold start; common practice, no source


@dataclass(frozen=True)
class ClimbPair:
    """Two climbs under like conditions, before and after."""

    before: StartUpResult
    after: StartUpResult

    @property
    def _stops(self) -> tuple[int, int]:
        """Tries that stopped at the lower of the two rungs, before and after."""
        rung = min(self.before.rung, self.after.rung)
        return _stopped(self.before, rung), _stopped(self.after, rung)

    @property
    def p(self) -> float:
        """One-sided p of Fisher's exact test, in the direction that was seen."""
        before, after = self._stops
        if before * self.after.tries >= after * self.before.tries:
            return fisher_p(before, self.before.tries, after, self.after.tries)
        return fisher_p(after, self.after.tries, before, self.before.tries)

    @property
    def _all_or_none(self) -> bool:
        """Stops in every try on one side and in none on the other: seen, however few the tries."""
        before, after = self._stops
        return before in (0, self.before.tries) and after in (0, self.after.tries)

    @property
    def step(self) -> int:
        """1: gets further; -1: less far; 0: no difference shown."""
        before, after = self._stops
        lean = before * self.after.tries - after * self.before.tries
        if lean == 0 or not (self._all_or_none or self.p <= SAYS_LITTLE):
            return 0
        return 1 if lean > 0 else -1

    @property
    def sentence(self) -> Sentence:
        """The rung before and after, and what so many tries say."""
        before, after = self._stops
        if self.before.rung == self.after.rung:
            rungs = Sentence("Rung {rung} as before.", {"rung": self.after.rung})
        else:
            rungs = Sentence(
                "Rung {before} to {after} of {all}.",
                {"before": self.before.rung, "after": self.after.rung, "all": HIGHEST_RUNG},
            )
        if self._all_or_none and not self.step:
            return rungs
        values: dict[str, Value] = {"rungs": rungs}
        if self._all_or_none and self.p > SAYS_LITTLE:
            values |= {
                "tries": self.before.tries,
                "again": self.after.tries,
                "p": rounded(Decimal(self.p), 2),
            }
            return Sentence("{rungs} Few tries for it: {tries} before, {again} after (p {p}).", values)
        values["tries"] = tries_sentence(before, self.before.tries, after, self.after.tries)
        return Sentence("{rungs} {tries}", values)


def _stopped(climb: StartUpResult, rung: int) -> int:
    """The tries that did not get past a rung. Of a climb to the very end, those that stopped anywhere count."""
    return 0 if rung < climb.rung < HIGHEST_RUNG else climb.stopped_in


def plays(climb: StartUpResult) -> bool:
    """To the end, in every try."""
    return climb.rung == HIGHEST_RUNG and not climb.stopped_in


def since_first(climbs: Sequence[StartUpResult]) -> tuple[int, Sentence] | None:
    """The last climb of a job beside its first one under like conditions, both in normal use: the place of that
    first one (0 for the first of all), and what so many tries say. None where nothing is alike."""
    counted = [(place, climb) for place, climb in enumerate(climbs) if climb.counts]
    if not counted:
        return None
    _, last = counted[-1]
    first = next((one for one in counted[:-1] if one[1].warmth is last.warmth), None)
    return None if first is None else (first[0], ClimbPair(first[1], last).sentence)


@dataclass(frozen=True, kw_only=True)
class Climbed:
    """One climb in normal use, with its moment. ``trial``: the id of the trial that it belongs to; ``before`` it,
    or after."""

    at: datetime
    result: StartUpResult
    trial: int | None = None
    before: bool = False


@dataclass(frozen=True, kw_only=True)
class TrialMade:
    """When a trial was made. ``id`` is None while it is not kept yet."""

    id: int | None
    number: int
    at: datetime


@dataclass(frozen=True, slots=True)
class ClimbsAround:
    """The last climb of each warmth (cold, warm, between) before a trial and after it, in normal use."""

    before: Mapping[Warmth, StartUpResult]
    after: Mapping[Warmth, StartUpResult]

    @property
    def pairs(self) -> tuple[ClimbPair, ...]:
        """Like with like; where nothing is alike, the last before with the last after."""
        alike = [warmth for warmth in self.after if warmth in self.before]
        if alike:
            return tuple(ClimbPair(self.before[warmth], self.after[warmth]) for warmth in alike)
        if not (self.before and self.after):
            return ()
        return (ClimbPair(_last(self.before), _last(self.after)),)

    @property
    def rung_before(self) -> int | None:
        """The lowest rung among those before: a fault that shows only when cold stays in view."""
        return min((climb.rung for climb in self.before.values()), default=None)

    @property
    def rung_after(self) -> int | None:
        """The lowest rung among those after."""
        return min((climb.rung for climb in self.after.values()), default=None)

    @property
    def held(self) -> bool:
        """Whether it got past the rung before both cold and after so long a play: that shows a cure."""
        past = [climb for climb in self.after.values() if climb.rung > (self.rung_before or 0)]
        warm = any(c.warmth is Warmth.WARM or (c.warm_minutes or 0) >= WARM_MINUTES for c in past)
        return warm and any(climb.warmth is Warmth.COLD for climb in past)


def climbs_around(trial: TrialMade, trials: Sequence[TrialMade], climbs: Sequence[Climbed]) -> ClimbsAround:
    """The climbs before and after one of a job's trials; ``climbs`` in the order of time. What was climbed since
    the trial before it stands as its before; what comes behind the next one is no longer its own."""
    others = [one for one in trials if one.number != trial.number]
    former = [one.at for one in others if one.number < trial.number]
    later = [one.at for one in others if one.number > trial.number]
    before: list[Climbed] = []
    after: list[Climbed] = []
    for climb in climbs:
        own = climb.trial is not None and climb.trial == trial.id
        if own and not climb.before:
            after.append(climb)
        elif own or climb.at <= trial.at:
            before.append(climb)
        elif climb.trial is None and (not later or climb.at < min(later)):
            after.append(climb)
    since = [climb for climb in before if not former or climb.at > max(former)]
    return ClimbsAround(_by_warmth(since or before[-1:]), _by_warmth(after))


def _by_warmth(climbs: Sequence[Climbed]) -> Mapping[Warmth, StartUpResult]:
    found: dict[Warmth, StartUpResult] = {}
    for climb in climbs:
        found.pop(climb.result.warmth, None)  # so that the last one stands last
        found[climb.result.warmth] = climb.result
    return found


def _last(climbs: Mapping[Warmth, StartUpResult]) -> StartUpResult:
    return list(climbs.values())[-1]
