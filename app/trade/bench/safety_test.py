"""The electrical safety test after repair: which steps apply, what each says, and the whole.

Passed or failed is arithmetic: the value as entered against the standard's limit, in decimals, where a value
equal to the limit meets it. The shop's own verdict, with uncertainty, stands beside it; a shop may ask for
that as well, never for less.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from app.trade.bench.bound import Bound
from app.trade.bench.figures import trimmed
from app.trade.bench.safety_limits import SafetyLimits
from app.trade.bench.stages import MainsClass
from app.trade.bench.verdict import Limit, Verdict, VerdictWord, judge
from app.trade.sentence import Measure, Sentence, Value, words


class Step(StrEnum):
    """The steps in the order in which they are done; a measured one has the id of its quantity."""

    VISUAL = "visual"
    PE_RESISTANCE = "pe_resistance"
    INSULATION = "insulation"
    PE_CURRENT = "pe_current"
    TOUCH_CURRENT = "touch_current"
    FUNCTION = "function"

    @property
    def measured(self) -> bool:
        """Whether the step has a value; the others are looked at or tried."""
        return self not in (Step.VISUAL, Step.FUNCTION)

    @property
    def name_words(self) -> Sentence:
        """The step as it stands in the table of the test."""
        return _NAMES[self]


class Meets(StrEnum):
    """Whether a step meets the standard's limit. ``NOT_SHOWN``: a bound that does not reach the limit."""

    YES = words("yes")
    NO = words("no")
    NOT_DONE = words("not done")
    NOT_SHOWN = words("not shown")
    NOT_APPLICABLE = words("does not apply")


class Overall(StrEnum):
    """What the whole test says."""

    PASSED = words("passed")
    FAILED = words("failed")
    NOT_DONE = words("not done")


_NAMES = {
    Step.VISUAL: Sentence("Visual: case, cord, plug, openings"),
    Step.PE_RESISTANCE: Sentence("Protective conductor"),
    Step.INSULATION: Sentence("Insulation"),
    Step.PE_CURRENT: Sentence("Protective-conductor current"),
    Step.TOUCH_CURRENT: Sentence("Touch current"),
    Step.FUNCTION: Sentence("Function, case closed"),
}
_LOOKED_AT = (Step.VISUAL, Step.FUNCTION)
_CLASS_II = (Step.VISUAL, Step.INSULATION, Step.TOUCH_CURRENT, Step.FUNCTION)
# Power of ten from ohm or ampere to the unit shown, and that unit.
_SHOWN = {
    Step.PE_RESISTANCE: (0, "Ω"),
    Step.INSULATION: (-6, "MΩ"),
    Step.PE_CURRENT: (3, "mA"),
    Step.TOUCH_CURRENT: (3, "mA"),
}


@dataclass(frozen=True)
class StepReading:
    """One step as done: a value in ohm or ampere with its standard uncertainty, or in order / not in order."""

    step: Step
    value: Decimal | None = None
    u: Decimal = Decimal(0)
    bound: Bound = Bound.EXACT
    in_order: bool | None = None
    remark: str = ""


@dataclass(frozen=True)
class StepResult:
    """One step judged. ``limit`` in ohm or ampere stands on one side only; None for a step looked at, for one
    that does not apply and for a figure not entered. ``passes`` asks for the shop's own verdict too where the
    shop is stricter than the standard."""

    step: Step
    reading: StepReading | None
    limit: Limit | None
    meets: Meets
    verdict: Verdict | None
    passes: bool
    sentence: Sentence


@dataclass(frozen=True)
class TestResult:
    """The whole test. ``standard`` is as entered; ``sentences`` says how it ended, then what stands in the
    way."""

    __test__ = False  # no test of pytest's, though its name begins like one

    mains_class: MainsClass
    standard: str
    overall: Overall
    steps: tuple[StepResult, ...]
    sentences: tuple[Sentence, ...]

    @property
    def failed(self) -> tuple[StepResult, ...]:
        """The steps that were done and do not pass."""
        return tuple(s for s in self.steps if _counts(s) and not s.passes)


def steps_for(mains_class: MainsClass, supply_class: MainsClass | None = None) -> tuple[Step, ...]:
    """The steps that apply, in their order.

    An external supply is tested by its own class when it came along. When it was not seen (``supply_class``
    None), and for a battery, the player itself is only looked at and tried. Not known: those of class I, which
    hold those of class II.
    """
    if mains_class is MainsClass.EXTERNAL and supply_class is not None:
        return steps_for(supply_class)
    if mains_class in (MainsClass.BATTERY, MainsClass.EXTERNAL):
        return _LOOKED_AT
    return _CLASS_II if mains_class is MainsClass.II else tuple(Step)


def limit_for(
    step: Step,
    mains_class: MainsClass,
    limits: SafetyLimits | None,
    cord_metres: Decimal | None = None,
    cord_mm2: Decimal | None = None,
) -> Limit | None:
    """The standard's limit for a step (ohm, ampere); None for a step looked at or a figure not entered."""
    if limits is None or not limits.named or not step.measured:
        return None
    low: Decimal | None = None
    high: Decimal | None = None
    if step is Step.PE_RESISTANCE:
        rule = limits.protective_conductor
        high = None if rule is None else rule.limit(cord_metres, cord_mm2)
    elif step is Step.INSULATION:
        low = limits.insulation(mains_class)
    elif step is Step.PE_CURRENT:
        high = limits.protective_conductor_current
    else:
        high = limits.touch_current
    if low is None and high is None:
        return None
    return Limit(low, high, limits.title, must=True)


