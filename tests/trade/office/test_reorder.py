"""When a part is ordered again: the Poisson reorder point, and use as the moves tell it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.office.reorder import LOOK_BACK, Shelf, reorder, reorder_point

TODAY = date(2026, 11, 25)


def shelf(on_hand="3", used="12", days=LOOK_BACK, lead=30, service=9500):
    since = TODAY - timedelta(days=days - 1)
    return Shelf(Decimal(on_hand), Decimal(used), since, lead, service)


@pytest.mark.parametrize(
    ("mean", "service", "point"),
    # Reference: scipy.stats.poisson.ppf, as the trade reference lists it (section 5.6).
    [(0.5, 9500, 2), (1, 9500, 3), (2, 9500, 5), (4, 9500, 8), (5, 9500, 9), (5, 9900, 11)],
)
def test_the_reorder_points_of_the_table(mean, service, point):
    assert reorder_point(mean, service) == point


@given(
    mean=st.one_of(st.just(0.0), st.floats(1e-9, 2_000), st.integers(1, 200).map(float)),
    service=st.integers(1, 9999),
)
def test_it_is_the_quantile_that_another_library_gives(mean, service):
    from scipy.stats import poisson

    # Oracle: scipy.stats.poisson.ppf. At mean 0 it gives -1 or 0, and nothing is needed.
    assert reorder_point(mean, service) == (poisson.ppf(service / 10_000, mean) if mean else 0)


@given(mean=st.floats(0, 500), service=st.integers(1, 9999))
def test_one_less_would_not_do(mean, service):
    from scipy.stats import poisson

    point = reorder_point(mean, service)
    assert poisson.cdf(point, mean) >= service / 10_000
    assert point == 0 or poisson.cdf(point - 1, mean) < service / 10_000


@pytest.mark.parametrize("mean", [-0.1, float("nan"), float("inf")])
def test_no_reorder_point_without_a_mean(mean):
    with pytest.raises(ValueError, match="mean"):
        reorder_point(mean, 9500)


@pytest.mark.parametrize("service", [0, 10_000])
def test_no_stock_is_enough_for_every_case(service):
    with pytest.raises(ValueError, match="service"):
        reorder_point(1, service)


def test_one_a_month_with_a_month_of_waiting_is_ordered_at_three():
    found = reorder(shelf(used="12", lead=30), TODAY, lasts_days=90)
    assert round(found.per_month, 3) == Decimal("1.001")
    assert round(found.in_lead_time, 3) == Decimal("0.986")
    # Three months of use above the reorder point of 3: 3 + 2.96 - 3.
    assert (found.point, found.order) == (3, 3)


def test_one_more_on_hand_than_the_point_is_enough():
    assert reorder(shelf(on_hand="4"), TODAY, lasts_days=90).order == 0


def test_what_is_missing_is_ordered_as_well():
    assert reorder(shelf(on_hand="-2"), TODAY, lasts_days=90).order == 8


def test_what_is_never_used_is_not_ordered():
    found = reorder(shelf(on_hand="0", used="0"), TODAY, lasts_days=90)
    assert (found.point, found.order, found.per_month) == (0, 0, 0)


def test_more_put_back_than_fitted_is_no_use():
    assert reorder(shelf(on_hand="0", used="-1"), TODAY, lasts_days=90).per_month == 0


def test_a_new_part_is_not_taken_for_one_that_goes_every_day():
    found = reorder(shelf(used="1", days=1), TODAY, lasts_days=90)
    assert (found.seen, round(found.per_month, 2)) == (30, Decimal("1.01"))


def test_use_is_counted_over_the_days_since_its_first_move():
    assert reorder(shelf(days=100), TODAY, lasts_days=90).seen == 100
    assert reorder(shelf(days=3000), TODAY, lasts_days=90).seen == LOOK_BACK


def test_at_the_reorder_point_at_least_one_is_ordered():
    found = reorder(shelf(on_hand="1", used="12", lead=7, service=8000), TODAY, lasts_days=1)
    assert (found.point, found.order) == (1, 1)
    found = reorder(shelf(on_hand="1.9", used="30", lead=14, service=8000), TODAY, lasts_days=1)
    assert (found.point, found.order) == (2, 1)


def test_what_is_on_its_way_counts_as_what_is_there():
    # Mean 0.986 in the lead time: 3 meet 95 in 100 (scipy.stats.poisson.ppf, as in the table above).
    ordered = replace(shelf(on_hand="1"), on_order=Decimal(3))
    assert reorder(ordered, TODAY, lasts_days=90).order == 0
    too_few = replace(shelf(on_hand="1"), on_order=Decimal(2))
    assert reorder(too_few, TODAY, lasts_days=90).order == 3  # 3 + 2.96 - 3


@given(
    on_hand=st.integers(-20, 60),
    on_order=st.integers(0, 60),
    used=st.integers(1, 400),
    lead=st.integers(1, 365),
    service=st.sampled_from((8000, 9000, 9500, 9800, 9900)),
    lasts=st.integers(1, 730),
)
def test_an_order_fills_up_to_the_point_and_what_it_is_to_last(on_hand, on_order, used, lead, service, lasts):
    """Worked out a second way: in floats, with another library's quantile."""
    from scipy.stats import poisson

    a_year = replace(shelf(str(on_hand), str(used), lead=lead, service=service), on_order=Decimal(on_order))
    found = reorder(a_year, TODAY, lasts_days=lasts)
    point = poisson.ppf(service / 10_000, used * lead / 365)
    assert found.point == point
    if on_hand + on_order > point:
        assert found.order == 0
    else:
        there = on_hand + on_order + found.order
        assert there >= point + used * lasts / 365 - 1e-9
        assert found.order == 1 or there - 1 < point + used * lasts / 365 + 1e-9
