"""Why a verdict is what it is: guard band and probability of conforming."""

from __future__ import annotations

from decimal import Decimal

import pytest

from app.trade.bench.guard_band import guard_words
from app.trade.bench.verdict import Limit, judge
from app.trade.sentence import Measure

D = Decimal


def test_what_lies_astride_its_limit_says_where_it_had_to_lie_and_its_chance() -> None:
    # 30.4 mA against at most 30, u 1.3015: p .379; common practice, no source.
    p = judge(D("30.4"), D("1.3015"), Limit(None, D(30))).probability
    band, chance = guard_words(None, D(30), D("1.3015"), p, "mA")
    assert band.key == "Guard band {guard} (k = {k}): called within up to {most}."
    assert dict(band.values) == {"guard": Measure(D("2.6"), "mA"), "k": 2, "most": Measure(D("27.4"), "mA")}
    assert chance.values["p"] == D("0.379")


def test_both_limits_are_drawn_in_and_one_alone_is_too() -> None:
    both, _ = guard_words(D("0.80"), D("1.40"), D("0.03"), 0.5, "V")
    assert (both.values["least"], both.values["most"]) == (
        Measure(D("0.860"), "V"),
        Measure(D("1.340"), "V"),
    )
    low, _ = guard_words(D("0.5"), None, D("0.1"), 0.5, "mm")
    assert low.values["least"] == Measure(D("0.70"), "mm")
    assert "most" not in low.values


def test_a_band_wider_than_the_limits_leaves_nothing_to_call_within() -> None:
    band, _ = guard_words(D(-1), D(1), D(2), 0.38, "mV")
    assert "fills the limits" in band.key


def test_a_band_of_whole_figures_is_said_in_whole_figures() -> None:
    band, _ = guard_words(None, D(300), D(31), 0.4, "1/s")
    assert (band.values["guard"], band.values["most"]) == (Measure(D(62), "1/s"), Measure(D(238), "1/s"))


@pytest.mark.parametrize(
    ("p", "key", "said"),
    [
        (0.00001, "Probability of conforming under {p}.", "0.001"),
        (0.99999, "Probability of conforming over {p}.", "0.999"),
        (0.0, "Probability of conforming {p}.", "0.000"),
        (1.0, "Probability of conforming {p}.", "1.000"),
        # JCGM 106, breakdown voltage: y -5.47, u 0.05, limit -5.40 gives 0.92 (inputs from memory).
        (judge(D("-5.47"), D("0.05"), Limit(None, D("-5.40"))).probability, "Probability of conforming {p}.", "0.919"),
        # JCGM 106, viscosity 13.6, u 1.8, 12.5 to 16.3: 0.66 (inputs from memory).
        (judge(D("13.6"), D("1.8"), Limit(D("12.5"), D("16.3"))).probability, "Probability of conforming {p}.", "0.663"),
    ],
)  # fmt: skip
def test_the_chance_is_said_with_three_figures_and_never_as_certain_when_it_is_not(
    p: float, key: str, said: str
) -> None:
    (chance,) = guard_words(None, D(1), D(0), p, "V")
    assert (chance.key, chance.values["p"]) == (key, D(said))


def test_a_bare_bound_has_no_chance_to_tell() -> None:
    assert guard_words(None, D(1), D(0), None, "V") == ()
