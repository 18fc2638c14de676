"""The drawing of a transport's life from its facts."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal
from typing import Any

import pytest

from app.screens import language
from app.screens.bench.life_facts import life_facts, short_words, told_of
from app.screens.bench.life_rows import change_rows
from app.trade.bench.kinds import Arrangement
from app.trade.bench.modifications import Circuit
from app.trade.bench.verdict import VerdictWord
from app.trade.sentence import Measure, Sentence
from app.trade.wording import plain
from app.work.bench.life_curves import life_curves
from app.work.bench.transport_life import (
    FittingSpan,
    LifeJob,
    LifeModification,
    LifeRenewal,
    TransportLife,
)
from tests.screens.bench.test_forecast_words import FIRST, RISE, TODAY, ZONE, curve

NOW = datetime(2026, 11, 24, 9, 0, tzinfo=UTC)
LIFE = TransportLife(
    1, 1, "Velk A1", Arrangement.SWING_ARM, "55 120", Measure(Decimal(48), "mA"), "", "",
    (
        FittingSpan(
            7, "Quellmar Larch 2", "0403 019", FIRST, FIRST + timedelta(days=1170),
            (LifeJob(1, 871, FIRST, FIRST, None, "hangs"),),
        ),
        FittingSpan(8, "Quellmar Larch 2", "0417 733", FIRST + timedelta(days=1309), None, (), "Velk A2"),
    ),
    curve(RISE).readings,
    (
        LifeModification(
            3, Sentence("R314 (radial coil drive): 5.6"), Sentence("Fit 6.8."), Circuit.RADIAL_COIL,
            FIRST + timedelta(days=580), 1, 871, FIRST + timedelta(days=900), True,
        ),
        LifeModification(
            4, Sentence("clamp: felt"), Sentence("Take it off."), Circuit.MECHANICS,
            FIRST + timedelta(days=1400), 1, 871, None, False, "Quellmar Larch 2",
        ),
    ),
    (LifeRenewal(5, "spindle motor", FIRST + timedelta(days=2000), 1, 871, Measure(Decimal(46), "mA")),),
)  # fmt: skip


@pytest.fixture(autouse=True)
def english() -> None:
    language.use(plain(ZONE))


def facts(**more: Any) -> Any:
    life = replace(LIFE, **more)
    return life_facts(life, life_curves(life, ZONE)[0], TODAY, ZONE)


def test_the_axis_runs_on_beyond_the_crossing_and_never_beyond_what_is_said() -> None:
    drawn = facts(renewed=())
    assert drawn.reaches is not None
    first, last, _ = drawn.reaches
    assert TODAY < first < last < drawn.end
    assert drawn.trend[0][0] == date(2019, 3, 4)
    assert drawn.trend[-1][0] == drawn.end <= date(2034, 8, 12)


def test_no_line_is_drawn_where_no_trend_is_shown() -> None:
    drawn = facts(readings=LIFE.readings[:3])
    assert (drawn.trend, drawn.reaches) == ((), None)
    assert drawn.end == TODAY
    assert drawn.sentence.startswith("laser current: Too few readings to say")


def test_a_crossing_that_is_past_has_no_bracket() -> None:
    life = replace(LIFE, renewed=())
    drawn = life_facts(life, life_curves(life, ZONE)[0], date(2029, 6, 1), ZONE)
    assert drawn.reaches is None
    assert drawn.trend != ()


def test_changes_tell_from_when_to_when_and_whose_they_are() -> None:
    told = [(c.words, c.part, c.end is None, c.told.replace("\u00a0", " ")) for c in facts().changes]
    assert told == [
        ("R314", False, False, "R314 (radial coil drive): 5.6, from 4 Oct 2020 to 20 Aug 2021"),
        ("clamp", False, True, "clamp: felt, from 2 Jan 2023, still inside; a change of Quellmar Larch 2"),
        ("spindle motor", True, True, "Renewed 24 Aug 2024: spindle motor"),
    ]
    rows = [[c.plain if c else "" for c in row.cells] for row in change_rows(LIFE)]
    assert rows[1][3] == "found, not ours in Quellmar Larch 2"
    assert rows[2][2].replace("\u00a0", " ") == "renewed: spindle motor new label 46 mA"


def test_a_mark_has_the_first_words_only() -> None:
    assert short_words("R314 (radial coil drive): 5.6 ohm") == "R314"
    assert short_words("felt") == "felt"


def test_a_limit_that_changed_is_drawn_with_its_steps_and_both_ends_are_drawn() -> None:
    readings = [replace(r, low=Decimal(40)) for r in LIFE.readings]
    readings[0] = replace(readings[0], high=Decimal(55))
    upper, lower = facts(readings=tuple(readings)).limits
    assert [value for _, value in upper.steps] == [55.0, 57.6]
    assert (lower.value, lower.upper, lower.steps) == (40.0, False, ())


def test_a_reading_is_told_with_its_verdict_its_limit_and_its_job() -> None:
    reading = replace(LIFE.readings[0], verdict=VerdictWord.WITHIN)
    assert told_of(reading).replace("\u00a0", " ") == (
        "47.6 ±0.3 mA, within, at most 57.6, 4 Mar 2019, job 1001"
    )
    drawn = facts(readings=(reading, *LIFE.readings[1:]))
    assert [point.verdict for point in drawn.readings[:2]] == ["within", ""]
    assert drawn.reference == (48.0, "label 48")
    assert facts(label=None).reference is None


def test_a_job_is_told_with_its_fault_and_outcome() -> None:
    from app.trade.bench.stages import Outcome

    job = LifeJob(1, 871, FIRST, FIRST, Outcome.MENDED, "hangs")
    (drawn,) = facts(spans=(replace(LIFE.spans[0], jobs=(job,)),)).jobs
    assert drawn.told.replace("\u00a0", " ") == "Job 871, taken in 4 Mar 2019: hangs, mended"
