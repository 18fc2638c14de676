"""Postal addresses in the window."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from app.trade.people.address import Address, window_lines

BENEDIKT = Address("Benedikt Arnsvik", "Flat 2\n18  Nowhere Lane", "00000", "Exampleton")


def test_an_address_at_home_has_no_country() -> None:
    assert window_lines(BENEDIKT, "DE") == (
        "Benedikt Arnsvik",
        "Flat 2",
        "18 Nowhere Lane",
        "00000 Exampleton",
    )


def test_the_country_stands_last_in_capitals_when_the_letter_goes_abroad() -> None:
    abroad = Address("A", "1 Street", "0000", "Town", "NO")
    assert window_lines(abroad, "DE", "Norwegen")[-1] == "NORWEGEN"
    assert window_lines(abroad, "NO", "Norway") == ("A", "1 Street", "0000 Town")


def test_town_and_postcode_stand_as_their_country_writes_them() -> None:
    british = Address("A", "1 Street", "AB1 2CD", "Town", "GB")
    assert window_lines(british, "GB") == ("A", "1 Street", "Town", "AB1 2CD")
    american = Address("A", "1 Street", "00000", "Town, ST", "US")
    assert window_lines(american, "US") == ("A", "1 Street", "Town, ST 00000")


def test_four_lines_hold_everything_by_drawing_lines_together() -> None:
    long = Address("A", "House\nStair 3\nFlat 2\n18 Lane", "AB1", "Town", "GB")
    assert window_lines(long, "DE", "Großbritannien", most=4) == (
        "A",
        "House, Stair 3, Flat 2, 18 Lane",
        "Town, AB1",
        "GROSSBRITANNIEN",
    )


def test_streets_are_drawn_together_before_towns() -> None:
    british = Address("A", "House\n1 Street", "AB1 2CD", "Town", "GB")
    assert window_lines(british, "GB", most=4) == ("A", "House, 1 Street", "Town", "AB1 2CD")


def test_missing_parts_leave_no_empty_line() -> None:
    assert window_lines(Address("A"), "DE") == ("A",)
    assert window_lines(Address("", "", "", "Town"), "DE") == ("Town",)
    assert window_lines(Address("A", "", "00000", ""), "GB") == ("A", "00000")


@given(
    st.builds(Address, st.text(max_size=20), st.text(max_size=80), st.text(max_size=8), st.text(max_size=20)),
    st.sampled_from(["DE", "GB", "US"]),
    st.sampled_from([4, 6]),
)
def test_no_address_needs_more_lines_than_there_are_and_none_is_empty(
    address: Address, home: str, most: int
) -> None:
    lines = window_lines(address, home, "Elsewhere", most)
    assert len(lines) <= most
    assert all(line.strip() and "\n" not in line for line in lines)
    kept = "".join("".join(lines).split())
    assert all(part in kept.replace(",", "") for part in address.street.replace(",", "").split())
