"""The case opened and closed, and the safety test owed for it."""

from __future__ import annotations

import json
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from app.trade.bench.case import (
    TAKEN_WITHOUT_OPENING,
    assumed_opening,
    assumed_words,
    is_open,
    last_step,
    opened_in,
    opens_the_case,
    safety_standing,
    step_refused,
)
from app.trade.bench.stages import CaseStep, MainsClass
from app.trade.sentence import Sentence
from app.trade.wording import Wording


def test_a_case_that_nobody_opened_counts_as_closed() -> None:
    assert not is_open(())
    assert last_step((), CaseStep.OPENED) is None


def test_the_last_step_decides(opened: Any, closed: Any) -> None:
    assert is_open((opened(1),))
    assert not is_open((opened(1), closed(2)))
    assert is_open((opened(1), closed(2), opened(3)))


def test_opening_belongs_to_its_job(opened: Any, closed: Any) -> None:
    events = (opened(1, 1206), closed(2, 1206))
    assert opened_in(events, 1206)
    assert not opened_in(events, 2131)
    assert not opened_in((opened(1, 1206), closed(2, 2131)), 2131)


def test_an_inside_reading_means_that_the_case_was_opened(opened: Any, closed: Any, at: Any) -> None:
    assert opens_the_case("laser_current")
    assert not opens_the_case("seek_time")
    assumed = assumed_opening((opened(1), closed(2)), at=at(3), by="Tobbe", job=2131)
    assert assumed is not None
    assert assumed.assumed
    assert (assumed.step, assumed.at) == (CaseStep.OPENED, at(3))
    assert assumed_opening((opened(1),), at=at(3), by="Tobbe", job=2131) is None


def test_the_book_says_why_it_takes_the_case_as_opened(english: Wording) -> None:
    assert english(assumed_words(Sentence("a part"))) == (
        "The case counted as closed. Since a part was entered, the book takes it as opened."
    )


def test_a_naive_opening_is_refused() -> None:
    with pytest.raises(ValueError, match="naive"):
        assumed_opening((), at=datetime(2026, 11, 24), by="Tobbe", job=1)  # noqa: DTZ001  # on purpose


def test_the_case_is_not_opened_twice_nor_closed_twice(opened: Any) -> None:
    assert step_refused((opened(1),), CaseStep.OPENED) is not None
    assert step_refused((), CaseStep.CLOSED) is not None
    assert step_refused((opened(1),), CaseStep.CLOSED) is None
    assert step_refused((), CaseStep.OPENED) is None


def test_the_shipped_quantities_agree_on_what_is_read_inside() -> None:
    shipped = Path(__file__).parents[3] / "assets" / "bench" / "quantities.json"
    rows = json.loads(shipped.read_text(encoding="utf-8"))
    rows = rows["quantities"] if isinstance(rows, dict) else rows
    outside = {row["id"] for row in rows if not row["inside"]}
    assert outside == TAKEN_WITHOUT_OPENING


@pytest.mark.parametrize("mains", [MainsClass.BATTERY, MainsClass.EXTERNAL])
def test_without_mains_inside_no_test_is_owed(mains: MainsClass, opened: Any, english: Wording) -> None:
    standing = safety_standing(mains, (opened(1),), ())
    assert not standing.owed
    assert english(standing.words) == f"no mains inside: {mains.value}"


def test_a_closed_player_owes_no_test() -> None:
    assert not safety_standing(MainsClass.I, (), ()).owed


def test_an_opened_player_owes_its_test_until_passed_after_closing(
    opened: Any, closed: Any, passed: Any, english: Wording
) -> None:
    assert safety_standing(MainsClass.II, (opened(1),), ()).owed
    standing = safety_standing(MainsClass.II, (opened(1), closed(7)), ())
    assert english(standing.words).replace("\u00a0", " ") == (
        "Opened 24 Nov 2026, 10:00 and not tested since."
    )
    tested = safety_standing(MainsClass.II, (opened(1), closed(7)), (passed(9),))
    assert not tested.owed
    assert tested.test == passed(9)
    same_minute = safety_standing(MainsClass.II, (opened(1), closed(7)), (passed(7),))
    assert not same_minute.owed


def test_a_test_before_the_last_closing_is_stale(opened: Any, closed: Any, passed: Any) -> None:
    events = (opened(1), closed(2), opened(10), closed(11))
    assert safety_standing(MainsClass.I, events, (passed(9),)).owed
    assert not safety_standing(MainsClass.I, events, (passed(9), passed(12))).owed


def test_opening_again_after_the_test_owes_a_new_one(opened: Any, closed: Any, passed: Any) -> None:
    events = (opened(1), closed(7), opened(10))
    standing = safety_standing(MainsClass.I, events, (passed(9),))
    assert standing.owed
    assert "close it" in standing.words.key


@pytest.mark.parametrize("wrong", [{"competent": False}, {"instrument_overdue": True}, {"passed": False}])
def test_a_test_that_does_not_count_settles_nothing(
    wrong: dict[str, bool], opened: Any, closed: Any, passed: Any
) -> None:
    assert safety_standing(MainsClass.I, (opened(1), closed(7)), (passed(9, **wrong),)).owed


def test_a_failed_test_after_a_passed_one_owes_again(
    opened: Any, closed: Any, passed: Any, failed: Any, earth_too_high: Any
) -> None:
    events = (opened(1), closed(7))
    tests = (passed(9), failed(10, earth_too_high))
    assert safety_standing(MainsClass.I, events, tests).owed
    assert not safety_standing(MainsClass.I, events, (*tests, passed(11))).owed


def test_no_test_passes_while_the_mains_class_is_not_known(opened: Any, closed: Any, passed: Any) -> None:
    standing = safety_standing(MainsClass.NOT_KNOWN, (opened(1), closed(7)), (passed(9),))
    assert standing.owed
    assert "competent person names it" in standing.words.key


def test_a_player_that_left_untested_still_owes_its_test_when_it_comes_again(
    opened: Any, closed: Any
) -> None:
    events = (opened(1, 2119), closed(7, 2119))
    assert safety_standing(MainsClass.I, events, ()).owed
