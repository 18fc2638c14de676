"""Which jobs pass the filters, open ones too."""

from __future__ import annotations

from app.book import tables as t
from app.trade.bench.kinds import Arrangement, FaultGroup
from app.work.statistics.passing import passing
from app.work.statistics.question import Question
from app.work.statistics.steps import Steps
from app.work.statistics.visits import visits_of


def pass_through(past, **asked):
    book = past.shop.book
    with book.ask() as session:
        visits = visits_of(session, book.zone)
        marks = passing(session, Question(**asked), visits, Steps(None, 1))
    return None if marks is None else set(visits.job[marks].tolist())


def test_without_a_filter_every_job_passes(past):
    assert pass_through(past) is None
    assert pass_through(past, modified=True) is None


def test_transport_and_fault_of_closed_and_open_jobs(past, add):
    arm, sled = past.unit(), past.unit(transport="Grellin S1")
    done, here = past.job(arm, 30, 20), past.job(arm, 5, group=None)
    other = past.job(sled, 5, group=FaultGroup.SOUND)
    past.job(past.unit(transport=None), 5, group=FaultGroup.POWER)
    assert pass_through(past, transport_type="Velk A1") == {done, here}
    assert pass_through(past, arrangement=Arrangement.SLED) == {other}
    assert pass_through(past, arrangement=Arrangement.SLED, transport_type="Velk A1") == set()
    assert pass_through(past, group=FaultGroup.SOUND) == {other}
    assert pass_through(past, group=FaultGroup.SOUND, maker="Quellmar") == {other}
    assert pass_through(past, maker="Quellmar", model="Larch 3") == set()


def test_a_transport_that_went_elsewhere_counts_where_it_was_at_the_end(past):
    unit = past.unit(removed=10)
    before, after = past.job(unit, 30, 20), past.job(unit, 5)
    assert pass_through(past, transport_type="Velk A1") == {before}
    assert after not in pass_through(past, transport_type="Velk A1")


def test_who_worked_on_it(past, add):
    one, other = past.job(past.unit(), 5), past.job(past.unit(), 5)
    add(t.Labour(job_id=one, words="", hours=1, rate=0, vat_rate=0, at=past.at(1), by=past.shop.tobbe))
    assert pass_through(past, technician=past.shop.tobbe) == {one}
    assert other not in pass_through(past, technician=past.shop.tobbe, group=FaultGroup.RADIAL)
