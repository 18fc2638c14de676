"""How long repairs last: survival curves of groups, with the log-rank test between them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from app.book.door import Book
from app.trade.sentence import Sentence, Value
from app.trade.statistics.comeback_rates import FEWEST, LEVEL, shown_p
from app.trade.statistics.log_rank import LogRank, log_rank, log_rank_pairs
from app.trade.statistics.returns import NONE
from app.trade.statistics.survival import (
    Survival,
    kaplan_meier,
    numbers_at_risk,
    tidy_marks,
    worth_drawing_until,
)
from app.work.statistics.answer import HOLM, KAPLAN_MEIER, LOG_RANK, Answer, Why, nothing_found, set_aside
from app.work.statistics.ground import Ground, ground_of
from app.work.statistics.question import Question
from app.work.statistics.steps import Step, Steps

if TYPE_CHECKING:
    from app.work.statistics.ground import Marks, Whole

OF = 12  # parts of the work, as they are told where nothing was kept
MOST_CURVES = 6  # in one picture; the others are in the table


@dataclass(frozen=True, slots=True, eq=False)
class Watched:
    """Repairs of one group: days watched, whether they came back then, their keys."""

    days: Whole
    came: Marks
    jobs: Whole


@dataclass(frozen=True, slots=True)
class CurveRow:
    """One group: its curve in days, the share that holds at the window (None where nobody was watched so long), how
    many are watched at each of the answer's marks."""

    label: str
    name: Value
    n: int
    came_back: int
    holds: float | None
    low: float | None
    high: float | None
    median: float | None
    few: bool
    at_risk: tuple[int, ...]
    curve: Survival
    jobs: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class PairRow:
    """Two groups compared; ``adjusted`` is Holm's over all pairs."""

    first: Value
    second: Value
    chi2: float
    p: float
    adjusted: float


@dataclass(frozen=True, slots=True, kw_only=True)
class HowLong(Answer):
    """The curves, the group with most repairs first; ``test`` is over those that are not few."""

    rows: tuple[CurveRow, ...]
    marks: tuple[float, ...]
    test: LogRank
    pairs: tuple[PairRow, ...]


def how_long(book: Book, question: Question, step: Step | None = None) -> HowLong:
    """Days from handing back to the comeback; who did not come back is watched until today."""
    steps = Steps(step, OF)
    ground = ground_of(book, question, steps)
    steps.next()
    groups, odd = watched(ground)
    order = sorted(groups, key=lambda label: (-len(groups[label].days), label))
    curves = {label: kaplan_meier(groups[label].days, groups[label].came) for label in order}
    marks = tidy_marks(worth_drawing_until(curves.values(), question.window))
    steps.next()
    rows = tuple(_row(label, ground, groups[label], curves[label], marks) for label in order)
    steps.next()
    enough = [row for row in rows if not row.few][:MOST_CURVES]
    compared = [(groups[row.label].days, groups[row.label].came) for row in enough]
    test = log_rank(compared)
    pairs = tuple(
        PairRow(enough[pair.first].name, enough[pair.second].name, pair.test.chi2, pair.test.p, pair.adjusted)
        for pair in (log_rank_pairs(compared) if len(compared) > 2 else ())
    )
    n, events = sum(row.n for row in rows), sum(row.came_back for row in rows)
    return HowLong(
        question=question,
        headline=_headline(enough, test) if rows else nothing_found(ground.first is not None),
        said=(
            Sentence("Here a repair is watched for as long as the book knows it, not only for the window."),
            *question.definition.sentences(),
            *set_aside(odd + ground.wrong),
        ),
        why=Why(
            n=n,
            counted=Sentence("repairs, each watched until it came back or until today"),
            events=events,
            events_are=Sentence("came back"),
            method=(
                Sentence("Kaplan-Meier with 95 % log-log band; groups compared by the log-rank test."),
                Sentence("With more than two groups, pairs are corrected by Holm."),
            ),
            source=(KAPLAN_MEIER, LOG_RANK, HOLM),
        ),
        rows=rows,
        marks=marks,
        test=test,
        pairs=pairs,
    )


def watched(ground: Ground) -> tuple[dict[str, Watched], int]:
    """The repairs by group, each with its days, and how many were set aside as their days cannot be right."""
    import numpy as np

    today = ground.today.toordinal()
    came = ground.back != NONE
    days = np.where(came, ground.back, today) - ground.left
    odd = ground.counts & ((days < 0) | (ground.left > today))
    fit = ground.counts & ~odd
    groups = {}
    for label, at in ground.groups.items():
        own = at[fit[at]]
        if len(own):
            groups[label] = Watched(days[own], came[own], ground.job[own])
    return groups, int(odd.sum())


def _row(label: str, ground: Ground, group: Watched, curve: Survival, marks: tuple[float, ...]) -> CurveRow:
    window = ground.question.window
    low, high = curve.band_at(window) or (None, None)
    return CurveRow(
        label,
        ground.name(label),
        len(group.days),
        curve.event_count,
        curve.at(window),
        low,
        high,
        curve.median,
        len(group.days) < FEWEST,
        numbers_at_risk(group.days, marks),
        curve,
        tuple(group.jobs.tolist()),
    )


def _headline(enough: list[CurveRow], test: LogRank) -> Sentence:
    if not enough:
        return Sentence("Too few repairs to say how long they last")
    if len(enough) == 1 or not test.degrees:
        return Sentence("There is no other group to compare with")
    values = {"p": shown_p(test.p)}
    if test.p < LEVEL:
        return Sentence("Not all groups last equally long (log-rank p {p})", values)
    return Sentence("No difference between the groups is shown (log-rank p {p})", values)
