"""The electrical safety test: signed by a competent person, with the standard the shop entered, never rewritten."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from sqlalchemy import select

from app.book.tables import SafetyTest
from app.trade.bench.safety_limits import PROPOSED
from app.trade.bench.safety_test import Overall, Step
from app.trade.bench.stages import CaseStep, MainsClass
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.settings.bench import SAFETY_STANDARD
from app.trade.wording import plain
from app.work.bench.safety_tests import SafetyEntry, judge_test, record_safety_test, safety_page
from app.work.bench.work_done import note_case
from app.work.office.settings import change_settings
from app.work.office.shop_lists import InstrumentLine, save_instrument

CLASS_II = SafetyEntry(
    typed=((Step.INSULATION, "> 100"), (Step.TOUCH_CURRENT, "0.04")),
    in_order=((Step.VISUAL, True), (Step.FUNCTION, True)),
)


@pytest.fixture
def standard(bench: Any) -> Any:
    """The owner has entered a standard with its limits; the case was opened."""
    limits = replace(PROPOSED, standard="EN 50678", edition="2020")
    change_settings(bench.book, bench.shop.ine, {SAFETY_STANDARD: limits})
    note_case(bench.book, bench.tobbe, bench.job, CaseStep.OPENED)
    bench.later(minutes=30)
    return bench


def sign(bench: Any, entry: SafetyEntry, name: str = "sanna") -> Any:
    person = getattr(bench.shop, name)
    return record_safety_test(bench.book, person, bench.shop.pin(name), bench.job, entry).value


def test_opening_the_case_asks_for_a_test_and_a_passed_one_closes_the_gate(standard: Any) -> None:
    assert not standard.gate("safety_missing").done
    note_case(standard.book, standard.tobbe, standard.job, CaseStep.CLOSED)
    standard.later(minutes=5)
    result = sign(standard, CLASS_II)
    assert result.overall is Overall.PASSED
    assert standard.gate("safety_missing").done
    line = standard.sheet.safety_tests[0]
    assert (line.by, line.edition, line.result, line.counts) == (
        "Sanna Wickerel",
        "EN 50678:2020",
        "passed",
        True,
    )
    said = [plain(standard.book.zone).value(step.value) for step in line.steps if step.value is not None]
    assert "more than 100\u00a0MΩ" in said


def test_opened_again_after_the_test_it_is_owed_again(standard: Any) -> None:
    note_case(standard.book, standard.tobbe, standard.job, CaseStep.CLOSED)
    sign(standard, CLASS_II)
    standard.later(minutes=5)
    note_case(standard.book, standard.tobbe, standard.job, CaseStep.OPENED)
    assert not standard.gate("safety_missing").done


def test_with_the_case_open_there_is_no_test(standard: Any) -> None:
    with pytest.raises(Refusal):
        sign(standard, CLASS_II)
    assert standard.sheet.safety_tests == ()


def test_only_who_carries_the_mark_signs_and_only_with_the_own_pin(standard: Any) -> None:
    note_case(standard.book, standard.tobbe, standard.job, CaseStep.CLOSED)
    with pytest.raises(Refusal):
        sign(standard, CLASS_II, "tobbe")
    with pytest.raises(Refusal):
        record_safety_test(standard.book, standard.shop.sanna, "0000", standard.job, CLASS_II)
    assert standard.sheet.safety_tests == ()


def test_a_value_over_the_limit_fails_and_stops_the_job(standard: Any) -> None:
    # EN 50678 limit of 0.5 mA touch current, as in the 2008 tables (trade.md section 2)
    note_case(standard.book, standard.tobbe, standard.job, CaseStep.CLOSED)
    result = sign(
        standard, replace(CLASS_II, typed=((Step.INSULATION, "> 100"), (Step.TOUCH_CURRENT, "0.51")))
    )
    assert result.overall is Overall.FAILED
    assert "safety_failed" in standard.rules()
    standard.later(minutes=20)
    sign(standard, CLASS_II)
    assert "safety_failed" not in standard.rules()


def test_a_value_equal_to_the_limit_meets_it(standard: Any) -> None:
    judged = judge_test(
        standard.book,
        standard.job,
        replace(CLASS_II, typed=((Step.INSULATION, "2"), (Step.TOUCH_CURRENT, "0.5"))),
    )
    assert judged.overall is Overall.PASSED


def test_nothing_entered_passes_nothing(bench: Any) -> None:
    result = sign(bench, CLASS_II)
    assert result.overall is Overall.NOT_DONE
    assert safety_page(bench.book, bench.job).standard == ""
    assert bench.sheet.safety_tests[0].edition == ""


def test_what_cannot_be_read_is_said_at_its_step(standard: Any) -> None:
    note_case(standard.book, standard.tobbe, standard.job, CaseStep.CLOSED)
    with pytest.raises(FieldRefusal) as refused:
        sign(standard, replace(CLASS_II, typed=((Step.INSULATION, "lots"), (Step.TOUCH_CURRENT, "half"))))
    assert set(refused.value.fields) == {"insulation", "touch_current"}


def test_a_step_left_out_leaves_the_test_not_done(standard: Any) -> None:
    note_case(standard.book, standard.tobbe, standard.job, CaseStep.CLOSED)
    result = sign(standard, replace(CLASS_II, typed=((Step.INSULATION, "> 100"), (Step.TOUCH_CURRENT, " "))))
    assert result.overall is Overall.NOT_DONE
    assert not standard.gate("safety_missing").done


def test_a_tester_past_its_date_leaves_the_test_owed(standard: Any) -> None:
    late = save_instrument(
        standard.book, standard.shop.ine, InstrumentLine(name="safety tester", due_on=date(2026, 1, 1))
    ).value
    note_case(standard.book, standard.tobbe, standard.job, CaseStep.CLOSED)
    sign(standard, replace(CLASS_II, instrument_id=late))
    line = standard.sheet.safety_tests[0]
    assert (line.result, line.counts) == ("passed", False)
    assert line.tested_with == "safety tester"
    assert not standard.gate("safety_missing").done


def test_a_class_nobody_knows_is_named_by_the_tester(bench: Any) -> None:
    from app.trade.counter.taking_in import Intake
    from app.work.counter.taking_in import receive_unit

    limits = replace(PROPOSED, standard="EN 50678", edition="2020")
    change_settings(bench.book, bench.shop.ine, {SAFETY_STANDARD: limits})
    bench.job = receive_unit(
        bench.book,
        bench.shop.mirr,
        Intake(
            name="Jun Okeland",
            maker="Tavossa",
            model="Tamarack",
            serial="TM 88012",
            fault="Skips near the end.",
        ),
    ).value.job_id
    assert safety_page(bench.book, bench.job).mains_class is MainsClass.NOT_KNOWN
    assert Step.PE_RESISTANCE in safety_page(bench.book, bench.job).steps
    assert Step.PE_RESISTANCE not in safety_page(bench.book, bench.job, MainsClass.II).steps
    result = sign(bench, replace(CLASS_II, named_class=MainsClass.II))
    assert result.overall is Overall.PASSED
    assert bench.sheet.mains_class is MainsClass.II


def test_a_class_that_is_known_is_not_named_again(standard: Any) -> None:
    note_case(standard.book, standard.tobbe, standard.job, CaseStep.CLOSED)
    sign(standard, replace(CLASS_II, named_class=MainsClass.I, cord_metres=Decimal(2)))
    assert standard.sheet.mains_class is MainsClass.II


def test_the_cord_by_which_the_limit_was_chosen_is_kept_with_the_test(standard: Any) -> None:
    note_case(standard.book, standard.tobbe, standard.job, CaseStep.CLOSED)
    cord = {"cord_metres": Decimal("2.80"), "cord_mm2": Decimal("2.5")}
    sign(standard, replace(CLASS_II, note="tested warm", **cord))
    sign(standard, CLASS_II)
    notes = [test.note for test in standard.sheet.safety_tests]
    assert [test.tested_with for test in standard.sheet.safety_tests] == ["", ""]
    assert sorted(notes) == ["", "tested warm; 2.8\u00a0m, 2.5\u00a0mm²"]
    with standard.book.ask() as session:
        rows = session.execute(select(SafetyTest.cord_metres, SafetyTest.cord_mm2, SafetyTest.note)).all()
    assert [tuple(row) for row in rows] == [  # as numbers of their own
        (Decimal("2.80"), Decimal("2.5"), "tested warm"),
        (None, None, ""),
    ]


def test_a_step_looked_at_and_not_in_order_fails(standard: Any) -> None:
    note_case(standard.book, standard.tobbe, standard.job, CaseStep.CLOSED)
    result = sign(standard, replace(CLASS_II, in_order=((Step.VISUAL, False), (Step.FUNCTION, True))))
    assert result.overall is Overall.FAILED
    flag = next(flag for flag in standard.sheet.flags if flag.rule == "safety_failed")
    assert "Visual" in plain(standard.book.zone)(flag.sentence)
