"""Case, parts, labour, notes and files."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from app.trade.bench.stages import CaseStep
from app.trade.money import Money
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.settings.prices import HOURLY_RATE
from app.work.bench.strike_out import strike_out
from app.work.bench.work_done import add_note, note_case, put_part_back, record_labour, use_part
from app.work.office.parts import PartEntry, save_part
from app.work.office.settings import change_settings
from app.work.office.stock import receive_part


@pytest.fixture
def belt(bench: Any) -> int:
    """Ten belts in stock at 3.50 net."""
    part = save_part(
        bench.book, bench.shop.ine, PartEntry(code="B-112", words="loading belt", price=3_500_000)
    ).value
    receive_part(bench.book, bench.shop.ine, part, Decimal(10))
    return int(part)


def test_a_part_used_leaves_the_stock_and_opens_the_case(bench: Any, belt: int) -> None:
    used = use_part(bench.book, bench.tobbe, bench.job, belt, Decimal(2)).value
    assert used.on_hand == 8
    assert used.assumed is not None
    line = bench.sheet.work[0]
    assert (line.kind, line.words, line.quantity, line.net) == ("part", "loading belt", 2, Money(700, "EUR"))


def test_a_part_put_back_is_a_move_of_its_own(bench: Any, belt: int) -> None:
    used = use_part(bench.book, bench.tobbe, bench.job, belt, Decimal(1)).value
    put_part_back(bench.book, bench.tobbe, used.id)
    assert [line.quantity for line in bench.sheet.work] == [1, -1]
    assert bench.sheet.work_so_far == Money(0, "EUR")
    with pytest.raises(Refusal):
        put_part_back(bench.book, bench.tobbe, used.id)
    with pytest.raises(Refusal):
        put_part_back(bench.book, bench.tobbe, used.id + 1)


@pytest.mark.parametrize("quantity", [Decimal(0), Decimal(-1), Decimal(20_000)])
def test_how_many_is_more_than_none(bench: Any, belt: int, quantity: Decimal) -> None:
    with pytest.raises(FieldRefusal):
        use_part(bench.book, bench.tobbe, bench.job, belt, quantity)


def test_time_is_charged_at_the_rate_of_its_day(bench: Any) -> None:
    change_settings(bench.book, bench.shop.ine, {HOURLY_RATE: 60_000_000})
    record_labour(bench.book, bench.tobbe, bench.job, "Arm freed", Decimal("1.5"))
    change_settings(bench.book, bench.shop.ine, {HOURLY_RATE: 80_000_000})
    record_labour(
        bench.book, bench.tobbe, bench.job, "Looked again, our own fault", Decimal(1), charged=False
    )
    charged, free = bench.sheet.work
    assert (charged.net, free.net) == (Money(9000, "EUR"), Money(0, "EUR"))
    # 90.00 net at 19 % is 107.10
    assert bench.sheet.work_so_far == Money(10710, "EUR")
    strike_out(bench.book, bench.tobbe, "labour", charged.id, "on the wrong job")
    assert bench.sheet.work_so_far == Money(0, "EUR")


@pytest.mark.parametrize(("words", "hours", "field"), [("", Decimal(1), "words"), ("x", Decimal(0), "hours")])
def test_time_says_what_and_how_long(bench: Any, words: str, hours: Decimal, field: str) -> None:
    with pytest.raises(FieldRefusal) as refused:
        record_labour(bench.book, bench.tobbe, bench.job, words, hours)
    assert field in refused.value.fields


def test_the_case_is_opened_and_closed_once_each(bench: Any) -> None:
    note_case(bench.book, bench.tobbe, bench.job, CaseStep.OPENED)
    with pytest.raises(Refusal):
        note_case(bench.book, bench.tobbe, bench.job, CaseStep.OPENED)
    assert bench.sheet.case_open
    note_case(bench.book, bench.tobbe, bench.job, CaseStep.CLOSED)
    with pytest.raises(Refusal):
        note_case(bench.book, bench.tobbe, bench.job, CaseStep.CLOSED)
    assert [event.opened for event in bench.sheet.case_events] == [True, False]


def test_a_note_is_kept_and_an_empty_one_refused(bench: Any) -> None:
    add_note(bench.book, bench.tobbe, bench.job, "Old grease on the <rail> & arm")
    assert bench.sheet.notes[0].text == "Old grease on the <rail> & arm"
    with pytest.raises(FieldRefusal):
        add_note(bench.book, bench.tobbe, bench.job, " ")
