"""What the book works out of a trial: cured, better, no difference or worse, and why. The technician decides."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import Enum, auto

from app.trade.bench.climbs import ClimbPair, plays
from app.trade.bench.difference import Difference, difference
from app.trade.bench.figures import rounded
from app.trade.bench.follows import against_foretold, as_made, drive_sentence
from app.trade.bench.stages import TrialOutcome
from app.trade.bench.verdict import Limit, VerdictWord, judge
from app.trade.sentence import Measure, Sentence

SAME = Decimal(1)


class Moved(Enum):
    """What a quantity did, seen from its limit."""

    TOWARD = auto()
    AWAY = auto()
    ASIDE = auto()  # a real change within the limit, or without one
    NOT = auto()  # no difference shown


@dataclass(frozen=True, kw_only=True)
class Pair:
    """One quantity read before and after, in SI, with standard uncertainties; ``shown_*`` as they are said.

    ``ratio_*``: ratio of current to the maker's value that was live at either reading, for a drive which falls
    by the change alone (law `CURRENT`); 1 for all others.
    """

    name: Sentence
    before: Decimal
    u_before: Decimal
    after: Decimal
    u_after: Decimal
    shown_before: Measure
    shown_after: Measure
    limit: Limit | None = None
    ratio_before: Decimal = SAME
    ratio_after: Decimal = SAME

    @property
    def ratio(self) -> Decimal:
        """How many times the current the change made of it."""
        return self.ratio_after / self.ratio_before

    @property
    def plain(self) -> Difference:
        """After against before."""
        return difference(self.before, self.u_before, self.after, self.u_after)

    @property
    def telling(self) -> Difference:
        """The difference that speaks of a mend: against what the change alone foretells where it foretells."""
        return against_foretold(self.before, self.u_before, self.after, self.u_after, self.ratio)

    @property
    def moved(self) -> Moved:
        """What it did, judged at the maker's value."""
        if not self.telling.real:
            return Moved.NOT
        far_before, far_after = self._beyond(self.before, self.ratio_before), self._beyond_after
        if far_before == far_after:
            return Moved.ASIDE
        return Moved.TOWARD if far_after < far_before else Moved.AWAY

    @property
    def was_beyond(self) -> bool:
        """Beyond its limit before the trial."""
        return self._beyond(self.before, self.ratio_before) > 0

    @property
    def now_within(self) -> bool:
        """Within its limit after it, with its uncertainty."""
        if self.limit is None:
            return False
        value, u = as_made(self.after, self.u_after, self.ratio_after)
        return judge(value, u, self.limit).word is VerdictWord.WITHIN

    @property
    def _beyond_after(self) -> Decimal:
        return self._beyond(self.after, self.ratio_after)

    def _beyond(self, value: Decimal, ratio: Decimal) -> Decimal:
        """How far beyond its limit, at the maker's value; 0 within it or without one."""
        if self.limit is None:
            return Decimal(0)
        made, low, high = value * ratio, self.limit.low, self.limit.high
        if high is not None and made > high:
            return made - high
        return low - made if low is not None and made < low else Decimal(0)

    @property
    def sentences(self) -> tuple[Sentence, ...]:
        """What it did, with its numbers: against its former value, and against the foretold one where there is one."""
        if self.ratio == SAME:
            return (self._sentence(self.plain),)
        expected = self.before / self.ratio * (self.shown_before.value / self.before if self.before else SAME)
        foretold = Measure(rounded(expected, 1), self.shown_after.unit)
        return (
            drive_sentence(self.shown_before, expected, self.shown_after, self.ratio),
            Sentence(
                "z {plain} against {before}, {z} against {foretold}: {real}.",
                {
                    "plain": shown_z(self.plain),
                    "before": self.shown_before,
                    "z": shown_z(self.telling),
                    "foretold": foretold,
                    "real": self._what,
                },
            ),
        )

    def _sentence(self, found: Difference) -> Sentence:
        return Sentence(
            "{quantity} {before} to {after}, z {z}: {real}.",
            {
                "quantity": self.name,
                "before": self.shown_before,
                "after": self.shown_after,
                "z": shown_z(found),
                "real": self._what,
            },
        )

    @property
    def _what(self) -> Sentence:
        match self.moved:
            case Moved.NOT:
                return Sentence("no difference shown")
            case Moved.TOWARD:
                return Sentence("a real change, within its limit now") if self.now_within else _TOWARD
            case Moved.AWAY:
                return Sentence("a real change, further from its limit")
            case Moved.ASIDE if self.limit is None:
                return Sentence("a real change, without a limit to judge it by")
            case _:
                return Sentence("a real change that its limit does not ask for")


