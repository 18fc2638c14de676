"""The shop itself: jobs in and out by week, how long they stay, promises kept, work in hand, hours, turnover."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from app.book.door import Book
from app.trade.sentence import Sentence
from app.trade.settings.prices import CURRENCY
from app.trade.statistics.promise import PromiseHelp, promise_of
from app.trade.statistics.returns import NONE
from app.trade.statistics.survival import Durations
from app.work.office.settings import shop_settings
from app.work.statistics.answer import Answer, Why, nothing_found, set_aside
from app.work.statistics.ground import ground_in
from app.work.statistics.hours_and_turnover import HoursRow as HoursRow
from app.work.statistics.hours_and_turnover import MonthRow as MonthRow
from app.work.statistics.hours_and_turnover import hours_of, turnover_of
from app.work.statistics.question import Question
from app.work.statistics.steps import Step, Steps
from app.work.statistics.turns import Turns, turns_of, waited
from app.work.statistics.visits import Visits

if TYPE_CHECKING:
    from app.work.statistics.ground import Whole

OF = 17  # parts of the work, as they are told where nothing was kept
AGES = ((0, 7), (8, 30), (31, 90), (91, None))  # days since it was taken in
A_DAY = 86_400.0


@dataclass(frozen=True, slots=True)
class WeekRow:
    """One week by its Monday: jobs taken in, and jobs handed back."""

    first: date
    taken_in: int
    handed_back: int
    jobs: tuple[int, ...]  # keys of those handed back


@dataclass(frozen=True, slots=True)
class Stay:
    """Days from taking in to handing back, of ``n`` jobs; waiting for an answer, a part or the customer apart."""

    n: int
    median: float | None
    ninth_tenth: float | None
    waiting_median: float | None
    waiting_ninth_tenth: float | None


@dataclass(frozen=True, slots=True)
class Promises:
    """Jobs handed back that were ready on the day promised, those that were not, and those without a promise."""

    kept: int
    broken: int
    without: int
    broken_jobs: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class AgeRow:
    """Work in hand that was taken in from ``least`` to ``most`` days ago."""

    least: int
    most: int | None
    count: int
    jobs: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shop(Answer):
    """The weeks in order, and the rest of the page. ``last_day`` is the last one that was looked at."""

    rows: tuple[WeekRow, ...]
    last_day: date
    stay: Stay
    promises: Promises
    in_hand: tuple[AgeRow, ...]
    technicians: tuple[HoursRow, ...]
    turnover: tuple[MonthRow, ...]
    promise: PromiseHelp


def the_shop(book: Book, question: Question, step: Step | None = None) -> Shop:
    """How the shop goes in the period asked for. Filters act on jobs in and out, work in hand, hours and turnover."""
    import numpy as np

    steps, settings, today = Steps(step, OF), shop_settings(book), book.today()
    since, until = question.since or date.min, question.until or today
    with book.ask() as session:
        ground = ground_in(session, book, question, steps)
        visits, passes = ground.visits, ground.passes
        turns = turns_of(session, book.zone, visits, steps)
        waits = waited(session, visits)
        technicians = hours_of(session, book.zone, visits, passes, since, until, question.technician, steps)
        turnover = turnover_of(session, visits, passes, since, until, settings[CURRENCY], steps)
    steps.next()
    all_of_them = np.ones(len(visits.job), dtype=bool) if passes is None else passes
    came = all_of_them & (visits.came >= since.toordinal()) & (visits.came <= until.toordinal())
    done = np.sort(ground.rows)
    here = np.flatnonzero(turns.here & all_of_them)
    ready = done[turns.ready[done] != NONE]
    steps.next()
    promise = promise_of(
        visits.came[ready], turns.ready[ready], np.ones(len(ready), dtype=bool), settings.calendar
    )
    steps.next()
    counted = int(came.sum())
    return Shop(
        question=question,
        headline=_headline(counted, len(done))
        if counted or len(done)
        else nothing_found(len(visits.job) > 0),
        said=(*_said(question, promise), *set_aside(ground.wrong)),
        why=Why(
            n=len(done),
            counted=Sentence("jobs handed back"),
            events=counted,
            events_are=Sentence("taken in"),
            method=(
                Sentence(
                    "Median and ninth tenth are days of jobs as they stand in the book, without smoothing."
                ),
                Sentence("Waiting is counted from the history of each job."),
            ),
            source=(),
        ),
        rows=_weeks(visits.came[came], visits.left[done], visits.job[done]),
        last_day=min(until, today),
        stay=_stay((visits.handed_back - visits.taken_in)[done], waits[done]),
        promises=_promises(turns, visits, done),
        in_hand=_ages(today.toordinal() - visits.came[here], visits.job[here]),
        technicians=technicians,
        turnover=turnover,
        promise=promise,
    )


def _weeks(came: Whole, left: Whole, jobs: Whole) -> tuple[WeekRow, ...]:
    """Every week from the first to the last, of these days of taking in, and of handing back with the jobs."""
    import numpy as np

    ins, outs = (days - (days + 6) % 7 for days in (came, left))  # day 1 of `date.toordinal` was a Monday
    both = np.concatenate((ins, outs))
    if not len(both):
        return ()
    mondays = np.arange(both.min(), both.max() + 1, 7)
    counts = np.bincount((ins - mondays[0]) // 7, minlength=len(mondays))
    order = np.argsort(outs, kind="stable")
    ends = np.searchsorted(outs[order], mondays, side="right").tolist()
    keys = jobs[order].tolist()
    return tuple(
        WeekRow(date.fromordinal(monday), count, end - begun, tuple(keys[begun:end]))
        for monday, count, begun, end in zip(
            mondays.tolist(), counts.tolist(), (0, *ends), ends, strict=False
        )
    )


def _stay(stayed: Whole, waits: Whole) -> Stay:
    """Of microseconds that each job stayed and waited."""
    days, waited_days = stayed / 1e6 / A_DAY, waits / 1e6 / A_DAY
    return Stay(
        len(days),
        at_share(days, 0.5),
        at_share(days, 0.9),
        at_share(waited_days, 0.5),
        at_share(waited_days, 0.9),
    )


def at_share(values: Durations, share: float) -> float | None:
    """The least value that ``share`` of all do not exceed; None of none."""
    import numpy as np

    ordered = np.sort(np.asarray(values, dtype=np.float64))
    return float(ordered[max(0, math.ceil(share * len(ordered)) - 1)]) if len(ordered) else None


def _promises(turns: Turns, visits: Visits, done: Whole) -> Promises:
    import numpy as np

    promised = turns.promised[done]
    ready = np.where(turns.ready[done] == NONE, visits.left[done], turns.ready[done])
    had = promised != NONE
    broken = had & (ready > promised)
    count = int(broken.sum())
    return Promises(
        int(had.sum()) - count, count, len(done) - int(had.sum()), tuple(visits.job[done[broken]].tolist())
    )


def _ages(ages: Whole, jobs: Whole) -> tuple[AgeRow, ...]:
    """Of the days that these open jobs have been here."""
    rows = []
    for least, most in AGES:
        own = jobs[(ages >= least) & ((ages <= most) if most is not None else True)]
        rows.append(AgeRow(least, most, len(own), tuple(own.tolist())))
    return tuple(rows)


def _said(question: Question, promise: PromiseHelp) -> tuple[Sentence, ...]:
    """What the filters act on, what money means, and what may be promised."""
    said = [
        Sentence(
            "The period bounds the day of each: taken in, handed back, worked, invoiced. Work in hand is today's."
        ),
        Sentence("Turnover is what invoices ask for less credit notes, without VAT."),
    ]
    if question.modified is not None:
        said.append(
            Sentence(
                "Whether a modification stays inside is known when a player is handed back: that filter acts on jobs "
                "handed back only."
            )
        )
    return (*said, promise.sentence)


def _headline(came: int, left: int) -> Sentence:
    return Sentence("{came} jobs came in, {left} were handed back", {"came": came, "left": left})
