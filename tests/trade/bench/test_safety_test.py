"""The electrical safety test: steps by class, the standard's own comparison, the shop's verdict, the whole."""

from dataclasses import replace
from datetime import UTC
from decimal import Decimal

import pytest

from app.trade.bench.bound import Bound
from app.trade.bench.safety_limits import PROPOSED, SafetyLimits
from app.trade.bench.safety_test import (
    Meets,
    Overall,
    Step,
    StepReading,
    TestResult,
    evaluate_test,
    limit_for,
    meets_limit,
    steps_for,
)
from app.trade.bench.stages import MainsClass
from app.trade.bench.verdict import Limit, VerdictWord
from app.trade.wording import plain

D = Decimal

SAY = plain(UTC)
ENTERED = replace(PROPOSED, standard="EN 50678", edition="2020")
LOOKED = [StepReading(Step.VISUAL, in_order=True), StepReading(Step.FUNCTION, in_order=True)]


def pe(ohm: str, u: str = "0.0216") -> StepReading:
    return StepReading(Step.PE_RESISTANCE, D(ohm), D(u))


def insulation(ohm: str, bound: Bound = Bound.EXACT) -> StepReading:
    return StepReading(Step.INSULATION, D(ohm), D(0), bound)


def current(step: Step, ampere: str) -> StepReading:
    return StepReading(step, D(ampere), D("0.00001"))


CLASS_II = [*LOOKED, insulation("100E+6", Bound.MORE), current(Step.TOUCH_CURRENT, "0.00002")]
CLASS_I = [*CLASS_II, pe("0.12"), current(Step.PE_CURRENT, "0.00021")]


def said(result: TestResult) -> list[str]:
    return [SAY(sentence).replace("\u00a0", " ") for sentence in result.sentences]


@pytest.mark.parametrize(
    ("mains_class", "supply", "steps"),
    [
        (MainsClass.I, None, list(Step)),
        (MainsClass.NOT_KNOWN, None, list(Step)),
        (MainsClass.II, None, [Step.VISUAL, Step.INSULATION, Step.TOUCH_CURRENT, Step.FUNCTION]),
        (MainsClass.BATTERY, None, [Step.VISUAL, Step.FUNCTION]),
        (MainsClass.EXTERNAL, None, [Step.VISUAL, Step.FUNCTION]),
        (
            MainsClass.EXTERNAL,
            MainsClass.II,
            [Step.VISUAL, Step.INSULATION, Step.TOUCH_CURRENT, Step.FUNCTION],
        ),
    ],
)
def test_the_steps_follow_from_the_class(
    mains_class: MainsClass, supply: MainsClass | None, steps: list[Step]
) -> None:
    assert list(steps_for(mains_class, supply)) == steps


@pytest.mark.parametrize(
    ("value", "limit", "bound", "meets"),
    [
        # EN 50678 and VDE 0701-0702:2008 figures; a value equal to the limit meets it.
        ("0.30", Limit(None, D("0.3")), Bound.EXACT, Meets.YES),
        ("0.31", Limit(None, D("0.3")), Bound.EXACT, Meets.NO),
        ("0.3000000001", Limit(None, D("0.3")), Bound.EXACT, Meets.NO),
        ("2.0E+6", Limit(D("2E+6"), None), Bound.EXACT, Meets.YES),
        ("1.9E+6", Limit(D("2E+6"), None), Bound.EXACT, Meets.NO),
        ("0.0005", Limit(None, D("0.0005")), Bound.EXACT, Meets.YES),
        ("0.00351", Limit(None, D("0.0035")), Bound.EXACT, Meets.NO),
        ("2E+6", Limit(D("2E+6"), None), Bound.MORE, Meets.YES),
        ("1E+6", Limit(D("2E+6"), None), Bound.MORE, Meets.NOT_SHOWN),
        ("0.3", Limit(None, D("0.3")), Bound.MORE, Meets.NO),
        ("0.2", Limit(None, D("0.3")), Bound.MORE, Meets.NOT_SHOWN),
    ],
)
def test_the_standards_comparison_is_arithmetic_in_decimals(
    value: str, limit: Limit, bound: Bound, meets: Meets
) -> None:
    assert meets_limit(D(value), limit, bound) is meets


@pytest.mark.parametrize(
    ("ohm", "meets", "word", "probability"),
    [
        ("0.30", Meets.YES, VerdictWord.CLOSE, 0.500),
        ("0.31", Meets.NO, VerdictWord.CLOSE, 0.322),
        ("0.12", Meets.YES, VerdictWord.WITHIN, 1.0),
    ],
)
def test_the_shops_verdict_stands_beside_the_standards(
    ohm: str, meets: Meets, word: VerdictWord, probability: float
) -> None:
    result = evaluate_test(MainsClass.I, ENTERED, [pe(ohm)])
    step = result.steps[1]
    assert step.verdict is not None
    assert (step.meets, step.verdict.word) == (meets, word)
    assert step.verdict.probability == pytest.approx(probability, abs=5e-4)


@pytest.mark.parametrize(
    ("mains_class", "readings"),
    [(MainsClass.I, CLASS_I), (MainsClass.II, CLASS_II), (MainsClass.BATTERY, LOOKED)],
)
def test_all_steps_in_order_pass(mains_class: MainsClass, readings: list[StepReading]) -> None:
    result = evaluate_test(mains_class, ENTERED, readings)
    assert result.overall is Overall.PASSED
    assert result.standard == "EN 50678:2020"
    assert said(result) == ["Safety test passed."]
    assert result.failed == ()


