"""Telephone numbers: checked, matched, found by their last four."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.people.phone import check_phone, digits, last_four, normal, same_number

# Numbers from the ranges that the British regulator keeps for drama (01632 960 000 to 960 999).
TYPED = (
    "01632 960 142",
    "01632/960142",
    "01632-960-142",
    "(01632) 960142",
    "+44 1632 960142",
    "+44 (0)1632 960142",
    "0044 1632 960142",
    "0044 (0)1632 960142",
    "01632 960142 ext 12",
    "０１６３２ ９６０１４２",
    "01632\u2013960\u00a0142",
)


@pytest.mark.parametrize("text", TYPED)
def test_every_way_to_write_a_number_is_the_same_number(text: str) -> None:
    assert check_phone(text) is None
    assert normal(text, "44") == "441632960142"
    assert same_number(text, "01632 960142", "44")
    assert same_number(text, "960142")
    assert last_four(text) == "0142"


def test_numbers_match_without_a_calling_code_too() -> None:
    assert same_number("+44 1632 960142", "01632 960142")
    assert not same_number("+44 1632 960142", "01632 960143")
    assert not same_number("0142", "01632 960142")
    assert not same_number("60142", "01632 960142")
    assert same_number("0142", "0142")
    assert not same_number("", "")
    assert not same_number("", "01632 960142")


@pytest.mark.parametrize("text", ["", "  ", "112", "+1 (212) 555.0100"])
def test_what_can_be_a_number_is_let_through(text: str) -> None:
    assert check_phone(text) is None


@pytest.mark.parametrize(
    "text", ["12", "ring after five", "01632 960142 (wife)", "0" * 16, "44+1632960142", "++44", "a"]
)
def test_what_cannot_be_a_number_says_so(text: str) -> None:
    assert check_phone(text) is not None


@given(st.text(max_size=40))
def test_no_text_breaks_the_reading(text: str) -> None:
    check_phone(text)
    assert digits(text).isascii()
    assert normal(text).isdecimal() or not normal(text)
    assert len(last_four(text)) <= 4


@given(st.integers(10**6, 10**11), st.sampled_from([" ", "-", "/", "."]))
def test_separators_change_nothing(number: int, mark: str) -> None:
    text = str(number)
    assert normal(mark.join(text)) == normal(text)
