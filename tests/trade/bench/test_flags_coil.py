"""Rules about changed circuits, with the worked numbers of the bench (common practice, no source)."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest

from app.trade.bench.flag import Closing, FlagRaised, Level, Subject
from app.trade.bench.flags_coil import coil_hot, coil_up, part_load, stacked, supply_changed, warming
from app.trade.bench.modifications import Circuit, Kind, Law, Origin
from app.trade.bench.stages import Mark
from app.trade.bench.thresholds import DEFAULTS
from app.trade.wording import Wording


def told(rule: Any, facts: Any, thresholds: Any = DEFAULTS) -> list[FlagRaised]:
    return list(rule(facts, thresholds))


def one(rule: Any, facts: Any, thresholds: Any = DEFAULTS) -> FlagRaised:
    (flag,) = told(rule, facts, thresholds)
    return flag


def said(flag: FlagRaised, english: Wording) -> str:
    return english(flag.sentence).replace("\u00a0", " ")


def test_a_fifth_more_coil_current_is_a_caution_with_its_numbers(
    job: Any, modification: Any, english: Wording
) -> None:
    flag = one(coil_up, job(modifications=(modification(),)))
    assert (flag.rule, flag.level, flag.subject) == ("coil_up", Level.CAUTION, Subject.UNIT)
    assert flag.closing is Closing.FACTS
    assert not flag.owner_sees
    assert said(flag, english) == (
        "Current in the radial coil is 1.214 times the maker's, loop gain +1.69 dB, "
        "coil heat 1.474 times (R314)."
    )


def test_more_than_half_above_is_for_the_owner(job: Any, modification: Any, english: Wording) -> None:
    pair = [
        modification(number=n, kind=Kind.PARALLEL, new_value=Decimal(r)) for n, r in ((1, "15"), (2, "33"))
    ]
    flag = one(coil_up, job(modifications=tuple(pair)))
    assert (flag.rule, flag.needs, flag.owner_sees) == ("coil_up_big", Mark.OWNER, True)
    assert flag.closing is Closing.SEEN
    assert said(flag, english) == (
        "Current in the radial coil is 1.659 times the maker's, loop gain +4.40 dB, "
        "coil heat 2.754 times (R314). "
        "More than 50 % above the maker's value: the owner acknowledges."
    )


@pytest.mark.parametrize(
    ("added", "rule"), [("10", None), ("9.99", "coil_up"), ("2", "coil_up"), ("1.99", "coil_up_big")]
)
def test_the_lines_themselves_are_still_allowed(
    added: str, rule: str | None, job: Any, modification: Any
) -> None:
    # Across 1 ohm: k = 1 + 1/R1, so 10 ohm gives exactly 1.10 and 2 ohm exactly 1.50.
    change = modification(kind=Kind.PARALLEL, maker_value=Decimal(1), new_value=Decimal(added))
    assert [f.rule for f in told(coil_up, job(modifications=(change,)))] == ([rule] if rule else [])


def test_a_stricter_shop_is_told_earlier(job: Any, modification: Any) -> None:
    strict = replace(DEFAULTS, coil_up_big=Decimal("1.2"))
    flag = one(coil_up, job(modifications=(modification(),)), strict)
    assert flag.rule == "coil_up_big"
    assert flag.sentence.values["line"].value == 20  # type: ignore[union-attr]


def test_less_current_other_circuits_and_changes_without_a_law_raise_nothing(
    job: Any, modification: Any
) -> None:
    less = modification(kind=Kind.SERIES, new_value=Decimal("1.5"))
    gain = modification(number=2, circuit=Circuit.SERVO_GAIN, law=Law.GAIN, new_value=Decimal(10))
    lawless = modification(number=3, circuit=Circuit.FOCUS_COIL, law=Law.NEITHER)
    assert told(coil_up, job(modifications=(less, gain, lawless))) == []


def test_a_change_inside_the_transport_leaves_with_it(job: Any, modification: Any) -> None:
    inside = modification(in_transport=True)
    assert one(coil_up, job(modifications=(inside,))).subject is Subject.TRANSPORT
    both = (inside, modification(number=2, where="R315"))
    assert one(coil_up, job(modifications=both)).subject is Subject.UNIT


def test_warming_is_worked_out_from_the_resistance_of_copper() -> None:
    # From memory: electrical-machine practice. 14.0 -> 15.2 ohm from 23 degrees: 22.0714 K.
    rise = warming(Decimal("14.0"), Decimal("15.2"), Decimal(23))
    assert float(rise) == pytest.approx(22.0714, abs=5e-5)
    # hot/cold 1.155 from 23 degrees is the 40 K of the rule, to half a kelvin.
    assert float(warming(Decimal(1), Decimal("1.155"), Decimal(23))) == pytest.approx(40, abs=0.5)


def test_a_coil_that_warms_too_much_is_a_caution(job: Any, reading: Any, english: Wording) -> None:
    cold = reading("radial_coil_r", "12.5", "Ω", 1, room=Decimal(23))
    hot = reading("radial_coil_r", "14.6", "Ω", 2, warm_minutes=30)
    flag = one(coil_hot, job(readings=(cold, hot)))
    assert said(flag, english) == "Coil too warm: the radial coil warms by 43 K in 30 min."


def test_the_latest_pair_of_readings_decides(job: Any, reading: Any) -> None:
    readings = (
        reading("focus_coil_r", "12.5", "Ω", 1),
        reading("focus_coil_r", "14.6", "Ω", 2, warm_minutes=30),
        reading("focus_coil_r", "12.5", "Ω", 3),
        reading("focus_coil_r", "13.6", "Ω", 4, warm_minutes=30),
    )
    assert told(coil_hot, job(readings=readings)) == []
    assert len(told(coil_hot, job(readings=readings[:2]))) == 1
    assert told(coil_hot, job(readings=readings[:1])) == []


def test_forty_kelvin_are_still_allowed_and_the_room_counts(job: Any, reading: Any) -> None:
    # (11.6/10 - 1)(234.5 + 15.5) = 40 K exactly; from 16.5 degrees it is 40.16 K.
    def warmed(room: str | None) -> Any:
        cold = reading("radial_coil_r", "10", "Ω", 1, room=None if room is None else Decimal(room))
        return job(readings=(cold, reading("radial_coil_r", "11.6", "Ω", 2, warm_minutes=30)))

    assert told(coil_hot, warmed("15.5")) == []
    assert len(told(coil_hot, warmed("16.5"))) == 1
    assert told(coil_hot, warmed("0")) == []
    assert len(told(coil_hot, warmed(None))) == 1  # taken as 23 degrees


def test_only_cold_before_warm_is_a_pair(job: Any, reading: Any) -> None:
    def coil(ohms: str, hours: float, **given: Any) -> Any:
        return reading("radial_coil_r", ohms, "Ω", hours, **given)

    two_cold = (coil("12.5", 1), coil("16", 2))
    two_warm = (coil("12.5", 1, warm_minutes=30), coil("16", 2, warm_minutes=60))
    shorted = (coil("0", 1), coil("16", 2, warm_minutes=30))
    for readings in (two_cold, two_warm, shorted):
        assert told(coil_hot, job(readings=readings)) == []


def test_two_changes_on_one_circuit_are_stacked(job: Any, modification: Any, english: Wording) -> None:
    pair = (modification(number=1), modification(number=2, where="R315", origin=Origin.FOUND))
    flag = one(stacked, job(modifications=pair))
    assert said(flag, english) == "On the radial coil, 2 changes together make 1.474 ×."
    assert flag.closing is Closing.REASON
    assert flag.needs is None


def test_stacked_changes_without_a_law_say_that_no_factor_can_be_given(
    job: Any, unlawful: Any, english: Wording
) -> None:
    pair = tuple(
        unlawful(Kind.TRIMMER, Circuit.SERVO_GAIN, number=n, where=w) for n, w in ((1, "VR1"), (2, "VR2"))
    )
    assert "no factor" in said(one(stacked, job(modifications=pair)), english)


def test_changes_that_need_not_meet_are_not_stacked(job: Any, unlawful: Any, modification: Any) -> None:
    pair = tuple(unlawful(Kind.MECHANICAL, Circuit.MECHANICS, number=n, now="shim") for n in (1, 2))
    assert told(stacked, job(modifications=(*pair, modification()))) == []


def test_an_added_part_far_below_its_rating_is_quiet(job: Any, modification: Any) -> None:
    # 80 mA x 6.8 ohm = 0.544 V across 15 ohm: 19.729 mW of 125 mW, 15.78 %.
    quiet = modification(power=Decimal("0.019729"), rating=Decimal("0.125"))
    unknown = modification(number=2, power=None, rating=Decimal("0.125"))
    unrated = modification(number=3, power=Decimal("0.02"), rating=None)
    assert told(part_load, job(modifications=(quiet, unknown, unrated))) == []


def test_half_a_rating_is_warm_and_more_than_all_is_a_stop(
    job: Any, modification: Any, english: Wording
) -> None:
    at_half = modification(power=Decimal("0.0625"), rating=Decimal("0.125"))
    assert told(part_load, job(modifications=(at_half,))) == []
    warm = one(part_load, job(modifications=(modification(power=Decimal("0.1"), rating=Decimal("0.125")),)))
    assert (warm.rule, warm.level) == ("part_warm", Level.CAUTION)
    assert said(warm, english) == "The part at R314 takes 100 mW of 125 mW (80.0 %)."
    at_all = one(
        part_load, job(modifications=(modification(power=Decimal("0.125"), rating=Decimal("0.125")),))
    )
    assert at_all.rule == "part_warm"
    # 1.2 V on 10 ohm: 144 mW = 115.2 % of 125 mW.
    over = one(part_load, job(modifications=(modification(power=Decimal("0.144"), rating=Decimal("0.125")),)))
    assert (over.rule, over.level) == ("part_over", Level.STOP)
    assert said(over, english) == "The part at R314 is overloaded: 144 mW of 125 mW (115.2 %)."
    big = one(part_load, job(modifications=(modification(power=Decimal("1.44"), rating=Decimal(1)),)))
    assert "1.44 W of 1.00 W" in said(big, english)


@pytest.mark.parametrize(
    ("now", "raised", "owner"),
    [
        ("9.4", False, False),
        ("9.45", False, False),
        ("9.5", True, False),
        ("9.9", True, False),
        ("10.2", True, True),
        ("8.0", True, True),
    ],
)
def test_a_moved_rail_is_a_caution_and_far_enough_the_owners(
    now: str, raised: bool, owner: bool, job: Any, unlawful: Any
) -> None:
    rail = unlawful(
        Kind.SUPPLY, Circuit.SUPPLY_RAIL, where="+9 V", maker_value=Decimal("9.0"), new_value=Decimal(now)
    )
    flags = told(supply_changed, job(modifications=(rail,)))
    assert bool(flags) is raised
    for flag in flags:
        assert flag.owner_sees is owner
        assert flag.needs is (Mark.OWNER if owner else None)


def test_the_moved_rail_says_its_numbers(
    job: Any, unlawful: Any, modification: Any, english: Wording
) -> None:
    rail = unlawful(
        Kind.SUPPLY, Circuit.SUPPLY_RAIL, where="+9 V", maker_value=Decimal("9.0"), new_value=Decimal("10.2")
    )
    unknown = unlawful(Kind.SUPPLY, Circuit.SUPPLY_RAIL, number=2, new_value=Decimal(5))
    no_value = unlawful(Kind.SUPPLY, Circuit.SUPPLY_RAIL, number=3, maker_value=Decimal(5))
    flag = one(supply_changed, job(modifications=(rail, unknown, no_value, modification(number=4))))
    assert said(flag, english) == "Rail +9 V is now 10.2 V, maker 9.0 V (+13.3 %)."
