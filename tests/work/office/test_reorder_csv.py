"""The reorder list as CSV: text that runs nothing, numbers as numbers, and a file that is whole."""

from __future__ import annotations

import csv
from dataclasses import replace
from decimal import Decimal

import pytest

from app.trade.refusal import Refusal
from app.trade.upkeep.csv_text import Mark
from app.work.bench.work_done import use_part
from app.work.office.parts import PartEntry, save_part
from app.work.office.reorder_csv import COLUMNS, save_reorder_list
from app.work.office.reorder_list import reorder_list

BELT = PartEntry(code="B-22", words="=cmd|'/c calc'!A0", price=3_800_000, cost=1_250_000)


@pytest.fixture
def lines(bench):
    """One part to order, named to run in a spreadsheet."""
    save_part(bench.book, bench.who, BELT, part_id=bench.part)
    use_part(bench.book, bench.who, bench.job, bench.part, Decimal(8))
    return reorder_list(bench.book)


@pytest.mark.parametrize(("mark", "cost"), [(Mark.POINT, "36.25"), (Mark.COMMA, "36,25")])
def test_numbers_have_the_mark_and_no_text_runs(bench, lines, tmp_path, mark, cost):
    path = tmp_path / "order.csv"
    save_reorder_list(path, lines, "EUR", mark=mark)
    text = path.read_text(encoding="utf-8-sig")
    (row,) = csv.DictReader(text.splitlines(), delimiter=mark.separator)
    assert tuple(row) == COLUMNS
    assert row["part"] == "'=cmd|'/c calc'!A0"
    assert (row["order"], row["cost"], row["currency"]) == ("29", cost, "EUR")


def test_a_cost_that_is_not_known_stays_empty(bench, tmp_path):
    save_part(bench.book, bench.who, replace(BELT, cost=None), part_id=bench.part)
    path = tmp_path / "order.csv"
    save_reorder_list(path, reorder_list(bench.book, every=True), "EUR")
    (row,) = csv.DictReader(path.read_text(encoding="utf-8-sig").splitlines())
    assert (row["cost_each"], row["cost"]) == ("", "")


def test_a_file_that_cannot_be_written_is_refused_with_the_reason(lines, tmp_path):
    with pytest.raises(Refusal) as refusal:
        save_reorder_list(tmp_path / "no" / "order.csv", lines, "EUR")
    assert "No such file" in refusal.value.sentence.values["why"]
