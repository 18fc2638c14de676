"""A scanning speed typed as turns a minute at a radius."""

from __future__ import annotations

from datetime import UTC
from decimal import Decimal
from typing import Any

import pytest

from app.trade.bench.quantities import Quantity
from app.trade.bench.reading_typed import radius_in, read_reading
from app.trade.bench.typed_value import TypedValue
from app.trade.sentence import Sentence
from app.trade.wording import plain
from tests.trade.bench.test_quantities import CATALOGUE

SPEED: Quantity = CATALOGUE["speed"]
SAY = plain(UTC)

# Turns a minute at 1.2, 1.3 and 1.4 m/s, computed from the geometry and tabled to 0.1; "about 500 to 200" is in
# published texts on IEC 60908.
TURNS = {
    "23": ("498.2", "539.7", "581.3"),
    "25": ("458.4", "496.6", "534.8"),
    "50": ("229.2", "248.3", "267.4"),
    "58": ("197.6", "214.0", "230.5"),
}


@pytest.mark.parametrize("radius", TURNS)
def test_turns_at_a_radius_are_the_speed_of_the_table(radius: str) -> None:
    for turns, speed in zip(TURNS[radius], ("1.2", "1.3", "1.4"), strict=True):
        read = read_reading(SPEED, f"{turns} rpm", f"r {radius} mm")
        assert isinstance(read, TypedValue)
        assert read.value == pytest.approx(Decimal(speed), abs=Decimal("0.001"))
        assert read.typed == f"{turns} rpm"


@pytest.mark.parametrize("typed", ["500 rpm", "500/min", "500 1/min", " 500 U/min", "500 r/min", "500 min-1"])
def test_turns_are_written_in_the_usual_ways(typed: str) -> None:
    read = read_reading(SPEED, typed, "track 1, r=25")
    assert isinstance(read, TypedValue)
    assert (str(read.value), str(read.shown)) == ("1.309", "1.309")


@pytest.mark.parametrize(
    ("place", "metres"),
    [
        ("r 25 mm", "0.025"),
        ("r=24,8", "0.0248"),
        ("outer, r 58", "0.058"),
        ("", None),
        ("bar 300", None),
        ("r 0", None),
    ],
)
def test_a_radius_is_read_from_the_place(place: str, metres: str | None) -> None:
    assert radius_in(place) == (None if metres is None else Decimal(metres))


@pytest.mark.parametrize(
    ("quantity", "typed", "place", "said"),
    [
        ("speed", "500 rpm", "", "Turns need the radius: note it under place, such as r 25 mm."),
        (
            "speed",
            "5000 rpm",
            "r 25 mm",
            "At this radius that is 13.090\xa0m/s, which cannot be: 0.5\xa0m/s to 3\xa0m/s",
        ),
        ("jitter", "500 rpm", "r 25 mm", "This is read in ns, not in rpm."),
    ],
)
def test_what_cannot_be_says_why(quantity: str, typed: str, place: str, said: str) -> None:
    read: Any = read_reading(CATALOGUE[quantity], typed, place)
    assert isinstance(read, Sentence)
    assert SAY(read).startswith(said)


def test_a_speed_typed_as_such_needs_no_radius() -> None:
    read = read_reading(SPEED, "1,31", "")
    assert isinstance(read, TypedValue)
    assert str(read.value) == "1.31"
