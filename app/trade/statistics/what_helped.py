"""What helped before: each kind of change with how often it was tried, cured and held, the surest first."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

from app.trade.bench.stages import TrialOutcome
from app.trade.sentence import Sentence
from app.trade.statistics.comebacks import Standing
from app.trade.statistics.proportions import wilson

FEW = 5  # trials below which a share is drawn open and said to be of few
HELPED = (TrialOutcome.CURED, TrialOutcome.BETTER)


class Tried(NamedTuple):
    """One change in one job: its last trial there. ``change`` is an id of the list of changes, or empty with own
    ``words``. ``left``: it left a modification. ``standing``: what became of the job's repair afterwards, where
    the change helped; None while the job is open, or where it did not."""

    change: str
    words: str
    outcome: TrialOutcome
    left: bool = False
    standing: Standing | None = None

    @property
    def key(self) -> str:
        """What makes two trials one kind of change: the id, else the words as they were typed."""
        return self.change or f"words {' '.join(self.words.split()).casefold()}"


@dataclass(frozen=True, slots=True)
class Helped:
    """One kind of change. ``low`` and ``high``: 95 % interval of the cure rate (Wilson), 0 to 1. ``came_back`` of
    the ``could`` repairs that it helped and that were watched for the whole window."""

    key: str
    change: str
    words: str
    tried: int
    cured: int
    better: int
    left: int
    came_back: int
    could: int
    low: float
    high: float

    @property
    def share(self) -> float:
        """The cure rate."""
        return self.cured / self.tried

    @property
    def few(self) -> bool:
        """Rests on too few trials to lean on."""
        return self.tried < FEW


def helped(all_tried: Iterable[Tried]) -> tuple[Helped, ...]:
    """Each kind of change, by the lower end of its cure rate; where that is the same, by what at least became
    better, then the fewer failures first."""
    by_key: defaultdict[str, list[Tried]] = defaultdict(list)
    for one in all_tried:
        by_key[one.key].append(one)
    return tuple(sorted((_counted(key, ones) for key, ones in by_key.items()), key=_order))


def _counted(key: str, ones: list[Tried]) -> Helped:
    outcomes = [one.outcome for one in ones]
    standings = [one.standing for one in ones]
    cured, came_back = outcomes.count(TrialOutcome.CURED), standings.count(Standing.CAME_BACK)
    low, high = wilson(cured, len(ones))
    return Helped(
        key=key,
        change=ones[0].change,
        words=ones[0].words,
        tried=len(ones),
        cured=cured,
        better=outcomes.count(TrialOutcome.BETTER),
        left=sum(one.left for one in ones),
        came_back=came_back,
        could=came_back + standings.count(Standing.HELD),
        low=low,
        high=high,
    )


def _order(one: Helped) -> tuple[float, float, float, str]:
    return (-one.low, -wilson(one.cured + one.better, one.tried)[0], -one.high, one.key)


def ground(found: Iterable[Helped], jobs: int) -> Sentence:
    """How much the table rests on, and how it is read."""
    lines = tuple(found)
    trials = sum(one.tried for one in lines)
    if not trials:
        return Sentence("No trial of another job is on record for this transport type stopped here.")
    values = {"trials": trials, "jobs": jobs, "few": FEW}
    if trials < FEW:
        return Sentence("Only {trials} trials in {jobs} jobs: too few to lean on.", values)
    if any(one.few for one in lines):
        return Sentence(
            "{trials} trials in {jobs} jobs, sorted by the lower end. Open mark: fewer than {few} trials, too few "
            "to lean on.",
            values,
        )
    return Sentence("{trials} trials in {jobs} jobs, sorted by the lower end.", values)
