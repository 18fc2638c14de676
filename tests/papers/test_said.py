"""Facts in words on paper."""

from __future__ import annotations

from decimal import Decimal

import pytest

from app.papers.facts import Said
from app.papers.said import opening
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
