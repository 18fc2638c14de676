"""Where a number is cut in two, and how wide cells are."""

from __future__ import annotations

import pytest

from app.screens.kit.cell_paint import fraction_width, natural_width, split_at_mark
from app.screens.kit.cells import Cell, Drawing, Figure, Flags, Gate, Link, Stage, Two, Words


@pytest.mark.parametrize(
    ("text", "cut"),
    [
        ("51.2", ("51", ".2")),
        ("0,82", ("0", ",82")),
        ("228", ("228", "")),
        ("−38", ("−38", "")),
        ("+1.69", ("+1", ".69")),
        ("1 234.50", ("1 234", ".50")),
        ("", ("", "")),
        ("n.a.", ("n.a.", "")),
    ],
)
def test_a_number_is_cut_at_its_decimal_mark(text: str, cut: tuple[str, str]) -> None:
    assert split_at_mark(text) == cut
    assert (fraction_width(text) > 0) == bool(cut[1])


@pytest.mark.parametrize(
    ("short", "long"),
    [
        (Words("a"), Words("a", "b")),
        (Words("a"), Words("a", before="note")),
        (Figure("1"), Figure("1", unit="mA")),
        (Link("1"), Link("1", second="x")),
        (Stage(1, "ready"), Stage(1, "ready", "waiting for part")),
        (Flags((("note", "x"),)), Flags((("note", "x"), ("note", "y")))),
        (Gate("a"), Gate("a longer word")),
        (Two("a", "b"), Two("a", "a longer word")),
    ],
)
def test_more_words_take_more_room(short: Cell, long: Cell) -> None:
    assert 0 < natural_width(short) < natural_width(long)


def test_drawings_take_what_they_get() -> None:
    assert natural_width(Drawing(lambda p, r: None, "x")) == 0
    assert natural_width(None) == 0