_TOWARD = Sentence("a real change toward its limit")


def shown_z(found: Difference) -> Measure | Sentence:
    """A difference in its uncertainties as it is said: -0.54, 10.2; without uncertainty it has none."""
    z = found.z
    if z is None:
        return Sentence("not known")
    return Measure(rounded(z, 1 if abs(z) >= 10 else 2))


@dataclass(frozen=True)
class TrialSides:
    """Before and after. ``modifies``: the change leaves a modification, or raised current, light, gain or supply.
    ``proof`` says by what a cure is shown: `HELD` or `CAME_BACK`; None while it is not."""

    climbs: tuple[ClimbPair, ...] = ()
    pairs: tuple[Pair, ...] = ()
    modifies: bool = False
    proof: Sentence | None = None


@dataclass(frozen=True)
class Proposal:
    """What the book makes of a trial; None where it cannot tell. ``reasons`` in the order of their weight."""

    outcome: TrialOutcome | None
    reasons: tuple[Sentence, ...]


def propose(sides: TrialSides) -> Proposal:
    """Work out what a trial did: the rung first, then the readings that moved from or toward their limits.

    Cured only when it plays to the end and nothing that leaves a modification had a part in it.
    """
    outcome, reason = _outcome(sides)
    rungs = tuple(climb.sentence for climb in sides.climbs)
    readings = tuple(sentence for pair in sides.pairs for sentence in pair.sentences)
    return Proposal(outcome, (*rungs, *readings, *((reason,) if reason else ())))


def _outcome(sides: TrialSides) -> tuple[TrialOutcome | None, Sentence | None]:
    if not sides.climbs and not sides.pairs:
        return None, Sentence("Nothing was read or tested both before and after it, so the book cannot tell.")
    steps = {climb.step for climb in sides.climbs}
    moves = {pair.moved for pair in sides.pairs}
    toward, away = Moved.TOWARD in moves, Moved.AWAY in moves
    if steps >= {1, -1}:
        return None, Sentence("It gets further one way and less far another: that is for you to weigh.")
    if -1 in steps:
        return TrialOutcome.WORSE, None
    if 1 in steps:
        return _gained(sides, away)
    if toward and away:
        return None, Sentence(
            "Some readings came nearer to their limits, others left them: weigh it yourself."
        )
    if toward:
        return _nearer(sides)
    return (TrialOutcome.WORSE if away else TrialOutcome.NO_DIFFERENCE), None


def _gained(sides: TrialSides, away: bool) -> tuple[TrialOutcome, Sentence | None]:
    if away or not all(plays(climb.after) for climb in sides.climbs):
        return TrialOutcome.BETTER, None
    if sides.modifies:
        return TrialOutcome.BETTER, BY_MODIFICATION
    return TrialOutcome.CURED, sides.proof or UNPROVEN


def _nearer(sides: TrialSides) -> tuple[TrialOutcome, Sentence | None]:
    """Readings alone: a fault that showed in them only is cured when all of them are within their limits."""
    played = bool(sides.climbs) and all(plays(c.before) and plays(c.after) for c in sides.climbs)
    mended = all(p.moved is Moved.TOWARD and p.now_within for p in sides.pairs if p.was_beyond)
    if not (played and mended):
        return TrialOutcome.BETTER, None
    if sides.modifies:
        return TrialOutcome.BETTER, BY_MODIFICATION
    return TrialOutcome.CURED, sides.proof or UNPROVEN


BY_MODIFICATION = Sentence(
    "It plays, but by a change that also overcomes what it does not mend: no cause is established."
)
HELD = Sentence("The cure is shown: it held after 30 minutes' play and from a cold start.")
CAME_BACK = Sentence("The cure is shown: the fault came back with the change undone.")
UNPROVEN = Sentence(
    "A cure is shown by 30 minutes' play and a cold start, or when the fault comes back undone."
)
