"""An invoice from which everything was taken off asks for nothing, to the cent."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from app.trade.money import MICRO
from app.trade.office.invoice import Adjustment, Draft, Line, LineKind, net_of, work_out

PRICES = st.integers(1, 2000).map(lambda cents: cents * 10_000)


def typed_with_vat(price: int, rate: int, quantity: int) -> Line:
    return Line("x", LineKind.FEE, quantity * MICRO, "C62", net_of(price, rate), rate, price_with_vat=price)


@given(
    st.lists(st.tuples(PRICES, st.sampled_from([1900, 700, 2100]), st.integers(1, 9)), min_size=1, max_size=9)
)
def test_nothing_is_asked_for_when_each_group_is_taken_off(lines: list[tuple[int, int, int]]) -> None:
    draft = Draft("EUR", tuple(typed_with_vat(*line) for line in lines))
    off = tuple(
        Adjustment(group.base.minor, "guarantee", group.rate, group.category)
        for group in work_out(draft).groups
        if group.base.minor
    )
    totals = work_out(replace(draft, discounts=off))
    assert (totals.gross.minor, totals.rounding.minor, totals.due.minor) == (0, 0, 0)


def test_a_price_that_cannot_be_restored_leaves_no_cent_behind() -> None:
    """0.09 with VAT at 19 % is 0.0756 net, which charges 0.08, and 0.10 with VAT again (by hand)."""
    draft = Draft("EUR", (typed_with_vat(90_000, 1900, 1),))
    base = work_out(draft).groups[0].base.minor
    assert work_out(draft).gross.minor == 10  # of 0.08 net
    assert work_out(draft).rounding.minor == -1
    free = work_out(replace(draft, discounts=(Adjustment(base, "guarantee", 1900),)))
    assert (free.rounding.minor, free.due.minor) == (0, 0)
