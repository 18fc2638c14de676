"""Words that people type: what can be kept and printed."""

from __future__ import annotations

import pytest

from app.trade.typed_words import check_typed, printable


@pytest.mark.parametrize(
    "text", ["", "plain", "Ödön", "e\u0301", "שלום", "a\u00a0b", "a\u200db", "漢字", "<b>&", "🎧"]
)
def test_letters_of_every_script_can_be_printed(text: str) -> None:
    assert printable(text)
    assert check_typed(text, 20) is None


@pytest.mark.parametrize(
    "text",
    ["\x00", "a\x07", "a\tb", "a\rb", "\x7f", "\x9b", "\u202eabc", "\u2066a", "\ud800", "\ue000", "\u2028"],
)
def test_control_letters_and_turned_writing_cannot(text: str) -> None:
    assert not printable(text, lines=True)
    assert check_typed(text, 20, lines=True) is not None


def test_line_ends_only_where_lines_are_meant() -> None:
    assert not printable("a\nb")
    assert printable("a\nb", lines=True)


def test_room_is_counted_in_letters() -> None:
    assert check_typed("x" * 20, 20) is None
    too_long = check_typed("x" * 21, 20)
    assert too_long is not None
    assert too_long.values == {"most": 20}
