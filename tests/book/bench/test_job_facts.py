"""What the rules are told of a job: only of the transport that is inside, and days as the shop counts them."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from sqlalchemy import select

from app.book.bench.job_facts import facts_of
from app.book.tables import Job
from app.trade.bench.kinds import FaultGroup
from app.trade.bench.stages import CauseFound, Moment, Outcome
from app.trade.counter.fault_words import FaultWord, ReportedFault
from app.trade.counter.taking_in import Intake
from app.work.bench.findings import Findings, findings_of, record_findings
from app.work.bench.transports import note_transport, take_out
from app.work.counter.taking_in import receive_unit
from tests.work.bench.conftest import bench, bench_template
from tests.work.conftest import cheap_pins, shop, shop_template

__all__ = ["bench", "bench_template", "cheap_pins", "shop", "shop_template"]


def facts(bench: Any) -> Any:
    with bench.book.ask() as session:
        job = session.scalars(select(Job).where(Job.id == bench.job)).one()
        return facts_of(session, job, bench.book.today())


def swap(bench: Any, label: str) -> None:
    take_out(bench.book, bench.tobbe, bench.job, shelf="C 4")
    note_transport(bench.book, bench.tobbe, bench.job, bench.type, "55 999", Decimal(label))


def test_a_worn_laser_that_was_taken_out_says_nothing_of_the_next_one(bench: Any) -> None:
    bench.read("laser_current", "58.0")  # 120.8 % of 48.0 mA
    bench.read("seek_time", "4.8")
    assert "laser_up_big" in bench.rules()
    swap(bench, "0.050")
    assert not {"laser_up", "laser_up_big"} & set(bench.rules())
    assert [r.quantity for r in facts(bench).readings] == ["seek_time"]


def test_what_was_outside_is_still_to_be_read_again_after_the_swap(bench: Any) -> None:
    bench.read("laser_current", "62.0", Moment.ARRIVAL)
    swap(bench, "0.050")
    assert [quantity for quantity, _ in facts(bench).finals_wanted] == ["laser_current"]


def test_a_comeback_in_the_morning_counts_the_days_of_the_calendar(bench: Any) -> None:
    version = findings_of(bench.book, bench.job).version
    found = Findings(fault_group=FaultGroup.RADIAL, cause=CauseFound.GREASE, outcome=Outcome.MENDED)
    record_findings(bench.book, bench.tobbe, bench.job, found, version=version)
    bench.read("hf_eye", "1.08")
    bench.make_safe()
    bench.later(hours=6)
    bench.close()  # in the afternoon
    bench.later(days=47, hours=-7)  # in the morning
    intake = Intake(unit_id=bench.unit, customer_id=bench.customer, faults=(ReportedFault(FaultWord.SKIPS),))
    bench.job = receive_unit(bench.book, bench.shop.mirr, intake).value.job_id
    assert facts(bench).comeback.days == 47
