"""Serial numbers: matched without case and separators, never guessed."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.people.serial import check_serial, last_four, serial_key


def test_case_and_separators_do_not_count() -> None:
    for text in ("0420 158", "0420-158", "0420/158", "０４２０ １５８", " 0420.158 "):
        assert serial_key(text) == "0420158"
    assert serial_key("ab-12") == serial_key("AB 12")
    assert last_four("Velk 55 871") == "5871"


def test_letters_that_look_alike_stay_apart() -> None:
    assert serial_key("O1") != serial_key("01")


@pytest.mark.parametrize("text", ["n/a", "none", "Not readable", "unknown", "???", "-", "unleserlich"])
def test_words_for_no_number_point_to_the_box_beside(text: str) -> None:
    wrong = check_serial(text, unreadable=False)
    assert wrong is not None
    assert "not readable" in wrong.key


def test_a_number_and_not_readable_exclude_each_other() -> None:
    assert check_serial("0420", unreadable=True) is not None
    assert check_serial("", unreadable=True) is None
    assert check_serial("0420", unreadable=False) is None
    assert check_serial("", unreadable=False) is None


def test_a_number_has_room_and_printable_letters() -> None:
    assert check_serial("1" * 41, unreadable=False) is not None
    assert check_serial("12\x0734", unreadable=False) is not None


@given(st.text(max_size=40))
def test_folding_twice_changes_nothing_more(text: str) -> None:
    assert serial_key(serial_key(text)) == serial_key(text)
