"""A page's table in words for paper, and the action that prints it."""

from __future__ import annotations

from typing import Any

import pytest

from app.screens.actions import act
from app.screens.kit.cells import Cell, Drawing, Figure, Flags, Group, Link, Row, Stage, Two, Words
from app.screens.printed_list import MOST, lines_of, printing, words_of


@pytest.mark.parametrize(
    ("cell", "words"),
    [
        (None, ""),
        (Words("Quellmar Larch 2", "0420 158"), "Quellmar Larch 2, 0420 158"),
        (Words("1 modification", before="caution"), "caution: 1 modification"),
        (Words("", before="caution"), ""),
        (Figure("12.50", "EUR"), "12.50\u00a0EUR"),
        (Figure("3"), "3"),
        (Link("2131", 7, "25 Nov 2026"), "2131, 25 Nov 2026"),
        (Stage(1, "on the bench", "waiting for part"), "on the bench, waiting for part"),
        (Flags((("stop", "fuse"), ("note", "unpaid"))), "stop: fuse, note: unpaid"),
        (Two("12 of 30", "40 %"), "12 of 30, 40 %"),
        (Drawing(lambda p, r: None, "27 of 100"), "27 of 100"),
    ],
)
def test_what_a_shape_says_is_said_in_words(cell: Cell, words: str) -> None:
    assert words_of(cell) == words


def test_rows_beyond_what_a_list_holds_are_counted_and_leave_no_empty_heading() -> None:
    rows: list[Any] = [Group("Late", "many", "caution")]
    rows += [Row(n, (Words(str(n)),)) for n in range(MOST)]
    rows += [Group("Later", "2 jobs"), Row(-1, (Words("x"),)), Row(-2, (Words("y"),))]
    lines, left = lines_of(rows)
    assert left == 2
    assert len(lines) == MOST + 1
    assert lines[0].cells == ("Late", "caution: many")
    assert lines[0].over
    assert lines[-1].cells == (str(MOST - 1),)


def test_the_action_has_its_place_in_the_menu_and_its_key() -> None:
    assert (act("print_list").menu, act("print_list").key) == ("paper", "Ctrl+Shift+P")
    assert set(printing(lambda: None)) == {"print", "print_list"}
