"""The shop itself: jobs in and out by week, how long they stay, promises kept, work in hand, hours, turnover."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta, tzinfo
from decimal import Decimal

from sqlalchemy import Text, select, true, type_coerce

from app.book.door import Book
from app.book.history_rows import HistoryRow
from app.book.tables import CreditNote, Invoice, Job, Labour, Staff
from app.trade.bench.stages import Stage, Waiting
from app.trade.calendar.period import month_of
from app.trade.calendar.promise import local_day
from app.trade.money import MICRO, Money
from app.trade.sentence import Sentence
from app.trade.settings.prices import CURRENCY
from app.trade.statistics.promise import PromiseHelp, Turn, promise_help
from app.work.office.settings import shop_settings
from app.work.statistics.answer import Answer, Why, nothing_found, set_aside
from app.work.statistics.ground import ground_of
from app.work.statistics.passing import passing
from app.work.statistics.question import Question
from app.work.statistics.steps import Step, Steps

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


@dataclass(frozen=True, slots=True)
class HoursRow:
    """The working time of one person in the period."""

    name: str
    hours: Decimal
    jobs: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class MonthRow:
    """Invoices less credit notes of one month, without VAT."""

    first: date
    net: Money


@dataclass(frozen=True, slots=True, kw_only=True)
class Shop(Answer):
    """The weeks in order, and the rest of the page."""

    rows: tuple[WeekRow, ...]
    stay: Stay
    promises: Promises
    in_hand: tuple[AgeRow, ...]
    technicians: tuple[HoursRow, ...]
    turnover: tuple[MonthRow, ...]
    promise: PromiseHelp


@dataclass(frozen=True, slots=True)
class _Job:
    id: int
    taken_in: datetime
    ready: datetime | None
    handed_back: datetime | None
    promised: date | None
    stage: Stage


def the_shop(book: Book, question: Question, step: Step | None = None) -> Shop:
    """How the shop goes in the period asked for. Filters act on jobs in and out, work in hand, hours and turnover."""
    ground, settings, zone, today = (
        ground_of(book, question, Steps(step, 4)),
        shop_settings(book),
        book.zone,
        book.today(),
    )
    inside = {one.job_id for one in ground.each}
    first, last = question.since or date.min, question.until or today
    with book.ask() as session:
        only = passing(book, session, question)
        jobs = [
            _Job(*row)
            for row in session.execute(
                select(Job.id, Job.taken_in_at, Job.ready_at, Job.handed_back_at, Job.promised_on, Job.stage)
            )
        ]
        waited = _waited(
            session.execute(
                select(HistoryRow.row_id, HistoryRow.at, HistoryRow.fields)
                .where(
                    HistoryRow.row_table == Job.__tablename__,
                    type_coerce(HistoryRow.fields, Text).contains('"waiting"'),
                )
                .order_by(HistoryRow.seq)
            ).all()
        )
        hours = session.execute(
            select(Staff.name, Labour.job_id, Labour.hours, Labour.at)
            .join(Staff, Staff.id == Labour.by)
            .where(
                Labour.struck_at.is_(None),
                true() if question.technician is None else Labour.by == question.technician,
            )
        ).all()
        money = [
            *session.execute(select(Invoice.issued_on, Invoice.net, Invoice.job_id)),
            *(
                (day, -net, job)
                for day, net, job in session.execute(
                    select(CreditNote.issued_on, CreditNote.net, CreditNote.job_id)
                )
            ),
        ]
    anything = bool(jobs)
    if only is not None:
        jobs = [job for job in jobs if job.id in only]
        hours = [row for row in hours if row[1] in only]
        money = [row for row in money if row[2] in only]
    done = [job for job in jobs if job.id in inside and job.handed_back is not None]
    came = [day for job in jobs for day in (local_day(job.taken_in, zone),) if first <= day <= last]
    weeks = _weeks(came, [(local_day(job.handed_back, zone), job.id) for job in done if job.handed_back])
    currency = settings[CURRENCY]
    turns = [
        Turn(local_day(job.taken_in, zone), local_day(job.ready, zone), True) for job in done if job.ready
    ]
    promise = promise_help(turns, settings.calendar)
    return Shop(
        question=question,
        headline=_headline(came, done) if came or done else nothing_found(anything),
        said=(*_said(question, promise), *set_aside(ground.wrong)),
        why=Why(
            n=len(done),
            counted=Sentence("jobs handed back"),
            events=len(came),
            events_are=Sentence("taken in"),
            method=(
                Sentence(
                    "Median and ninth tenth are days of jobs as they stand in the book, without smoothing."
                ),
                Sentence("Waiting is counted from the history of each job."),
            ),
            source=(),
        ),
        rows=weeks,
        stay=_stay(done, waited),
        promises=_promises(done, zone),
        in_hand=_ages([job for job in jobs if job.stage is not Stage.HANDED_BACK], zone, today),
        technicians=_technicians([row for row in hours if first <= local_day(row[3], zone) <= last]),
        turnover=_turnover([(day, net) for day, net, _ in money if first <= day <= last], currency),
        promise=promise,
    )


def _waited(rows: Iterable[tuple[int, datetime, dict[str, list[str | None]]]]) -> dict[int, float]:
    """Days that each job waited, by its history."""
    days: defaultdict[int, float] = defaultdict(float)
    since: dict[int, datetime] = {}
    for job, at, fields in rows:
        if job in since:
            days[job] += (at - since.pop(job)).total_seconds() / A_DAY
        if fields["waiting"][1] != Waiting.NOTHING.value:
            since[job] = at
    return days


def _weeks(came: Sequence[date], left: Sequence[tuple[date, int]]) -> tuple[WeekRow, ...]:
    ins: defaultdict[date, int] = defaultdict(int)
    outs: defaultdict[date, list[int]] = defaultdict(list)
    for day in came:
        ins[_monday(day)] += 1
    for day, job in left:
        outs[_monday(day)].append(job)
    days = {*ins, *outs}
    if not days:
        return ()
    count = (max(days) - min(days)).days // 7 + 1
    mondays = [min(days) + timedelta(7 * week) for week in range(count)]
    return tuple(WeekRow(day, ins[day], len(outs[day]), tuple(outs[day])) for day in mondays)


def _monday(day: date) -> date:
    return day - timedelta(day.weekday())


def _stay(done: Sequence[_Job], waited: dict[int, float]) -> Stay:
    days = [(job.handed_back - job.taken_in).total_seconds() / A_DAY for job in done if job.handed_back]
    waits = [waited.get(job.id, 0.0) for job in done]
    return Stay(
        len(days), at_share(days, 0.5), at_share(days, 0.9), at_share(waits, 0.5), at_share(waits, 0.9)
    )


def at_share(values: Sequence[float], share: float) -> float | None:
    """The least value that ``share`` of all do not exceed; None of none."""
    ordered = sorted(values)
    return ordered[max(0, math.ceil(share * len(ordered)) - 1)] if ordered else None


def _promises(done: Sequence[_Job], zone: tzinfo) -> Promises:
    kept, without, broken = 0, 0, []
    for job in done:
        ready = job.ready or job.handed_back
        assert ready is not None
        if job.promised is None:
            without += 1
        elif local_day(ready, zone) <= job.promised:
            kept += 1
        else:
            broken.append(job.id)
    return Promises(kept, len(broken), without, tuple(broken))


def _ages(open_jobs: Sequence[_Job], zone: tzinfo, today: date) -> tuple[AgeRow, ...]:
    aged = [((today - local_day(job.taken_in, zone)).days, job.id) for job in open_jobs]
    rows = []
    for least, most in AGES:
        jobs = tuple(job for age, job in aged if age >= least and (most is None or age <= most))
        rows.append(AgeRow(least, most, len(jobs), jobs))
    return tuple(rows)


def _technicians(hours: Sequence[tuple[str, int, int, datetime]]) -> tuple[HoursRow, ...]:
    total: defaultdict[str, Decimal] = defaultdict(Decimal)
    jobs: defaultdict[str, set[int]] = defaultdict(set)
    for name, job, micro, _ in hours:
        total[name] += Decimal(micro) / MICRO
        jobs[name].add(job)
    return tuple(HoursRow(name, total[name], tuple(sorted(jobs[name]))) for name in sorted(total))


def _turnover(money: Sequence[tuple[date, int]], currency: str) -> tuple[MonthRow, ...]:
    months: defaultdict[date, int] = defaultdict(int)
    for day, net in money:
        months[month_of(day).first] += net
    return tuple(MonthRow(first, Money(months[first], currency)) for first in sorted(months))


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


def _headline(came: Sequence[date], done: Sequence[_Job]) -> Sentence:
    return Sentence("{came} jobs came in, {left} were handed back", {"came": len(came), "left": len(done)})
