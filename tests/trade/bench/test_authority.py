"""Who may sign what, and the rules of a PIN."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.bench.authority import (
    MarkHeld,
    mark_refused,
    may_sign,
    pin_refused,
    try_refused,
    wait_until,
)
from app.trade.bench.stages import Mark
from app.trade.wording import Wording

# Sanna Wickerel of the demo story: certificate of 3 March 2025, ends 3 March 2028.
SANNA = MarkHeld(Mark.COMPETENT, "course certificate", date(2025, 3, 3), date(2028, 3, 3))
INE = MarkHeld(Mark.OWNER, "trade register", date(2019, 1, 2))
NOW = datetime(2026, 11, 24, 9, 0, tzinfo=UTC)


def test_a_mark_counts_from_its_day_to_its_last_day(english: Wording) -> None:
    assert may_sign([SANNA], Mark.COMPETENT, date(2025, 3, 3)) is None
    assert may_sign([SANNA], Mark.COMPETENT, date(2028, 3, 3)) is None
    past = may_sign([SANNA], Mark.COMPETENT, date(2028, 3, 4))
    assert past is not None
    assert english(past).replace("\u00a0", " ") == (
        "The mark “may test electrical safety” ended on 3 Mar 2028. Enter the new proof in the Office."
    )
    early = may_sign([SANNA], Mark.COMPETENT, date(2025, 3, 2))
    assert early is not None
    assert "counts only from" in early.key


def test_one_mark_does_not_stand_for_the_other() -> None:
    assert may_sign([SANNA], Mark.OWNER, date(2026, 11, 24)) is not None
    assert may_sign([], Mark.OWNER, date(2026, 11, 24)) is not None
    assert may_sign([SANNA, INE], Mark.OWNER, date(2026, 11, 24)) is None


def test_a_renewed_mark_counts_again() -> None:
    renewed = MarkHeld(Mark.COMPETENT, "new certificate", date(2028, 3, 1), date(2031, 3, 1))
    assert may_sign([SANNA, renewed], Mark.COMPETENT, date(2028, 3, 4)) is None


def test_a_mark_needs_a_proof_and_ends_after_it_begins() -> None:
    assert mark_refused(SANNA) == {}
    assert mark_refused(INE) == {}
    wrong = MarkHeld(Mark.COMPETENT, " ", date(2025, 3, 3), date(2025, 3, 2))
    assert set(mark_refused(wrong)) == {"proof", "ends"}


@pytest.mark.parametrize("pin", ["4071", "0420158", "two spindles, one belt", "größer", "aabb"])
def test_a_pin_is_four_characters_or_more_or_a_passphrase(pin: str) -> None:
    assert pin_refused(pin) is None


@pytest.mark.parametrize(
    "pin", ["", "407", "1111", "1234", "9876", "abcd", " 4071", "4071 ", "40\n71", "x" * 129]
)
def test_what_is_guessed_first_or_cannot_be_typed_again_is_no_pin(pin: str) -> None:
    assert pin_refused(pin) is not None


def test_five_tries_are_free_then_the_wait_doubles() -> None:
    waits = [wait_until(n, NOW) for n in range(5, 12)]
    assert [w - NOW for w in waits if w] == [timedelta(seconds=s) for s in (30, 60, 120, 240, 480, 900, 900)]
    assert wait_until(4, NOW) is None
    assert wait_until(9, None) is None


def test_a_try_too_early_is_told_how_long(english: Wording) -> None:
    refused = try_refused(6, NOW, NOW + timedelta(seconds=20))
    assert refused is not None
    assert english(refused) == "Wrong 6 times in a row. The next try is taken in 41\u00a0s."
    assert try_refused(6, NOW, NOW + timedelta(seconds=60)) is None
    assert try_refused(4, NOW, NOW) is None


def test_naive_instants_are_refused() -> None:
    with pytest.raises(ValueError, match="naive"):
        wait_until(5, NOW.replace(tzinfo=None))


@given(st.integers(min_value=0, max_value=10**6))
def test_no_number_of_tries_locks_for_ever(wrong: int) -> None:
    until = wait_until(wrong, NOW)
    assert until is None or until - NOW <= timedelta(minutes=15)
