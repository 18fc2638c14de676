"""Telling a scanner's burst from typing: recorded streams from 2 to 60 ms a key, and any stream at all."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.screens.burst import LONGEST, THRESHOLD_MS, Burst, Step


def played(stream: list[tuple[str, int]], threshold: int = THRESHOLD_MS) -> tuple[str, list[int]]:
    """What comes out of keys with the ms before each: the keys let through in order, and the scans."""
    burst, out, scans, held, at = Burst(threshold), "", [], "", 0
    for key, gap in stream:
        at += gap
        fed = burst.feed(key, at)
        if fed.release:
            out, held = out + held, ""
        if fed.step is Step.HOLD:
            held += key
        elif fed.step is Step.SCAN:
            scans.append(fed.number)
            held = ""
        else:
            out += key
    return out + held, scans


def even(keys: str, gap: int) -> list[tuple[str, int]]:
    return [(key, gap) for key in keys]


@pytest.mark.parametrize("gap", [0, 2, 5, 10, 30, 50])
def test_a_ticket_is_scanned_at_up_to_fifty_ms_a_key(gap: int) -> None:
    assert played(even("J2131\n", gap)) == ("", [2131])


@pytest.mark.parametrize("gap", [51, 55, 60, 200])
def test_slower_keys_are_typing(gap: int) -> None:
    assert played(even("J2131\n", gap)) == ("J2131\n", [])


def test_one_slow_key_in_a_fast_burst_is_typing() -> None:
    stream = [*even("J21", 5), ("3", 60), *even("1\n", 5)]
    assert played(stream) == ("J2131\n", [])


@pytest.mark.parametrize("keys", ["Jun Okeland\n", "J\n", "J\t", "2131\n", "J21x\n", "KJ2131", "\n", "JJJ"])
def test_what_is_no_ticket_comes_through_unchanged_even_when_typed_at_once(keys: str) -> None:
    assert played(even(keys, 2)) == (keys, [])


def test_a_ticket_scanned_right_after_typing_is_a_ticket() -> None:
    assert played(even("abc", 120) + even("J7\n", 3)) == ("abc", [7])
    assert played(even("J", 120) + even("J12\n", 3)) == ("J", [12])


def test_caps_lock_at_the_scanner_does_no_harm() -> None:
    assert played(even("j2131\n", 4)) == ("", [2131])


def test_a_number_longer_than_any_job_has_is_not_withheld_for_ever() -> None:
    keys = "J" + "1" * (LONGEST + 1) + "\n"
    assert played(even(keys, 2)) == (keys, [])


def test_nothing_is_held_after_a_lapse() -> None:
    burst = Burst()
    burst.feed("J", 0)
    assert burst.holding
    burst.lapse()
    assert not burst.holding
    assert burst.feed("1", 1).step is Step.LET


KEYS = st.sampled_from([*"Jj0123456789abK ", "\n", ""])


@given(st.lists(st.tuples(KEYS, st.integers(0, 120)), max_size=60))
def test_every_key_comes_through_in_order_or_belongs_to_a_scan(stream: list[tuple[str, int]]) -> None:
    """Told apart by hand: a scan is J, digits, Enter with no gap over the threshold, and not begun earlier."""
    out, scans = played(stream)
    left, numbers, i = "", [], 0
    while i < len(stream):
        j = i
        if stream[i][0] in ("J", "j"):
            j = i + 1
            while j < len(stream) and stream[j][1] <= THRESHOLD_MS and stream[j][0] in [*"0123456789"]:
                j += 1
            ends = j < len(stream) and stream[j][1] <= THRESHOLD_MS and stream[j][0] == "\n"
            if ends and 1 < j - i <= LONGEST + 1:
                numbers.append(int("".join(key for key, _ in stream[i + 1 : j])))
                i = j + 1
                continue
        left += stream[i][0]
        i += 1
    assert (out, scans) == (left, numbers)


@given(st.integers(1, 10**9), st.lists(st.integers(0, 50), min_size=12, max_size=12))
def test_every_number_within_the_threshold_is_read(number: int, gaps: list[int]) -> None:
    keys = f"J{number}\n"
    stream = list(zip(keys, gaps, strict=False))
    assert played(stream) == ("", [number])


@given(st.text(alphabet="JABCabc 0123456789", max_size=30), st.integers(51, 60))
def test_typing_never_loses_a_letter(text: str, gap: int) -> None:
    assert played(even(text + "\n", gap)) == (text + "\n", [])
