"""Effects of changed resistors. Worked sums: common practice, no source, except where one is named."""

from datetime import UTC
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.bench.effects import (
    Change,
    Part,
    ResistorEffect,
    current_shares,
    law_sentence,
    non_inverting_ratio,
    parallel,
    ratio_effect,
    replaced,
    resistor_effect,
    series,
    stacked,
    voltage_driven_ratio,
)
from app.trade.bench.modifications import Kind, Law
from app.trade.refusal import FieldRefusal
from app.trade.wording import plain

D = Decimal

SAY = plain(UTC)
MAKER = Part(D("6.8"), D(5))


def near(value: D | None, expected: float, within: float = 5e-7) -> bool:
    return value is not None and float(value) == pytest.approx(expected, abs=within)


def test_4_7_ohm_across_a_current_setting_3_3_ohm() -> None:
    found = parallel(Law.CURRENT, Part(D("3.3")), Part(D("4.7")))
    assert found.now == D("1.93875")
    assert found.effect is not None
    assert near(found.ratio, 1.7021, 5e-5)
    assert near(found.effect.heat, 2.8972, 5e-5)


def test_parallel_raises_current_gain_and_heat() -> None:
    found = parallel(Law.CURRENT, MAKER, Part(D(15)))
    assert found.effect is not None
    assert near(found.now, 4.678899)
    assert near(found.ratio, 1.453333)
    assert near(found.effect.gain_db, 3.2473, 5e-5)
    assert near(found.effect.heat, 2.112178)
    assert [
        near(share, e) for share, e in zip(current_shares(D("6.8"), D(15)), (0.688073, 0.311927), strict=True)
    ] == [True, True]


def test_2_2_ohm_with_5_6_ohm_across() -> None:
    found = parallel(Law.CURRENT, Part(D("2.2"), D(5)), Part(D("5.6"), D(5)))
    assert found.effect is not None
    assert found.spread is not None
    assert near(found.now, 1.579487)
    assert near(found.ratio, 1.392857)
    assert near(found.effect.gain_db, 2.88, 5e-3)
    assert near(found.effect.heat, 1.940051)
    assert near(found.spread.low, 1.500513)
    assert near(found.spread.high, 1.658462)
    assert near(found.spread.likely_percent, 3.8568, 5e-5)
    assert near(found.spread.likely_high - found.now, 0.06092, 5e-6)


def test_tolerances_as_worst_case_and_as_root_sum_square() -> None:
    both = parallel(Law.CURRENT, MAKER, Part(D(15), D(5)))
    assert both.spread is not None
    assert both.ratio_spread is not None
    assert near(both.spread.low, 4.444954)
    assert near(both.spread.high, 4.912844)
    assert near(both.spread.likely_percent, 3.7774, 5e-5)
    assert near(both.ratio_spread.low, 1.410159)
    assert near(both.ratio_spread.high, 1.501053)
    finer = parallel(Law.CURRENT, MAKER, Part(D(15), D(1)))
    assert finer.spread is not None
    assert near(finer.spread.low, 4.501689)
    assert near(finer.spread.high, 4.852894, 6e-7)
    assert near(100 * (finer.spread.low / finer.now - 1), -3.7874, 5e-5)
    assert near(100 * (finer.spread.high / finer.now - 1), 3.7187, 5e-5)
    assert near(finer.spread.likely_percent, 3.4545, 5e-5)


def test_replaced_with_its_spread() -> None:
    found = replaced(Law.CURRENT, MAKER, Part(D("5.6"), D(5)))
    assert found.effect is not None
    assert found.ratio_spread is not None
    assert near(found.ratio, 1.214286)
    assert near(found.effect.gain_db, 1.6864, 5e-5)
    assert near(found.effect.heat, 1.474490)
    assert near(found.ratio_spread.low, 1.099, 5e-4)
    assert near(found.ratio_spread.high, 1.342, 5e-4)
    assert near(found.ratio_spread.likely_low, 1.128, 5e-4)
    assert near(found.ratio_spread.likely_high, 1.300, 5e-4)
    assert SAY(found.summary) == "Current ×1.214, loop gain +1.69\u00a0dB, coil heat ×1.474"


def test_stacked_parts_count_against_the_makers_value_and_multiply() -> None:
    added = [Change(Kind.PARALLEL, Part(D(15))), Change(Kind.PARALLEL, Part(D(33)))]
    found = resistor_effect(Law.CURRENT, MAKER, added)
    assert found.effect is not None
    assert near(found.now, 4.097882)
    assert near(found.ratio, 1.659394)
    assert near(found.effect.heat, 2.753588)
    assert [near(step, e) for step, e in zip(found.steps, (1.453333, 1.141785), strict=True)] == [True, True]
    assert found.spread is None  # the tolerance of the added parts is not known
    assert found.ratio_spread is None
    assert near(stacked(Law.CURRENT, found.steps).ratio, 1.659394)


def test_two_found_across_8_2_ohm_and_one_taken_out_again() -> None:
    both = [Change(Kind.PARALLEL, Part(D(22))), Change(Kind.PARALLEL, Part(D(39)))]
    found = resistor_effect(Law.CURRENT, Part(D("8.2")), both)
    assert found.effect is not None
    assert near(found.now, 5.180091)
    assert near(found.ratio, 1.582984)
    assert near(found.effect.heat, 2.505837)
    assert near(parallel(Law.CURRENT, Part(D("8.2")), Part(D(22))).ratio, 1.372727)


