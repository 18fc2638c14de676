"""How many repairs come back, group by group: shares with intervals, each against the rest, two against each other."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING

from app.book.door import Book
from app.trade.sentence import Sentence, Value
from app.trade.statistics.comeback_rates import FEWEST, Rate, Verdict, headline, rates
from app.trade.statistics.comebacks import Standing, counted
from app.trade.statistics.proportions import newcombe
from app.trade.statistics.returns import NONE
from app.work.statistics.answer import HOLM, NEWCOMBE, WILSON, Answer, Why, nothing_found, set_aside
from app.work.statistics.ground import Ground, ground_of
from app.work.statistics.question import Question
from app.work.statistics.steps import Step, Steps

if TYPE_CHECKING:
    from app.work.statistics.ground import Marks

OF = 12  # parts of the work, as they are told where nothing was kept
MOST_PAIRED = 8  # groups; with more, the pairs are too many to look at


@dataclass(frozen=True, slots=True)
class RateRow:
    """One group. Shares from 0 to 1, None where nothing could come back; ``apart`` is this share less the rest's, with
    Newcombe's interval; ``p`` is the exact test's against the rest, ``adjusted`` Holm's over all groups."""

    label: str
    name: Value
    handed_back: int
    too_young: int
    not_counted: int
    set_aside: int
    could: int
    came_back: int
    confirmed: int
    undecided: int
    denied: int
    share: float | None
    low: float
    high: float
    rest_share: float | None
    apart: float | None
    apart_low: float | None
    apart_high: float | None
    p: float
    adjusted: float
    verdict: Verdict
    few: bool
    jobs: tuple[int, ...]  # keys of those that could come back
    came_back_jobs: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Apart:
    """The share of one group less the share of another, with Newcombe's interval."""

    first: Value
    second: Value
    difference: float
    low: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ComebackRates(Answer):
    """The groups, the one with the highest lower bound first, and the pairs of those that are not few."""

    rows: tuple[RateRow, ...]
    pairs: tuple[Apart, ...]


def comeback_rates(book: Book, question: Question, step: Step | None = None) -> ComebackRates:
    """Of the repairs watched for the whole window, how many came back."""
    steps = Steps(step, OF)
    ground = ground_of(book, question, steps)
    steps.next()
    came, held, words = ground.stand(Standing.CAME_BACK), ground.stand(Standing.HELD), _words(ground)
    found = rates(counted({label: ground.tally(at) for label, at in ground.groups.items()}))
    steps.next()
    rows = []
    for rate in found:
        at = ground.groups[rate.label]
        back, kept = ground.job[at[came[at]]].tolist(), ground.job[at[held[at]]].tolist()
        count = {word: int(marks[at].sum()) for word, marks in words.items()}
        rows.append(_row(rate, ground.name(rate.label), count, (*back, *kept), tuple(back)))
    steps.next()
    n, events = sum(row.could for row in rows), sum(row.came_back for row in rows)
    said = [
        *question.definition.sentences(),
        _observed(question, rows),
        *set_aside(sum(r.set_aside for r in rows) + ground.wrong),
    ]
    few = sum(row.few for row in rows)
    if few == 1:
        said.append(Sentence("Of 1 group there are too few repairs to say anything."))
    elif few:
        said.append(Sentence("Of {few} groups there are too few repairs to say anything.", {"few": few}))
    return ComebackRates(
        question=question,
        headline=headline(found, question.by, question.window, ground.name)
        if rows
        else nothing_found(ground.first is not None),
        said=tuple(said),
        why=Why(
            n=n,
            counted=Sentence("repairs watched for {days} days", {"days": question.window}),
            events=events,
            events_are=Sentence("came back"),
            method=(
                Sentence("Share with 95 % score interval; each group against all others by the exact test."),
                Sentence("Holm's correction over the groups; a difference with Newcombe's interval."),
            ),
            source=(WILSON, "R. A. Fisher (1934)", HOLM, NEWCOMBE),
        ),
        rows=tuple(rows),
        pairs=_pairs(rows),
    )


def _words(ground: Ground) -> dict[str, Marks]:
    """What the shop said of each repair's return."""
    came = ground.stand(Standing.CAME_BACK)
    in_time = ground.denied - ground.left <= ground.question.window
    return {
        "confirmed": came & ground.confirmed,
        "undecided": came & ~ground.confirmed,
        "denied": ground.stand(Standing.HELD) & (ground.denied != NONE) & in_time,
    }


def _row(
    rate: Rate, name: Value, words: Mapping[str, int], jobs: tuple[int, ...], back: tuple[int, ...]
) -> RateRow:
    counts, rest = rate.counted, rate.rest_share
    apart = low = high = None
    if rate.share is not None and rest is not None:
        apart = rate.share - rest
        low, high = newcombe(counts.came_back, counts.could, rate.rest_came_back, rate.rest_could)
    return RateRow(
        rate.label,
        name,
        counts.handed_back,
        counts.too_young,
        counts.not_mended,
        counts.set_aside,
        counts.could,
        counts.came_back,
        words["confirmed"],
        words["undecided"],
        words["denied"],
        rate.share,
        rate.low,
        rate.high,
        rest,
        apart,
        low,
        high,
        rate.p,
        rate.adjusted,
        rate.verdict,
        counts.could < FEWEST,
        jobs,
        back,
    )


def _observed(question: Question, rows: list[RateRow]) -> Sentence:
    young = sum(row.too_young for row in rows)
    if young == 1:
        return Sentence(
            "Only repairs watched for {days} days count: 1 is too young for that.", {"days": question.window}
        )
    return Sentence(
        "Only repairs watched for {days} days count: {young} are too young for that.",
        {"days": question.window, "young": young},
    )


def _pairs(rows: list[RateRow]) -> tuple[Apart, ...]:
    enough = [row for row in rows if not row.few][:MOST_PAIRED]
    return tuple(
        Apart(
            a.name,
            b.name,
            a.came_back / a.could - b.came_back / b.could,
            *newcombe(a.came_back, a.could, b.came_back, b.could),
        )
        for a, b in combinations(enough, 2)
    )
