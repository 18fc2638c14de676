"""Answers as plain data."""

from __future__ import annotations

from datetime import UTC, date
from decimal import Decimal
from types import MappingProxyType

from app.trade.bench.kinds import FaultGroup
from app.trade.money import Money
from app.trade.sentence import Sentence
from app.trade.wording import plain
from app.work.statistics.as_data import as_data, as_rows
from app.work.statistics.how_long import how_long
from app.work.statistics.question import Question


def test_every_kind_of_value_becomes_plain():
    value = MappingProxyType(
        {
            "words": Sentence("{n} jobs", {"n": 3}),
            "money": Money(12_50, "EUR"),
            "group": FaultGroup.LIGHT,
            "hours": Decimal("1.5"),
            "day": date(2026, 3, 12),
            "all": (1, 2.5, True, None, "text"),
        }
    )
    assert as_data(value, plain(UTC)) == {
        "words": "3 jobs",
        "money": "12.50",
        "group": "light",
        "hours": "1.5",
        "day": "2026-03-12",
        "all": [1, 2.5, True, None, "text"],
    }


def test_rows_hold_one_cell_for_each_head_and_leave_curves_out(past):
    unit = past.unit()
    jobs = [past.job(unit, 410, 400, group="sound"), past.job(past.unit(), 410, 400)]
    heads, (row,) = as_rows(how_long(past.shop.book, Question()), plain(UTC))
    cells = dict(zip(heads, row, strict=True))
    assert (cells["label"], cells["n"], cells["few"]) == ("Velk A1", 2, "yes")
    assert sorted(map(int, cells["jobs"].split())) == jobs
    assert "curve" not in cells
