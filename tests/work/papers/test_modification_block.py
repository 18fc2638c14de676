"""How a modification that stays inside is told on paper: what, why, agreed, the way back, its numbers."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest

from app.book.bench.job_facts import facts_of
from app.book.bench.job_rows import JobRows
from app.book.tables import Job
from app.papers.modification import clause_runs
from app.papers.modification_facts import ModificationFacts
from app.trade.bench.kinds import FaultGroup
from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import CauseFound, Moment
from app.trade.sentence import Sentence
from app.work.bench.modifications import ModificationEntry, record_modification
from app.work.papers.modification_block import modification_blocks
from tests.papers.story import ENGLISH

PARALLEL = ModificationEntry(
    kind=Kind.PARALLEL,
    circuit=Circuit.RADIAL_COIL,
    where="R314",
    law=Law.CURRENT,
    maker_value=Decimal("6.8"),
    new_value=Decimal(22),
    maker_tolerance=Decimal(5),
    new_tolerance=Decimal(5),
    why="It seeks to the last track with it.",
)


def blocks(bench: Any) -> tuple[ModificationFacts, ...]:
    with bench.book.ask() as session:
        job = session.get_one(Job, bench.job)
        rows = JobRows(session, job)
        return modification_blocks(rows, facts_of(session, job, bench.book.today(), rows))


def told(bench: Any, entry: ModificationEntry) -> ModificationFacts:
    record_modification(bench.book, bench.tobbe, bench.job, entry)
    return blocks(bench)[-1]


def test_a_resistor_laid_across_tells_current_heat_and_loop_gain(bench: Any) -> None:
    block = told(bench, PARALLEL)
    assert [line.name for line in block.worked_out] == [
        Sentence("Added across {where}", {"where": "R314"}),
        Sentence("Coil current"),
        Sentence("Heat in the coil"),
        Sentence("Loop gain"),
    ]
    # by hand: 6.8 * 22 / 28.8 = 5.194 ohm; 6.8 / 5.194 = 1.309; squared 1.714
    assert block.worked_out[1].now == Sentence("× {k}", {"k": Decimal("1.309")})
    assert block.worked_out[2].now == Sentence("× {k}", {"k": Decimal("1.714")})


def test_a_resistor_in_series_that_sets_a_gain_tells_the_gain(bench: Any) -> None:
    entry = replace(PARALLEL, kind=Kind.SERIES, circuit=Circuit.SERVO_GAIN, law=Law.GAIN)
    block = told(bench, entry)
    assert [line.name for line in block.worked_out] == [
        Sentence("Added in series at {where}", {"where": "R314"}),
        Sentence("Gain"),
        Sentence("Loop gain"),
    ]
    # by hand: (6.8 + 22) / 6.8 = 4.235
    assert block.worked_out[1].now == Sentence("× {k}", {"k": Decimal("4.235")})
    assert block.measured == ()


def leads(block: ModificationFacts) -> list[Any]:
    return [clause.lead for clause in block.paragraphs]


@pytest.mark.parametrize("typed", ["it seeks to the end with it", "it seeks to the end with it."])
def test_why_ends_as_a_sentence_before_the_next_one_begins(bench: Any, typed: str) -> None:
    block = told(bench, replace(PARALLEL, why=typed))
    why = next(clause for clause in block.paragraphs if clause.lead == Sentence("Why."))
    said = "".join(run.text for run in clause_runs(why, ENGLISH))
    assert said == "Why. it seeks to the end with it. Cause not established."


def test_why_is_told_only_where_somebody_said_it(bench: Any) -> None:
    assert Sentence("Why.") in leads(told(bench, PARALLEL))
    assert Sentence("Why.") not in leads(told(bench, replace(PARALLEL, where="R315", why="")))


@pytest.mark.parametrize(
    ("cause", "end"),
    [(None, Sentence("Cause not established.")), (CauseFound.WORN, "")],
)
def test_a_cure_by_a_modification_establishes_no_cause(
    bench: Any, cause: CauseFound | None, end: Any
) -> None:
    with bench.book.change(bench.tobbe, Sentence("decided")) as change:
        job = change.get(Job, bench.job)
        job.fault_group, job.cause = FaultGroup.RADIAL, cause
    (why,) = [clause for clause in told(bench, PARALLEL).paragraphs if clause.lead == Sentence("Why.")]
    assert why.strong_end == end


def test_what_was_measured_stands_with_its_limit_and_uncertainty(bench: Any) -> None:
    bench.read("driver_temp", "48", Moment.FINAL)
    bench.read("dropout_passed", "0.75", Moment.FINAL)
    temperature, dropout = told(bench, PARALLEL).measured
    assert temperature.limit.key == "≤ {high}"
    assert dropout.limit.key == "≥ {low}"
    assert dropout.now.value == Decimal("0.75")
    assert temperature.plus_minus is not None
    assert len(temperature.plus_minus.as_tuple().digits) <= 2


def test_only_what_the_change_asks_for_is_told_and_how_long_it_had_run(bench: Any) -> None:
    bench.read("hf_eye", "1.08", Moment.FINAL)
    bench.read("driver_temp", "48", Moment.FINAL, warm_minutes=30)
    (temperature,) = told(bench, PARALLEL).measured
    assert temperature.name.key == "{name}, {minutes} min warm"
    assert temperature.name.values["minutes"] == "30"


def test_every_place_that_was_measured_is_told_by_its_newest_reading(bench: Any) -> None:
    bench.read("driver_temp", "58", Moment.FINAL, detail="radial driver", warm_minutes=30)
    bench.read("driver_temp", "44", Moment.FINAL, detail="focus driver", warm_minutes=30)
    bench.later(minutes=5)
    bench.read("driver_temp", "61", Moment.FINAL, detail="radial driver", warm_minutes=30)
    measured = told(bench, PARALLEL).measured
    assert [(ENGLISH(line.name), line.now.value) for line in measured] == [
        ("driver temperature, radial driver, 30 min warm", 61),
        ("driver temperature, focus driver, 30 min warm", 44),
    ]


def test_a_limit_on_both_sides_is_told_whole(bench: Any) -> None:
    bench.read("radial_coil_r", "14.0", Moment.FINAL)
    (coil,) = told(bench, PARALLEL).measured
    assert ENGLISH(coil.limit).replace("\u00a0", " ") == "5 to 40 Ω"


@pytest.mark.parametrize("u", [Decimal(0), Decimal("0.0437")])
def test_a_figure_without_limit_or_uncertainty_is_told_without(bench: Any, u: Decimal) -> None:
    bench.read("driver_temp", "48", Moment.FINAL)
    record_modification(bench.book, bench.tobbe, bench.job, PARALLEL)
    with bench.book.ask() as session:
        job = session.get_one(Job, bench.job)
        rows = JobRows(session, job)
        facts = facts_of(session, job, bench.book.today(), rows)
        bare = tuple(replace(reading, u=u, low=None, high=None) for reading in facts.readings)
        (block,) = modification_blocks(rows, replace(facts, readings=bare))
    assert block.measured[0].limit == ""
    assert block.measured[0].plus_minus == (Decimal("0.044") if u else None)
