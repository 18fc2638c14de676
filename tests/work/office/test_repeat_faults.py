"""Repeat faults over a small book whose every job is written out here."""

from __future__ import annotations

from contextlib import contextmanager, nullcontext
from datetime import UTC, date, datetime, timedelta

import pytest

from app.book import tables as t
from app.trade.bench.kinds import Arrangement, ComebackStanding, FaultGroup, TransitLock
from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import MainsClass, Outcome, Stage, Waiting
from app.trade.sentence import Sentence
from app.trade.statistics.comebacks import By, Standing
from app.work.office.repairs import all_repairs
from app.work.office.repeat_faults import JobBehind, Named, Question, jobs_behind, named_jobs, repeat_faults

RADIAL, LIGHT, SOUND = FaultGroup.RADIAL, FaultGroup.LIGHT, FaultGroup.SOUND
DAY = timedelta(days=1)
NEEDED = {"kind": Kind.OTHER, "circuit": Circuit.OTHER, "law": Law.NEITHER, "reference": "R1"}


class Book:
    """Writes jobs by their days, counted back from the shop's today (12 March 2026)."""

    def __init__(self, shop):
        self.shop, self.number = shop, 1000
        self._open = None
        with self._change() as change:
            customer = change.add(t.Customer(name="Benedikt Arnsvik", created_at=change.now))
            self.customer = customer.id
            self.types = {
                name: change.add(t.TransportType(name=name, arrangement=arrangement)).id
                for name, arrangement in (
                    ("Velk A1", Arrangement.SWING_ARM),
                    ("Grellin S1", Arrangement.SLED),
                )
            }

    def _change(self):
        if self._open is not None:
            return nullcontext(self._open)
        return self.shop.book.change(self.shop.ine, Sentence("wrote the past"))

    @contextmanager
    def at_once(self):
        """What is written meanwhile is one change."""
        with self._change() as self._open:
            yield
        self._open = None

    def at(self, days_ago):
        return datetime(2026, 3, 12, 9, 0, tzinfo=UTC) - days_ago * DAY

    def unit(self, *, transport="Velk A1", fitted=4000, removed=None):
        with self._change() as change:
            unit = change.add(
                t.Unit(
                    maker="Quellmar",
                    model="Larch 2",
                    serial="1",
                    serial_key="1",
                    customer_id=self.customer,
                    mains_class=MainsClass.BATTERY,
                    created_at=change.now,
                )
            )
            if transport:
                mechanism = change.add(t.Transport(type_id=self.types[transport], created_at=change.now))
                change.add(
                    t.Fitting(
                        transport_id=mechanism.id,
                        unit_id=unit.id,
                        fitted_at=self.at(fitted),
                        removed_at=None if removed is None else self.at(removed),
                    )
                )
            return unit.id

    def job(self, unit, came, left=None, group=RADIAL, outcome=Outcome.MENDED, words=(), **more):
        self.number += 1
        with self._change() as change:
            job = change.add(
                t.Job(
                    number=self.number,
                    unit_id=unit,
                    customer_id=self.customer,
                    stage=Stage.TAKEN_IN if left is None else Stage.HANDED_BACK,
                    waiting=Waiting.NOTHING,
                    outcome=None if left is None else outcome,
                    taken_in_at=self.at(came),
                    taken_in_by=self.shop.ine,
                    handed_back_at=None if left is None else self.at(left),
                    fault="Hangs.",
                    fault_group=group,
                    transit_lock=TransitLock.NONE,
                    **more,
                )
            )
            for word in words:
                change.add(t.ReportedFault(job_id=job.id, word=word, how="always"))
            return job.id

    def modification(self, unit, job, made, reversed_at=None, struck=False):
        with self._change() as change:
            change.add(
                t.Modification(
                    unit_id=unit,
                    job_id=job,
                    **NEEDED,
                    at=self.at(made),
                    by=self.shop.ine,
                    reversed_at=None if reversed_at is None else self.at(reversed_at),
                    struck_at=self.at(0) if struck else None,
                )
            )


