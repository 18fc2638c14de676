"""A few fields of the facts are what they are among all of them; and what a change can alter is not missed."""

from __future__ import annotations

from typing import Any

import pytest
from sqlalchemy import select

from app.book.bench.flag_reach import OF_JOBS, OF_ONE_JOB, SILENT, altered_fields
from app.book.bench.job_facts import facts_of
from app.book.bench.some_facts import FewRows, some_facts
from app.book.tables import Job, metadata
from app.trade.bench.facts import JobFacts
from app.trade.bench.kinds import TransitLock
from app.trade.bench.rule_reach import REACH
from app.trade.bench.stages import Moment
from tests.work.bench.conftest import bench, bench_template
from tests.work.conftest import cheap_pins, shop, shop_template

__all__ = ["bench", "bench_template", "cheap_pins", "shop", "shop_template"]
LOOKED_AT = frozenset[str]().union(*(reach.looks_at for reach in REACH.values()))


def differing(all_of_them: JobFacts, few: JobFacts) -> set[str]:
    """Fields that rules look at and that are not the same in both."""
    fields = set(LOOKED_AT)
    if all_of_them.transit_lock is TransitLock.NONE:
        fields.discard("powered")  # asked for the lock alone
    if all_of_them.agreed is None:
        fields.discard("work_so_far")  # nothing to compare it with
    return {field for field in fields if getattr(few, field) != getattr(all_of_them, field)}


def test_a_few_facts_are_the_same_as_among_all_of_them(bench: Any) -> None:
    bench.read("laser_current", "58.0", Moment.ARRIVAL)
    bench.read("seek_time", "4.8", Moment.FINAL)
    with bench.book.ask() as session:
        job = session.scalars(select(Job).where(Job.id == bench.job)).one()
        all_of_them = facts_of(session, job, bench.book.today(), gates=False)
        few = some_facts(FewRows(session, job), bench.book.today(), LOOKED_AT)
    assert differing(all_of_them, few) == set()
    assert all_of_them.readings


def test_tables_and_columns_that_reach_is_told_of_are_there() -> None:
    tables = metadata.tables
    assert SILENT | OF_ONE_JOB.keys() <= tables.keys()
    assert OF_JOBS.keys() <= set(tables["jobs"].c.keys())
    filled = [*OF_ONE_JOB.values(), *OF_JOBS.values()]
    assert all(fields is None or fields <= LOOKED_AT for fields in filled)


@pytest.mark.parametrize(
    ("touched", "altered"),
    [
        ({}, set()),
        ({"messages": {"text"}}, set()),
        ({"start_up_results": {"rung"}, "staff": {"name"}}, {"powered"}),
        ({"jobs": {"stage", "outcome"}, "things_left": {"returned_at"}}, {"stage", "discs"}),
        ({"jobs": {"comeback"}}, None),
        ({"jobs": {"number", "unit_id", "stage"}}, None),
        ({"readings": {"value"}}, None),
        ({"labour": {"hours"}, "modifications": {"where"}}, None),
    ],
)
def test_what_a_change_can_alter(touched: dict[str, set[str]], altered: set[str] | None) -> None:
    assert altered_fields(touched) == altered