def test_0_31_ohm_fails_whatever_the_shops_verdict_says() -> None:
    readings = [reading for reading in CLASS_I if reading.step is not Step.PE_RESISTANCE]
    result = evaluate_test(MainsClass.I, ENTERED, [*readings, pe("0.31")])
    assert result.overall is Overall.FAILED
    assert said(result) == [
        "Safety test failed.",
        "Protective conductor 0.31 Ω, limit at most 0.3 Ω: does not meet the limit.",
    ]
    assert [step.step for step in result.failed] == [Step.PE_RESISTANCE]


def test_a_longer_cord_has_its_own_limit() -> None:
    readings = [reading for reading in CLASS_I if reading.step is not Step.PE_RESISTANCE]
    for metres, ohm, overall in (("12.5", "0.40", Overall.PASSED), ("5", "0.40", Overall.FAILED)):
        result = evaluate_test(MainsClass.I, ENTERED, [*readings, pe(ohm)], cord_metres=D(metres))
        assert result.overall is overall


def test_a_shop_may_ask_for_clearly_within() -> None:
    readings = [reading for reading in CLASS_I if reading.step is not Step.PE_RESISTANCE]
    strict = evaluate_test(MainsClass.I, ENTERED, [*readings, pe("0.30")], clearly_within=True)
    assert strict.overall is Overall.FAILED
    assert said(strict)[1] == (
        "Protective conductor 0.30 Ω, limit at most 0.3 Ω: meets it, but too close to call; "
        "this shop asks for clearly within."
    )
    assert evaluate_test(MainsClass.I, ENTERED, [*readings, pe("0.30")]).overall is Overall.PASSED
    assert evaluate_test(MainsClass.I, ENTERED, CLASS_I, clearly_within=True).overall is Overall.PASSED


@pytest.mark.parametrize("limits", [None, PROPOSED, replace(ENTERED, edition="")])
def test_without_standard_and_edition_no_test_passes(limits: SafetyLimits | None) -> None:
    result = evaluate_test(MainsClass.II, limits, CLASS_II)
    assert result.overall is Overall.NOT_DONE
    assert said(result) == [
        "Safety test not complete.",
        "Insulation more than 100 MΩ: no limit is entered for it.",
        "Touch current 0.02 mA: no limit is entered for it.",
        "No standard and edition are entered with their limits.",
    ]
    assert result.standard == ""


@pytest.mark.parametrize("step", [step for step in Step if step.measured])
def test_a_figure_not_entered_leaves_its_step_without_limit(step: Step) -> None:
    assert limit_for(step, MainsClass.I, SafetyLimits("EN 50678", "2020")) is None
    assert limit_for(step, MainsClass.I, ENTERED) is not None


def test_looking_needs_no_limit() -> None:
    assert limit_for(Step.VISUAL, MainsClass.I, ENTERED) is None


def test_a_class_not_known_passes_nothing_until_it_is_named() -> None:
    result = evaluate_test(MainsClass.NOT_KNOWN, ENTERED, CLASS_I)
    assert result.overall is Overall.NOT_DONE
    assert said(result)[1:] == ["A competent person has to name the mains class first."]


def test_what_was_not_done_is_said_and_does_not_fail() -> None:
    result = evaluate_test(
        MainsClass.II, ENTERED, [StepReading(Step.VISUAL), StepReading(Step.TOUCH_CURRENT)]
    )
    assert result.overall is Overall.NOT_DONE
    assert said(result) == [
        "Safety test not complete.",
        "Visual: case, cord, plug, openings: not done.",
        "Insulation: not done.",
        "Touch current: not done.",
        "Function, case closed: not done.",
    ]
    conductor = result.steps[1]
    assert (conductor.meets, SAY(conductor.sentence)) == (
        Meets.NOT_APPLICABLE,
        "Protective conductor: does not apply.",
    )


def test_a_defect_that_is_seen_fails() -> None:
    readings = [reading for reading in CLASS_II if reading.step is not Step.VISUAL]
    result = evaluate_test(MainsClass.II, ENTERED, [*readings, StepReading(Step.VISUAL, in_order=False)])
    assert result.overall is Overall.FAILED
    assert said(result)[1] == "Visual: case, cord, plug, openings: not in order."


def test_a_bound_below_the_limit_asks_for_another_range() -> None:
    readings = [reading for reading in CLASS_II if reading.step is not Step.INSULATION]
    result = evaluate_test(MainsClass.II, ENTERED, [*readings, insulation("1E+6", Bound.MORE)])
    assert result.overall is Overall.NOT_DONE
    assert said(result)[1] == (
        "Insulation more than 1 MΩ, limit at least 2.0 MΩ: this bound does not show it; measure on another range."
    )


def test_an_external_supply_is_tested_by_its_own_class_when_it_came_along() -> None:
    seen = evaluate_test(MainsClass.EXTERNAL, ENTERED, CLASS_II, supply_class=MainsClass.II)
    assert (seen.overall, seen.mains_class) == (Overall.PASSED, MainsClass.EXTERNAL)
    assert evaluate_test(MainsClass.EXTERNAL, ENTERED, LOOKED).overall is Overall.PASSED
    not_known = evaluate_test(MainsClass.EXTERNAL, ENTERED, CLASS_I, supply_class=MainsClass.NOT_KNOWN)
    assert not_known.overall is Overall.NOT_DONE


def test_one_failed_step_fails_the_whole_even_while_others_are_missing() -> None:
    assert evaluate_test(MainsClass.I, ENTERED, [pe("0.5")]).overall is Overall.FAILED