def meets_limit(value: Decimal, limit: Limit, bound: Bound = Bound.EXACT) -> Meets:
    """The standard's own comparison, in decimals as entered: a value equal to the limit meets it.

    A lower bound meets a least value that it reaches, and breaks a greatest value that it reaches (the truth
    is more); otherwise it shows nothing.
    """
    if limit.high is not None:
        if bound is Bound.EXACT:
            return Meets.YES if value <= limit.high else Meets.NO
        return Meets.NO if value >= limit.high else Meets.NOT_SHOWN
    assert limit.low is not None
    if value >= limit.low:
        return Meets.YES
    return Meets.NO if bound is Bound.EXACT else Meets.NOT_SHOWN


def evaluate_test(
    mains_class: MainsClass,
    limits: SafetyLimits | None,
    readings: Iterable[StepReading],
    *,
    cord_metres: Decimal | None = None,
    cord_mm2: Decimal | None = None,
    supply_class: MainsClass | None = None,
    clearly_within: bool = False,
) -> TestResult:
    """Judge every step and the whole.

    ``limits``: the edition that the shop entered, None when it entered none. ``clearly_within``: the shop's
    stricter rule, by which a value too close to call does not pass. Failed: a step was done and does not pass.
    Not done: a step, a limit, the standard or the class is missing. Passed: all steps, nothing missing.
    """
    done = {reading.step: reading for reading in readings}
    tested = supply_class if mains_class is MainsClass.EXTERNAL and supply_class else mains_class
    applies = steps_for(tested)
    steps = tuple(
        _judge_step(
            step, done.get(step), limit_for(step, tested, limits, cord_metres, cord_mm2), clearly_within
        )
        if step in applies
        else StepResult(step, None, None, Meets.NOT_APPLICABLE, None, False, _no_step(step))
        for step in Step
    )
    failed = [s.sentence for s in steps if _counts(s) and not s.passes]
    missing = [s.sentence for s in steps if s.step in applies and not _counts(s)]
    if limits is None or not limits.named:
        missing.append(Sentence("No standard and edition are entered with their limits."))
    if tested is MainsClass.NOT_KNOWN:
        missing.append(Sentence("A competent person has to name the mains class first."))
    if failed:
        overall, how = Overall.FAILED, Sentence("Safety test failed.")
    elif missing:
        overall, how = Overall.NOT_DONE, Sentence("Safety test not complete.")
    else:
        overall, how = Overall.PASSED, Sentence("Safety test passed.")
    standard = limits.title if limits is not None and limits.named else ""
    return TestResult(mains_class, standard, overall, steps, (how, *failed, *missing))


def _counts(result: StepResult) -> bool:
    return result.meets in (Meets.YES, Meets.NO)


def _no_step(step: Step) -> Sentence:
    return Sentence("{step}: does not apply.", {"step": step.name_words})


def _judge_step(
    step: Step, reading: StepReading | None, limit: Limit | None, clearly_within: bool
) -> StepResult:
    said: dict[str, Value] = {"step": step.name_words}
    if not step.measured:
        in_order = None if reading is None else reading.in_order
        if in_order is None:
            return StepResult(
                step, reading, None, Meets.NOT_DONE, None, False, Sentence("{step}: not done.", said)
            )
        key = "{step}: in order." if in_order else "{step}: not in order."
        meets = Meets.YES if in_order else Meets.NO
        return StepResult(step, reading, None, meets, None, in_order, Sentence(key, said))
    if reading is None or reading.value is None:
        return StepResult(
            step, reading, limit, Meets.NOT_DONE, None, False, Sentence("{step}: not done.", said)
        )
    said["value"] = shown(step, reading.value, reading.bound)
    if limit is None:
        key = "{step} {value}: no limit is entered for it."
        return StepResult(step, reading, None, Meets.NOT_DONE, None, False, Sentence(key, said))
    said["limit"] = shown_limit(step, limit)
    meets = meets_limit(reading.value, limit, reading.bound)
    verdict = judge(reading.value, reading.u, limit, reading.bound)
    passes = meets is Meets.YES and (not clearly_within or verdict.word is VerdictWord.WITHIN)
    if meets is Meets.NOT_SHOWN:
        key = "{step} {value}, limit {limit}: this bound does not show it; measure on another range."
    elif passes:
        key = "{step} {value}, limit {limit}: meets the limit."
    elif meets is Meets.YES:
        key = "{step} {value}, limit {limit}: meets it, but too close to call; this shop asks for clearly within."
    else:
        key = "{step} {value}, limit {limit}: does not meet the limit."
    return StepResult(step, reading, limit, meets, verdict, passes, Sentence(key, said))


def shown(step: Step, value: Decimal, bound: Bound = Bound.EXACT) -> Sentence | Measure:
    """A step's value, given in ohm or ampere, as it is shown: Ω, MΩ or mA, with the digits given."""
    power, unit = _SHOWN[step]
    measure = Measure(value.scaleb(power), unit)
    return measure if bound is Bound.EXACT else Sentence("more than {value}", {"value": measure})


def shown_limit(step: Step, limit: Limit) -> Sentence:
    """The limit of a step as it is shown: at most 0.3 Ω, at least 2 MΩ."""
    power, unit = _SHOWN[step]
    end = limit.low if limit.high is None else limit.high
    assert end is not None  # a limit has a side
    value = Measure(trimmed(end.scaleb(power), 1), unit)
    return Sentence("at least {value}" if limit.high is None else "at most {value}", {"value": value})
