"""The answers say what the same book says when its repairs are gone through one by one."""

from __future__ import annotations

from collections import Counter, defaultdict
from datetime import date, timedelta

from sqlalchemy import select

from app.book import tables as t
from app.trade.calendar.period import quarter_of
from app.trade.statistics.comebacks import UNKNOWN, By, Standing, stands
from app.trade.statistics.definition import Followed
from app.trade.statistics.survival import kaplan_meier
from app.work.statistics.comeback_rate import comeback_rates
from app.work.statistics.how_long import how_long
from app.work.statistics.keep_coming import keep_coming
from app.work.statistics.over_time import over_time
from app.work.statistics.question import Question
from app.work.statistics.shop import the_shop
from app.work.statistics.what_fails import FAULT_GROUP, what_fails
from tests.work.statistics.past_by_lot import a_past_by_lot
from tests.work.statistics.plain_repairs import all_repairs

ASKED = (
    Question(),
    Question(by=By.FAULT_GROUP, followed=Followed.TRANSPORT, window=90),
    Question(same_group=False, not_repaired=True, declined=True, since=date(2024, 6, 1)),
)


def repairs_of(book, question):
    """Each repair that the question is about, and where it stands."""
    today = book.today()
    with book.ask() as session:
        wrong = session.scalars(select(t.Job.id).where(t.Job.handed_back_at < t.Job.taken_in_at)).all()
    plain = all_repairs(
        book,
        same_group=question.same_group,
        followed=question.followed,
        since=question.since or date.min,
    )
    return [
        (
            one,
            stands(
                one.handed_back,
                one.outcome,
                one.group,
                today,
                one.next_in,
                one.next_groups,
                question.window,
                question.same_group,
                question.definition.counted,
            ),
        )
        for one in plain.each
        if one.job_id not in wrong
    ]


def label_of(one, question):
    if question.by is By.FAULT_GROUP:
        return UNKNOWN if one.group is None else one.group.value
    return one.transport_type or UNKNOWN


def test_every_answer_is_as_when_the_book_is_gone_through_job_by_job(past):
    book = a_past_by_lot(past, 3)
    for question in ASKED:
        repairs = repairs_of(book, question)
        rates_are_those_of(repairs, book, question)
        curves_are_those_of(repairs, book, question)
        later_visits_are_those_of(repairs, book, question)
        quarters_are_those_of(repairs, book, question)
        faults_are_those_of(repairs, book, question)
        weeks_are_those_of(repairs, book, question)


def rates_are_those_of(repairs, book, question):
    tally = defaultdict(Counter)
    jobs = defaultdict(list)
    said = Counter()
    for one, standing in repairs:
        label = label_of(one, question)
        tally[label][standing] += 1
        jobs[label, standing].append(one.job_id)
        if standing is Standing.CAME_BACK:
            said[label, one.confirmed] += 1
    rows = {row.label: row for row in comeback_rates(book, question).rows}
    assert set(rows) == set(tally)
    for label, row in rows.items():
        seen = tally[label]
        assert (row.came_back, row.could) == (
            seen[Standing.CAME_BACK],
            seen[Standing.CAME_BACK] + seen[Standing.HELD],
        )
        assert (row.handed_back, row.too_young, row.not_counted) == (
            seen.total(),
            seen[Standing.TOO_YOUNG],
            seen[Standing.NOT_MENDED],
        )
        assert (row.confirmed, row.undecided) == (said[label, True], said[label, False])
        assert row.jobs == (*jobs[label, Standing.CAME_BACK], *jobs[label, Standing.HELD])


def curves_are_those_of(repairs, book, question):
    watched = defaultdict(list)
    for one, _ in repairs:
        days = ((one.next_in or book.today()) - one.handed_back).days
        if one.outcome in question.definition.counted and days >= 0 and one.handed_back <= book.today():
            watched[label_of(one, question)].append((days, one.next_in is not None))
    rows = {row.label: row for row in how_long(book, question).rows}
    assert set(rows) == set(watched)
    for label, row in rows.items():
        assert row.curve == kaplan_meier(*zip(*watched[label], strict=True))


def later_visits_are_those_of(repairs, book, question):
    of_unit = question.followed is Followed.UNIT
    start = {}
    for one, _ in repairs:  # the latest first, so that the first one stays
        key = one.unit_id if of_unit else one.transport_id
        if key is not None and one.handed_back <= book.today():
            start[key] = one
    found = keep_coming(book, question)
    assert found.why.n == len(start)
    units = Counter(label_of(one, question) for one in start.values())
    assert {row.label: row.units for row in found.rows} == units
    if of_unit:
        with book.ask() as session:
            visits = session.execute(select(t.Job.id, t.Job.unit_id, t.Job.taken_in_at)).all()
        came = [
            (unit, job)
            for job, unit, at in visits
            if unit in start
            and job != start[unit].job_id
            and start[unit].handed_back <= at.astimezone(book.zone).date() <= book.today()
        ]
        assert found.why.events == len(came)
        most = Counter(unit for unit, _ in came)
        assert {one.id: one.visits - 1 for one in found.most} == dict(
            sorted(most.items(), key=lambda item: (-item[1], item[0]))[:10]
        )


def quarters_are_those_of(repairs, book, question):
    could, came = Counter(), Counter()
    for one, standing in repairs:
        if standing in (Standing.CAME_BACK, Standing.HELD):
            could[quarter_of(one.handed_back).first] += 1
            came[quarter_of(one.handed_back).first] += standing is Standing.CAME_BACK
    rows = over_time(book, question).rows
    assert {row.first: (row.could, row.came_back) for row in rows if row.could} == {
        first: (count, came[first]) for first, count in could.items()
    }


def faults_are_those_of(repairs, book, question):
    counts = Counter(
        (label_of(one, question), UNKNOWN if one.group is None else one.group.value) for one, _ in repairs
    )
    rows = [row for row in what_fails(book, question).rows if row.of == FAULT_GROUP]
    assert {(row.label, row.found.key): row.count for row in rows} == counts


def weeks_are_those_of(repairs, book, question):
    left = Counter(one.handed_back - timedelta(one.handed_back.weekday()) for one, _ in repairs)
    rows = the_shop(book, question).rows
    assert {row.first: row.handed_back for row in rows if row.handed_back} == left
