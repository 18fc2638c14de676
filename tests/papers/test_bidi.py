"""Right-to-left letters in the order in which they are drawn."""

from __future__ import annotations

import pytest

from app.papers.bidi import drawing_order, is_mixed


def drawn(text: str) -> str:
    return "".join(letter for _, letter in drawing_order(text))


# Worked by hand after UAX 9; capital letters stand for Hebrew in the remarks.
@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("abc", "abc"),
        ("אבג", "גבא"),
        ("car אב ג end", "car ג בא end"),  # car AB C end -> car C BA end
        ("אב 12 גד", "דג 12 בא"),  # numbers keep their order
        ("אב 12", "12 בא"),
        ("(אב)", "(בא)"),  # brackets outside keep the line's direction
        ("אב (גד) הו", "וה (דג) בא"),  # brackets inside are turned
        ("12 אב", "12 בא"),
        ("אָ", "\u05b8א"),
        ("", ""),
    ],
)
def test_drawing_order(typed: str, shown: str) -> None:
    assert drawn(typed) == shown


def test_only_lines_with_such_letters_are_reordered() -> None:
    assert not is_mixed("plain (text) 12")
    assert not is_mixed("Łódź")
    assert is_mixed("Łódź אב")
