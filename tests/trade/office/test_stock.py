"""Moves of parts: how many can be moved, and that every kind goes one way."""

from __future__ import annotations

from decimal import Decimal

import pytest

from app.trade.office.stock import INTO_STOCK, OUT_OF_STOCK, MoveKind, quantity_refused


@pytest.mark.parametrize("kind", list(MoveKind))
@pytest.mark.parametrize("quantity", ["0", "-1", "1000000.000001"])
def test_nothing_less_than_nothing_and_no_millions_are_moved(kind, quantity):
    assert quantity_refused(kind, Decimal(quantity), Decimal(5)) is not None


def test_what_is_not_there_cannot_be_scrapped_or_sent_back():
    for kind in (MoveKind.SCRAPPED, MoveKind.SENT_BACK):
        assert quantity_refused(kind, Decimal(6), Decimal(5)) is not None
        assert quantity_refused(kind, Decimal(5), Decimal(5)) is None


def test_what_was_fitted_was_there_whatever_the_book_says():
    assert quantity_refused(MoveKind.USED, Decimal(6), Decimal(5)) is None


def test_every_kind_goes_one_way_but_a_count():
    assert not INTO_STOCK & OUT_OF_STOCK
    assert set(MoveKind) - {MoveKind.COUNTED} == INTO_STOCK | OUT_OF_STOCK
