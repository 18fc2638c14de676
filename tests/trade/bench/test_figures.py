"""How worked-out figures are rounded."""

from decimal import Decimal
from fractions import Fraction

import pytest

from app.trade.bench.figures import alike, as_decimal, rounded, shown_u, significant, trimmed

D = Decimal


@pytest.mark.parametrize(
    ("value", "places", "said"),
    [("1.2142857", 3, "1.214"), ("0.0005", 3, "0.001"), ("-0.0005", 3, "-0.001"), ("12345", -2, "1.23E+4")],
)
def test_rounds_half_away_from_zero(value: str, places: int, said: str) -> None:
    assert str(rounded(D(value), places)) == said


@pytest.mark.parametrize(
    ("value", "said"),
    [("19.729", "19.7"), ("144", "144"), ("1234.5", "1235"), ("0.0216", "0.0216"), ("0", "0")],
)
def test_keeps_three_figures_and_always_the_whole_part(value: str, said: str) -> None:
    assert str(significant(D(value), 3)) == said


def test_a_fraction_that_ends_becomes_exact() -> None:
    assert as_decimal(Fraction(11, 10)) == D("1.1")


@pytest.mark.parametrize(
    ("value", "said"),
    [
        ("2.000000", "2.0"),
        ("0.3", "0.3"),
        ("0.125", "0.125"),
        ("0.1250", "0.125"),
        ("2", "2"),
        ("2E+6", "2E+6"),
    ],
)
def test_zeros_at_the_end_are_trimmed_but_nothing_is_rounded(value: str, said: str) -> None:
    assert str(trimmed(D(value), 1)) == said


@pytest.mark.parametrize(
    ("u", "said"),
    [("0.0423", "0.04"), ("0.0123", "0.012"), ("0.25", "0.25"), ("3.6", "4"), ("17.2", "17"), ("320", "320")],
)
def test_an_uncertainty_has_one_figure_and_two_where_the_first_is_small(u: str, said: str) -> None:
    assert str(shown_u(D(u))) == said


def test_no_uncertainty_is_said_where_there_is_none() -> None:
    assert shown_u(None) is None
    assert shown_u(D(0)) is None


def test_both_ends_of_a_limit_have_as_many_decimals() -> None:
    assert [str(end) for end in alike([D("0.8"), D("1.25")])] == ["0.80", "1.25"]
    assert [str(end) for end in alike([D("7.600"), D("8.4")])] == ["7.6", "8.4"]
    assert [str(end) for end in alike([D("1E+2")])] == ["100"]
    assert alike([]) == []
