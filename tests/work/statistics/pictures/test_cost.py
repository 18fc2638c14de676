"""What comebacks cost, drawn."""

from __future__ import annotations

from decimal import Decimal

import pytest

from app.trade.bench.stages import Outcome
from app.trade.money import Money
from app.work.statistics.cost import CostRow, UnrepairedRow, cost
from app.work.statistics.pictures.cost import panels_of_cost
from app.work.statistics.question import Question


def row(label, hours, parts, lost):
    jobs = tuple(range(1, 3))
    return CostRow(label, label, 2, Decimal(hours), Money(parts, "EUR"), Money(lost, "EUR"), jobs)


@pytest.fixture
def answered(past):
    from dataclasses import replace

    answer = cost(past.shop.book, Question())
    return lambda rows, unrepaired=(): replace(answer, rows=rows, unrepaired=unrepaired)


def test_each_sum_has_a_panel_with_its_largest_on_top(answered, sound):
    panels = sound(panels_of_cost(answered((row("a", "1.5", 900, 20000), row("b", "4", 100, 10050)))))
    lost, hours, parts = panels
    assert [(bar.key, bar.value) for bar in lost.bars] == [("a", 200.0), ("b", 100.5)]
    assert [(bar.key, bar.value) for bar in hours.bars] == [("b", 4.0), ("a", 1.5)]
    assert [(bar.key, bar.value) for bar in parts.bars] == [("a", 9.0), ("b", 1.0)]
    assert lost.axis.name.values["currency"] == "EUR"
    assert lost.bars[0].beside.values["value"] == Money(20000, "EUR")
    assert lost.bars[0].jobs == (1, 2)


def test_hundreds_of_groups_are_cut_and_it_is_said(answered, sound):
    rows = tuple(row(f"type {at}", "1", 1, 300 - at) for at in range(300))
    lost = sound(panels_of_cost(answered(rows)))[0]
    assert len(lost.bars) == 20
    assert lost.title.values["all"] == 300


def test_a_panel_in_which_all_is_nothing_is_left_out(answered, sound):
    ended = UnrepairedRow(Outcome.DECLINED, 3, Decimal(0), Decimal(0), Decimal(3), (4, 5, 6))
    panels = sound(panels_of_cost(answered((row("a", "1.5", 0, 20000),), (ended,))))
    assert [panel.title.key for panel in panels] == ["Guarantee work: charges lost", "Guarantee work: hours"]


def test_jobs_not_repaired_stand_by_how_they_ended(answered, sound):
    ended = UnrepairedRow(Outcome.DECLINED, 3, Decimal("2.75"), Decimal("0.75"), Decimal(4), (4, 5, 6))
    (panel,) = sound(panels_of_cost(answered((), (ended,))))
    assert [(bar.key, bar.value, bar.jobs) for bar in panel.bars] == [("declined", 0.75, (4, 5, 6))]
