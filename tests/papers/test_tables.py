"""Tables: columns as wide as their content, heads on every page, rows whole."""

from __future__ import annotations

import pytest

from app.papers.flow import Flow
from app.papers.tables import Column, Head, Row, pour_table, table
from app.papers.text import RIGHT

COLUMNS = (Column("No", 8.0), Column("What"), Column("Qty", 15.0, decimal=True), Column("Net", 20.0, RIGHT))


def rows(count: int, what: str = "thing") -> list[tuple[str, ...]]:
    return [(str(number), what, "1", "1.00") for number in range(1, count + 1)]


def poured(count: int, height: float = 60.0, **rest: object) -> Flow:
    flow = Flow(10, 120, 10, 10, 10 + height)
    pour_table(flow, table(COLUMNS, rows(count), 120), **rest)  # type: ignore[arg-type]
    return flow


def kinds(flow: Flow) -> list[list[str]]:
    return [[type(placed.block).__name__ for placed in page.placed] for page in flow.pages]


def test_the_head_repeats_on_every_page() -> None:
    for page in poured(40).pages:
        assert isinstance(page.placed[0].block, Head)


def test_every_row_stands_once() -> None:
    placed = [one.block for page in poured(40).pages for one in page.placed if isinstance(one.block, Row)]
    assert len(placed) == 40


def test_a_head_is_never_alone_with_one_row() -> None:
    flow = Flow(10, 120, 40, 10, 60)
    pour_table(flow, table(COLUMNS, rows(5), 120), above=2.0)
    assert kinds(flow)[0] == []
    assert kinds(flow)[1][:3] == ["Head", "Row", "Row"]


def test_what_is_carried_is_said_under_the_last_row_of_each_page_but_the_last() -> None:
    told: list[int] = []

    def carried(count: int) -> str:
        told.append(count)
        return f"carried {count}"

    flow = poured(20, carried=carried)
    assert len(told) == len(flow.pages) - 1
    assert told == sorted(told)
    for page in flow.pages[:-1]:
        assert page.placed[-1].top + page.placed[-1].block.height <= flow.bottom
    assert "TextBlock" not in kinds(flow)[-1]


def test_the_last_row_takes_what_follows_with_it() -> None:
    for count in range(1, 20):
        flow = poured(count, tail=30.0)
        assert flow.room >= 30.0 - 0.01
        assert "Row" in kinds(flow)[-1]


def test_no_page_begins_with_the_last_row_alone() -> None:
    for tail in (0.0, 10.0):
        for count in range(3, 20):
            pages = kinds(poured(count, tail=tail))
            assert len(pages) == 1 or pages[-1].count("Row") >= 2, (count, pages)


def test_rows_that_belong_together_stand_on_one_page_where_it_has_room() -> None:
    flow = Flow(10, 120, 40, 10, 60)
    pour_table(flow, table(COLUMNS, rows(4), 120), tail=5.0, together=True)
    assert kinds(flow) == [[], ["Head", "Row", "Row", "Row", "Row"]]
    many = poured(40, together=True)
    assert len(many.pages) > 1


def test_a_tail_that_fits_no_page_does_not_push_rows_about() -> None:
    assert kinds(poured(3, tail=500.0)) == [["Head", "Row", "Row", "Row"]]


def test_a_row_higher_than_a_page_goes_on_with_its_head_above() -> None:
    flow = Flow(10, 120, 10, 10, 70)
    content = table(COLUMNS, [("1", "word " * 400, "1", "1.00"), *rows(2)], 120)
    pour_table(flow, content, carried=lambda count: f"carried {count}")
    assert len(flow.pages) > 2
    heights = [sum(one.block.height for one in page.placed) for page in flow.pages]
    assert max(heights) <= 60.01
    lines = sum(len(row.cells[1][1].lines) for page in flow.pages for row in _rows(page.placed))
    assert lines == sum(len(row.cells[1][1].lines) for row in content.rows)


def _rows(placed: list[object]) -> list[Row]:
    return [one.block for one in placed if isinstance(one.block, Row)]  # type: ignore[attr-defined]


def test_columns_grow_with_their_content_and_the_open_column_gives() -> None:
    narrow = table(COLUMNS, rows(1), 120).rows[0].cells
    wide = table(COLUMNS, [("1", "thing", "1234567.125", "123 456 789.00")], 120).rows[0].cells
    assert wide[1][1].width < narrow[1][1].width
    ends = [cells[3][0] + cells[3][1].width for cells in (wide, narrow)]
    assert ends == pytest.approx([120, 120])  # the right edge stays


def test_decimal_marks_stand_under_each_other() -> None:
    made = table(COLUMNS, [("1", "a", "2.25", "1"), ("2", "b", "100", "1"), ("3", "c", "0,5", "1")], 120).rows
    ends = [across + block.width for across, block in (row.cells[2] for row in made)]
    assert ends[0] > ends[2] > ends[1]
