"""E-mail addresses: slips of the hand are noticed."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.people.email import check_email


@pytest.mark.parametrize(
    "text",
    [
        "",
        "  ",
        "b.arnsvik@example.org",
        "a+disc@mail.example.co",
        "jürgen@bücher.example",
        "o'neill@example.org",
        " a@b.example ",
    ],
)
def test_addresses_that_can_be_right_pass(text: str) -> None:
    assert check_email(text) is None


@pytest.mark.parametrize(
    "text",
    [
        "b.arnsvik",
        "@example.org",
        "a@",
        "a@@example.org",
        "a@example",
        "a@.example.org",
        "a@example..org",
        "a@-example.org",
        "a@example-.org",
        "a@example.o",
        "a@192.168.0.1",
        "a b@example.org",
        "a\x07@example.org",
        "a@example.org, b@example.org",
        "<a@example.org>",
        ".a@example.org",
        "a.@example.org",
        "a..b@example.org",
        "a" * 250 + "@example.org",
    ],
)
def test_slips_are_said(text: str) -> None:
    assert check_email(text) is not None


@given(st.text(max_size=60))
def test_no_text_breaks_the_check(text: str) -> None:
    check_email(text)
    check_email(f"{text}@example.org")
    check_email(f"a@{text}")