def test_series_lowers_the_current() -> None:
    found = series(Law.CURRENT, Part(D("6.8"), D(5)), Part(D("1.5"), D(5)))
    assert found.effect is not None
    assert near(found.ratio, 0.819277)
    assert near(found.effect.heat, 0.671215)
    assert found.spread is not None
    assert near(found.spread.low, 8.3 * 0.95)
    assert near(found.spread.likely_percent, 5 * (6.8**2 + 1.5**2) ** 0.5 / 8.3)


def test_the_last_replacement_is_the_base_and_the_others_act_on_it() -> None:
    changes = [
        Change(Kind.REPLACED, Part(D("6.2"), D(1))),
        Change(Kind.PARALLEL, Part(D(15), D(1))),
        Change(Kind.REPLACED, Part(D("5.6"), D(1))),
    ]
    found = resistor_effect(Law.CURRENT, MAKER, changes)
    assert near(found.now, 5.6 * 15 / 20.6)
    assert found.spread is not None
    assert near(found.spread.low, 5.6 * 15 / 20.6 * 0.99)  # the parts that are out add nothing


def test_gain_goes_as_the_feedback_resistor() -> None:
    found = parallel(Law.GAIN, Part(D(47000), D(1)), Part(D(180000), D(1)))
    assert found.effect is not None
    assert near(found.now, 37268.7, 0.05)
    assert near(found.ratio, 0.792952)
    assert found.effect.heat is None
    assert SAY(found.summary) == "Gain ×0.793, loop gain −2.02\u00a0dB"
    assert found.ratio_spread is not None
    # k = R1/(R + R1): worst corners R high with R1 low, and the other way round.
    assert near(found.ratio_spread.low, 178.2 / (178.2 + 47.47), 5e-6)
    assert near(found.ratio_spread.high, 181.8 / (181.8 + 46.53), 5e-6)
    assert near(replaced(Law.GAIN, Part(D(47)), Part(D(56))).ratio, 1.191489)
    assert near(ratio_effect(Law.GAIN, D(56) / 47).gain_db, 1.5218, 5e-5)


@pytest.mark.parametrize(("k", "db"), [("1.10", 0.8279), ("1.214286", 1.6864), ("1.50", 3.5218)])
def test_loop_gain_in_decibel(k: str, db: float) -> None:
    assert near(ratio_effect(Law.CURRENT, D(k)).gain_db, db, 5e-5)


def test_where_no_law_holds_no_ratio_is_shown() -> None:
    found = parallel(Law.NEITHER, MAKER, Part(D(15), D(5)))
    assert (found.ratio, found.effect, found.ratio_spread) == (None, None, None)
    assert found.spread is not None
    assert near(found.resistance, 0.688073)
    assert near(found.steps[0], 0.688073)
    assert SAY(found.summary) == "No law holds here: readings before and after decide."
    # What the law would have claimed, and what really happens.
    assert near(voltage_driven_ratio(D("6.8"), D("4.678899"), D(14)), 1.113556)
    assert near(non_inverting_ratio(D(47), D(56), D(10)), 1.157895)
    assert near(20 * non_inverting_ratio(D(47), D(56), D(10)).log10(), 1.2734, 5e-5)
    with pytest.raises(ValueError):
        ratio_effect(Law.NEITHER, D(1))


def test_the_law_is_said_before_any_number() -> None:
    assert [SAY(law_sentence(law, "R314")) for law in Law] == [
        "the current goes as 1 / R314",
        "the gain goes as R314",
        "no law holds for R314: readings decide",
    ]


def test_a_ratio_on_the_line_is_exactly_on_it() -> None:
    # 10 ohm across 1 ohm is 1.1 and not a hair more: no caution at 1.10.
    assert parallel(Law.CURRENT, Part(D(1)), Part(D(10))).ratio == D("1.1")


@pytest.mark.parametrize("ohms", ["0", "-1", "NaN", "Infinity"])
def test_what_is_no_resistance_is_refused_under_its_field(ohms: str) -> None:
    with pytest.raises(FieldRefusal) as refused:
        parallel(Law.CURRENT, Part(D(ohms)), Part(D(1)))
    assert list(refused.value.fields) == ["maker"]
    with pytest.raises(FieldRefusal) as refused:
        parallel(Law.CURRENT, Part(D(1)), Part(D(ohms)))
    assert list(refused.value.fields) == ["part"]
    with pytest.raises(FieldRefusal):
        ratio_effect(Law.CURRENT, D(ohms))


def test_only_changes_of_a_resistor_have_such_an_effect() -> None:
    with pytest.raises(ValueError):
        Change(Kind.TRIMMER, MAKER)


_OHMS = st.decimals("0.1", "1000", places=2)
_CHANGES = st.lists(
    st.builds(
        Change,
        st.sampled_from([Kind.PARALLEL, Kind.SERIES, Kind.REPLACED]),
        st.builds(Part, _OHMS, st.sampled_from([D(1), D(5), D(10)])),
    ),
    max_size=4,
)


@given(_OHMS, _CHANGES, st.sampled_from([Law.CURRENT, Law.GAIN]))
def test_steps_multiply_to_the_whole_and_spreads_hold_it(maker: D, changes: list[Change], law: Law) -> None:
    found: ResistorEffect = resistor_effect(law, Part(maker, D(5)), changes)
    assert found.ratio is not None
    assert float(stacked(law, found.steps).ratio) == pytest.approx(float(found.ratio))
    for figure, spread in ((found.now, found.spread), (found.ratio, found.ratio_spread)):
        assert spread is not None
        assert spread.low <= figure * (1 + D("1e-25"))
        assert spread.high >= figure * (1 - D("1e-25"))
        assert spread.likely_low >= spread.low * D(
            "0.98"
        )  # independent parts spread less than the worst case
        assert spread.likely_high <= spread.high * D("1.02")