@pytest.fixture
def past(shop):
    return Book(shop)


def rate(past, label="Velk A1", **question):
    answer = repeat_faults(past.shop.book, Question(**question))
    return next(rate.counted for rate in answer.rates if rate.label == label)


def test_an_empty_book_says_that_it_is_too_little(shop):
    answer = repeat_faults(shop.book, Question())
    assert (answer.rates, answer.first, answer.last) == ((), None, None)
    assert answer.headline.key.startswith("Too few repairs")


def test_the_same_group_within_the_window_came_back(past):
    unit = past.unit()
    past.job(unit, 700, 690)
    past.job(unit, 600, 590)
    counted = rate(past)
    assert (counted.handed_back, counted.could, counted.came_back) == (2, 2, 1)
    assert rate(past, window=30).came_back == 0


def test_another_group_is_no_comeback_unless_any_fault_is_asked_for(past):
    unit = past.unit()
    past.job(unit, 700, 690)
    past.job(unit, 600, 590, group=SOUND)
    assert rate(past).came_back == 0
    assert rate(past, same_group=False).came_back == 1


def test_a_visit_for_something_else_in_between_hides_no_comeback(past):
    unit = past.unit()
    first = past.job(unit, 700, 690)
    past.job(unit, 660, 655, group=SOUND)
    back = past.job(unit, 600, 590)
    behind = jobs_behind(past.shop.book, Question(), "Velk A1", (Standing.CAME_BACK,))
    assert [(job.id, job.next_job_id) for job in behind] == [(first, back)]


def test_an_open_visit_counts_by_what_its_fault_may_turn_out_to_be(past):
    unit = past.unit()
    past.job(unit, 300, 290)
    past.job(unit, 200, group=None, words=("skips",))
    assert rate(past).came_back == 1


def test_an_open_visit_without_a_word_is_no_comeback_yet(past):
    unit = past.unit()
    past.job(unit, 300, 290)
    past.job(unit, 200, group=None)
    assert rate(past).came_back == 0


def test_what_the_shop_denied_counts_only_once_its_own_group_says_so(past):
    unit = past.unit()
    first = past.job(unit, 300, 290)
    denied = {"comeback_of_id": first, "comeback": ComebackStanding.DENIED}
    past.job(unit, 200, group=None, words=("skips",), **denied)
    assert rate(past).came_back == 0
    other = past.unit()
    first = past.job(other, 300, 290)
    denied = {"comeback_of_id": first, "comeback": ComebackStanding.DENIED}
    past.job(other, 200, 190, **denied)
    assert rate(past).came_back == 1


def test_what_was_not_mended_and_what_is_too_young_is_told_and_does_not_count(past):
    past.job(past.unit(), 700, 690, outcome=Outcome.DECLINED)
    past.job(past.unit(), 100, 90)
    past.job(past.unit(), 700, 690)
    counted = rate(past)
    assert (counted.handed_back, counted.not_mended, counted.too_young, counted.could) == (3, 1, 1, 1)


def test_a_repair_whose_next_visit_begins_before_it_ended_is_set_aside(past):
    unit = past.unit()
    past.job(unit, 700, 590)
    past.job(unit, 600, 580)
    assert rate(past).set_aside == 1


def test_the_transport_is_the_one_that_was_inside_when_the_player_went(past):
    past.job(past.unit(removed=680), 700, 690)
    past.job(past.unit(removed=695), 700, 690)
    past.job(past.unit(fitted=600), 700, 690)
    past.job(past.unit(transport=""), 700, 690)
    labels = {
        rate.label: rate.counted.handed_back for rate in repeat_faults(past.shop.book, Question()).rates
    }
    assert labels == {"Velk A1": 1, "not known": 3}


def test_only_the_group_and_the_days_asked_for(past):
    past.job(past.unit(), 700, 690)
    past.job(past.unit(), 500, 490, group=LIGHT)
    day = date(2026, 3, 12)
    assert rate(past, group=LIGHT).handed_back == 1
    assert rate(past, since=day - 600 * DAY).handed_back == 1
    assert rate(past, until=day - 600 * DAY).handed_back == 1
    answer = repeat_faults(past.shop.book, Question(since=day - 600 * DAY))
    assert (answer.first, answer.last) == (day - 690 * DAY, day - 490 * DAY)


