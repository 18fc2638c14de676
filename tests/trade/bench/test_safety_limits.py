"""Limits of the safety test as the shop enters them."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.bench.safety_limits import PROPOSED, CordRule, SafetyLimits
from app.trade.bench.stages import MainsClass
from app.trade.refusal import FieldRefusal

D = Decimal

RULE = PROPOSED.protective_conductor
assert RULE is not None


@pytest.mark.parametrize(
    ("metres", "ohm"),
    [
        # EN 50678, from trade articles: 0.3 ohm up to 5 m, 0.1 more per further 7.5 m, 1.0 at most. That the 0.1
        # is granted for each 7.5 m that is started is our reading; the sources do not say.
        (None, "0.3"), ("0", "0.3"), ("5", "0.3"), ("5.1", "0.4"), ("12.5", "0.4"), ("12.6", "0.5"), ("20", "0.5"),
        ("57.5", "1.0"), ("80", "1.0"),
    ],
)  # fmt: skip
def test_protective_conductor_by_length_of_cord(metres: str | None, ohm: str) -> None:
    assert RULE.limit(None if metres is None else D(metres)) == D(ohm)


@pytest.mark.parametrize(
    ("metres", "mm2", "ohm"),
    [
        # Trade articles on EN 50678: R = l / (kappa A) and 0.1 ohm for contacts above 1.5 mm²; 56 and 0.1 from memory.
        ("2", "0.75", "0.3"), ("2", "1.5", "0.3"), ("2.8", "2.5", "0.12"), ("56", "2.5", "0.5"), (None, "2.5", "0.3"),
    ],
)  # fmt: skip
def test_a_thicker_cord_may_resist_less(metres: str | None, mm2: str, ohm: str) -> None:
    assert RULE.limit(None if metres is None else D(metres), D(mm2)) == D(ohm)


@given(st.decimals(0, 200, places=2), st.decimals(0, 200, places=2))
def test_a_longer_cord_never_gets_a_smaller_limit(one: D, other: D) -> None:
    assert RULE.limit(min(one, other)) <= RULE.limit(max(one, other)) <= D("1.0")


@pytest.mark.parametrize(
    "figures",
    [("-0.1", "5", "0.1", "7.5", "1"), ("0.3", "5", "0.1", "0", "1"), ("NaN", "5", "0.1", "7.5", "1")],
)
def test_figures_that_cannot_be_a_limit_are_refused(figures: tuple[str, ...]) -> None:
    with pytest.raises(FieldRefusal):
        CordRule(*(D(figure) for figure in figures))


def test_the_proposal_names_no_standard_so_it_passes_nothing_by_itself() -> None:
    assert not PROPOSED.named
    entered = SafetyLimits(" EN 50678 ", " 2020 ")
    assert entered.named
    assert entered.title == "EN 50678:2020"
    assert not SafetyLimits("EN 50678", " ").named


def test_insulation_by_class_and_the_stricter_one_when_the_class_is_not_known() -> None:
    # VDE 0701-0702:2008 by a tester manual: 1.0 Mohm in class I, 2 Mohm in class II.
    assert [PROPOSED.insulation(c) for c in (MainsClass.I, MainsClass.II, MainsClass.NOT_KNOWN)] == [
        D(1_000_000), D(2_000_000), D(2_000_000),
    ]  # fmt: skip
    half = SafetyLimits("x", "1", insulation_class_i=D(1_000_000))
    assert half.insulation(MainsClass.NOT_KNOWN) is None
    assert half.insulation(MainsClass.II) is None
