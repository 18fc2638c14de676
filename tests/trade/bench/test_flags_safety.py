"""Stops: what can hurt people, and exactly what makes each go away."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from app.trade.bench.facts import AskedFact, FailedStep
from app.trade.bench.flag import Closing, FlagRaised, Level, Subject
from app.trade.bench.flags_safety import (
    earth,
    fuse,
    interlock,
    mains_wiring,
    passed_since,
    safety_failed,
    safety_part,
)
from app.trade.bench.modifications import Circuit, Kind, Modification
from app.trade.bench.stages import MainsClass, Mark
from app.trade.bench.thresholds import DEFAULTS
from app.trade.sentence import Measure, Sentence
from app.trade.wording import Wording

ALL = (interlock, fuse, mains_wiring, earth, safety_part, safety_failed)


def told(rule: Any, facts: Any) -> list[FlagRaised]:
    return list(rule(facts, DEFAULTS))


def said(flag: FlagRaised, english: Wording) -> str:
    return english(flag.sentence).replace("\u00a0", " ")


def raised_by(facts: Any) -> list[str]:
    return [flag.rule for rule in ALL for flag in told(rule, facts)]


def test_a_bridged_fuse_is_a_stop_at_once(job: Any, unlawful: Any, english: Wording) -> None:
    bridged = unlawful(Kind.FUSE, Circuit.FUSE, where="F1", was="T 315 mA, 250 V", now="metal foil")
    (flag,) = told(fuse, job(modifications=(bridged,)))
    assert (flag.level, flag.subject, flag.closing) == (Level.STOP, Subject.UNIT, Closing.FACTS)
    assert said(flag, english) == "Fuse F1: maker T 315 mA, 250 V, found metal foil."


def test_the_right_fuse_clears_only_with_its_cause_noted(job: Any, unlawful: Any, put_back: Any) -> None:
    def facts(note: str) -> Any:
        return job(modifications=(unlawful(Kind.FUSE, Circuit.FUSE, reversal=put_back(note=note)),))

    assert len(told(fuse, facts(" "))) == 1
    assert told(fuse, facts("D4 shorted, renewed")) == []


def test_a_fuse_whose_maker_value_nobody_knows_says_so(
    job: Any, unlawful: Any, modification: Any, english: Wording
) -> None:
    odd = unlawful(Kind.OTHER, Circuit.FUSE, where="F2")
    (flag,) = told(fuse, job(modifications=(odd, modification(number=2))))
    assert said(flag, english) == "Fuse F2: maker not known, found other change at F2 (fuse)."


def test_changed_mains_wiring_stays_a_stop_until_restored_and_tested(
    job: Any, unlawful: Any, put_back: Any, passed: Any, english: Wording
) -> None:
    cord = unlawful(Kind.WIRING, Circuit.MAINS, where="cord", now="two-core cord on a class I player")
    (flag,) = told(mains_wiring, job(modifications=(cord,), mains_class=MainsClass.I))
    assert said(flag, english) == "Mains wiring differs from the maker's: two-core cord on a class I player."
    restored = unlawful(Kind.WIRING, Circuit.MAINS, where="cord", reversal=put_back(6))
    untested = job(modifications=(restored,), mains_class=MainsClass.I)
    assert len(told(mains_wiring, untested)) == 1
    before = job(modifications=(restored,), mains_class=MainsClass.I, safety_tests=(passed(5),))
    assert len(told(mains_wiring, before)) == 1
    after = job(modifications=(restored,), mains_class=MainsClass.I, safety_tests=(passed(7),))
    assert told(mains_wiring, after) == []


def test_a_test_that_does_not_count_clears_no_stop(job: Any, passed: Any, at: Any) -> None:
    helped = job(safety_tests=(passed(7, competent=False), passed(8, instrument_overdue=True)))
    assert not passed_since(helped, at(6))
    assert passed_since(job(safety_tests=(passed(7),)), at(7))


def test_a_player_without_mains_inside_needs_no_safety_test_to_clear(job: Any, at: Any) -> None:
    assert passed_since(job(mains_class=MainsClass.BATTERY), at(6))


def test_a_lifted_earth_is_a_stop(
    job: Any, unlawful: Any, put_back: Any, passed: Any, english: Wording
) -> None:
    lifted = unlawful(Kind.WIRING, Circuit.EARTH, where="inlet", now="conductor lifted")
    (flag,) = told(earth, job(modifications=(lifted,), mains_class=MainsClass.I))
    assert said(flag, english) == "Protective earth: conductor lifted."
    restored = unlawful(Kind.WIRING, Circuit.EARTH, where="inlet", reversal=put_back(6))
    untested = job(modifications=(restored,), mains_class=MainsClass.I)
    assert len(told(earth, untested)) == 1
    mended = job(modifications=(restored,), mains_class=MainsClass.I, safety_tests=(passed(7),))
    assert told(earth, mended) == []


def test_an_earth_above_its_limit_is_a_stop_until_a_full_test_is_passed(
    job: Any, failed: Any, passed: Any, earth_too_high: FailedStep, english: Wording
) -> None:
    (flag,) = told(earth, job(safety_tests=(failed(2, earth_too_high),)))
    assert said(flag, english) == "Protective earth: over its limit, 0.31 Ω (limit 0.30 Ω)."
    assert told(earth, job(safety_tests=(failed(2, earth_too_high), passed(9)))) == []


def test_another_failed_step_says_nothing_about_the_earth(job: Any, failed: Any) -> None:
    low = FailedStep(
        "insulation", Sentence("Insulation"), Measure(Decimal("0.4"), "MΩ"), Measure(Decimal(1), "MΩ")
    )
    assert told(earth, job(safety_tests=(failed(2, low),))) == []


@pytest.mark.parametrize("value", [None, Measure(Decimal("0.31"), "Ω")])
def test_an_earth_step_without_value_or_limit_is_told_as_a_failed_step_only(
    value: Measure | None, job: Any, failed: Any, english: Wording
) -> None:
    unmeasured = FailedStep("pe_resistance", Sentence("Protective conductor"), value, None)
    facts = job(safety_tests=(failed(2, unmeasured),))
    assert told(earth, facts) == []
    (flag,) = told(safety_failed, facts)
    assert said(flag, english) == "Safety test: Protective conductor, not in order (EN 50678:2020)."


def test_a_dangerous_change_without_further_words_is_named_by_its_kind(
    job: Any, unlawful: Any, english: Wording
) -> None:
    def words(rule: Any, kind: Kind, circuit: Circuit) -> str:
        (flag,) = told(rule, job(modifications=(unlawful(kind, circuit, where="X1"),)))
        return said(flag, english)

    assert "wiring at X1 (mains)" in words(mains_wiring, Kind.WIRING, Circuit.MAINS)
    assert "wiring at X1 (protective earth)" in words(earth, Kind.WIRING, Circuit.EARTH)
    assert "interlock at X1 (laser interlock)" in words(interlock, Kind.INTERLOCK, Circuit.INTERLOCK)
    assert "part of another type at X1 (mains)" in words(safety_part, Kind.OTHER_TYPE, Circuit.MAINS)


def test_an_earth_reading_above_its_limit_is_the_same_stop(job: Any, reading: Any, english: Wording) -> None:
    limit = {"high": Decimal("0.30")}
    over = reading("pe_resistance", "0.31", "Ω", **limit)
    at_limit = reading("pe_resistance", "0.30", "Ω", **limit)
    unlimited = reading("pe_resistance", "0.9", "Ω")
    assert told(earth, job(readings=(at_limit, unlimited))) == []
    worse = reading("pe_resistance", "0.44", "Ω", 3, **limit)
    (flag,) = told(earth, job(readings=(over, worse)))
    assert "0.44 Ω" in said(flag, english)


def test_a_bypassed_interlock_clears_only_when_removed_and_tried(
    job: Any, unlawful: Any, put_back: Any, english: Wording
) -> None:
    def facts(**given: Any) -> Any:
        return job(
            modifications=(unlawful(Kind.INTERLOCK, Circuit.INTERLOCK, now="lid switch taped", **given),)
        )

    (flag,) = told(interlock, facts())
    assert said(flag, english) == "The beam could be reached with the cover open: lid switch taped."
    assert len(told(interlock, facts(reversal=put_back(tried=False)))) == 1
    assert told(interlock, facts(reversal=put_back(tried=True))) == []


def test_being_asked_to_bridge_the_lid_switch_is_a_stop_until_refused(job: Any) -> None:
    asked = AskedFact(1, "bridge the lid switch so it plays open")
    (flag,) = told(interlock, job(asked=(asked,)))
    assert (flag.level, flag.subject, flag.detail) == (Level.STOP, Subject.JOB, "asked 1")
    assert told(interlock, job(asked=(AskedFact(1, asked.what, refused=True),))) == []


def test_a_protecting_part_of_another_type_needs_test_and_owner(
    job: Any, unlawful: Any, put_back: Any, passed: Any, english: Wording
) -> None:
    part = {"kind": Kind.OTHER_TYPE, "circuit": Circuit.MAINS, "where": "C101", "now": "a plain capacitor"}
    (flag,) = told(safety_part, job(modifications=(unlawful(**part),)))
    assert said(flag, english) == (
        "The part at C101 protects people; a plain capacitor is not the maker's type."
    )
    assert flag.closing is Closing.FACTS
    right = unlawful(**part, reversal=put_back(6))
    (untested,) = told(safety_part, job(modifications=(right,)))
    assert untested.closing is Closing.FACTS
    (tested,) = told(safety_part, job(modifications=(right,), safety_tests=(passed(7),)))
    assert (tested.closing, tested.needs) == (Closing.REASON, Mark.OWNER)


@pytest.mark.parametrize(
    ("kind", "circuit", "marked", "rule"),
    [
        (Kind.FUSE, Circuit.FUSE, False, "fuse"),
        (Kind.FUSE, Circuit.MAINS, False, "fuse"),
        (Kind.WIRING, Circuit.MAINS, False, "mains_wiring"),
        (Kind.OTHER, Circuit.MAINS, False, "mains_wiring"),
        (Kind.OTHER_TYPE, Circuit.MAINS, False, "safety_part"),
        (Kind.REPLACED, Circuit.MAINS, False, "safety_part"),
        (Kind.OTHER_TYPE, Circuit.SUPPLY_RAIL, True, "safety_part"),
        (Kind.WIRING, Circuit.MAINS, True, "safety_part"),
        (Kind.WIRING, Circuit.EARTH, False, "earth"),
        (Kind.OTHER_TYPE, Circuit.EARTH, True, "earth"),
        (Kind.INTERLOCK, Circuit.INTERLOCK, True, "interlock"),
        (Kind.OTHER_TYPE, Circuit.INTERLOCK, False, "interlock"),
        (Kind.INTERLOCK, Circuit.MAINS, False, "interlock"),
        (Kind.FUSE, Circuit.FUSE, True, "fuse"),
        (Kind.OTHER_TYPE, Circuit.SIGNAL, False, None),
        (Kind.TRIMMER, Circuit.LASER_SUPPLY, False, None),
    ],
)
def test_each_dangerous_change_is_told_by_exactly_one_stop(
    kind: Kind, circuit: Circuit, marked: bool, rule: str | None, job: Any, unlawful: Any
) -> None:
    change: Modification = unlawful(kind, circuit, safety_part=marked, now="changed")
    assert raised_by(job(modifications=(change,))) == ([rule] if rule else [])


def test_each_failed_step_is_named_with_the_edition_of_that_day(
    job: Any, failed: Any, earth_too_high: FailedStep, english: Wording
) -> None:
    visual = FailedStep("visual", Sentence("Visual: case, cord, plug, openings"))
    flags = told(safety_failed, job(safety_tests=(failed(2, visual, earth_too_high),)))
    assert [said(f, english) for f in flags] == [
        "Safety test: Visual: case, cord, plug, openings, not in order (EN 50678:2020).",
        "Safety test: Protective conductor 0.31 Ω, limit 0.30 Ω (EN 50678:2020).",
    ]
    assert {f.subject for f in flags} == {Subject.UNIT}


def test_only_a_full_new_test_that_counts_clears_a_failed_one(
    job: Any, failed: Any, passed: Any, earth_too_high: FailedStep
) -> None:
    first = failed(2, earth_too_high)
    assert len(told(safety_failed, job(safety_tests=(first, passed(9, competent=False))))) == 1
    assert len(told(safety_failed, job(safety_tests=(first, passed(9, passed=False))))) == 1  # not done
    assert told(safety_failed, job(safety_tests=(first, passed(9)))) == []
    assert told(safety_failed, job()) == []