def test_by_fault_group_and_by_modification(past):
    modified, plain = past.unit(), past.unit()
    job = past.job(modified, 700, 690)
    past.modification(modified, job, 695)
    past.job(plain, 700, 690, group=None)
    assert rate(past, "radial", by=By.FAULT_GROUP).handed_back == 1
    assert rate(past, "not known", by=By.FAULT_GROUP).handed_back == 1
    assert rate(past, "with", by=By.MODIFICATION).handed_back == 1
    assert rate(past, "without", by=By.MODIFICATION).handed_back == 1


@pytest.mark.parametrize(
    "more", [{"made": 600}, {"made": 699, "reversed_at": 695}, {"made": 699, "struck": True}]
)
def test_a_modification_made_later_reversed_or_struck_out_was_not_inside(past, more):
    unit = past.unit()
    past.modification(unit, past.job(unit, 700, 690), **more)
    assert rate(past, "without", by=By.MODIFICATION).handed_back == 1


def test_a_modification_goes_with_its_transport_into_another_player(past):
    first, second = past.unit(removed=650), past.unit(transport="")
    job = past.job(first, 700, 690)
    with past.shop.book.change(past.shop.ine, Sentence("moved")) as change:
        change.add(t.Fitting(transport_id=1, unit_id=second, fitted_at=past.at(640)))
        change.add(t.Modification(transport_id=1, job_id=job, **NEEDED, at=past.at(695), by=past.shop.ine))
    past.job(second, 600, 590)
    assert rate(past, "with", by=By.MODIFICATION).handed_back == 2


def test_each_row_is_parted_again_by_what_it_is_not_grouped_by(past):
    past.job(past.unit(), 700, 690)
    past.job(past.unit(), 700, 690, group=LIGHT)
    for question, by, labels in (
        (Question(), By.FAULT_GROUP, {"radial", "light"}),
        (Question(group=LIGHT), By.MODIFICATION, {"without"}),
    ):
        answer = repeat_faults(past.shop.book, question)
        assert answer.split_by is by
        assert {rate.label for rate in answer.splits["Velk A1"]} == labels
    answer = repeat_faults(past.shop.book, Question(by=By.FAULT_GROUP))
    assert (answer.split_by, answer.splits["light"][0].label) == (By.TRANSPORT_TYPE, "Velk A1")
    assert answer.arrangements["Grellin S1"] is Arrangement.SLED


def test_the_jobs_behind_a_number_those_that_came_back_first(past):
    unit = past.unit()
    first = past.job(unit, 700, 690)
    second = past.job(unit, 600, 590)
    past.job(past.unit(transport="Grellin S1"), 700, 690)
    behind = jobs_behind(past.shop.book, Question(), "Velk A1")
    day = date(2026, 3, 12)
    assert behind == (
        JobBehind(
            first, 1001, day - 690 * DAY, RADIAL, "Velk A1", Standing.CAME_BACK, day - 600 * DAY, second, 1002
        ),
        JobBehind(second, 1002, day - 590 * DAY, RADIAL, "Velk A1", Standing.HELD, None, None, None),
    )
    assert named_jobs(past.shop.book, [first, second]) == dict.fromkeys(
        (first, second), Named("Quellmar Larch 2", "Benedikt Arnsvik")
    )


def test_days_are_the_shops_own(past):
    """23:30 UTC is the next day in Berlin, where the shop stands."""
    unit = past.unit()
    job = past.job(unit, 700, 690)
    with past.shop.book.change(past.shop.ine, Sentence("late")) as change:
        row = change.get(t.Job, job)
        row.handed_back_at = row.handed_back_at.replace(hour=23, minute=30)
    (seen,) = all_repairs(past.shop.book).each
    assert seen.handed_back == date(2026, 3, 12) - 689 * DAY
