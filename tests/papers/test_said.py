"""Facts in words on paper."""

from __future__ import annotations

from decimal import Decimal

import pytest

from app.papers.facts import Said
from app.papers.said import opening, unit_price
from app.trade.sentence import Measure, Sentence
from tests.papers.story import ENGLISH


@pytest.mark.parametrize(
    ("said", "printed"),
    [
        (Sentence("driver temperature"), "Driver temperature"),
        (Sentence("{name}, {minutes} min warm", {"name": Sentence("driver temperature"), "minutes": "30"}),
         "Driver temperature, 30 min warm"),
        (Sentence("{kind} at {where}", {"kind": "wiring", "where": "the plug"}), "wiring at the plug"),
        (Sentence("{new} across", {"new": Measure(Decimal(22), "x")}), "22\u00a0x across"),
        ("as typed", "as typed"),
        ("", ""),
    ],
)  # fmt: skip
def test_a_line_begins_with_a_capital_unless_a_person_wrote_it(said: Said, printed: str) -> None:
    assert opening(said, ENGLISH) == printed


@pytest.mark.parametrize(
    ("each", "quantity", "currency", "printed"),
    [
        ("6.504673", "1", "EUR", "6.50"),  # 6.96 with 7 % VAT
        ("6.504673", "2", "EUR", "6.505"),  # 13.01 for two; 6.50 would say 13.00
        ("6.504673", "1000", "EUR", "6.50467"),  # 6504.67
        ("0.0125", "1", "EUR", "0.0125"),  # as a person typed it
        ("62", "2.25", "EUR", "62"),
        ("840336134.453782", "1", "EUR", "840\u202f336\u202f134.45"),
        ("1.680672", "1", "JPY", "2"),
        ("1.680672", None, "KWD", "1.681"),
    ],
)
def test_a_price_of_one_is_as_long_as_its_line_needs(
    each: str, quantity: str | None, currency: str, printed: str
) -> None:
    many = None if quantity is None else Decimal(quantity)
    assert unit_price(Decimal(each), many, currency, ENGLISH) == printed
