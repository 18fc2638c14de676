"""Compact-disc arithmetic. Inputs: IEC 60908 and ECMA-130 (44 100 Hz, 588 channel bits, 98 frames); pitch,
speeds and radii from secondary texts."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.bench.disc import (
    CHANNEL_BITS,
    FRAMES,
    SECTORS,
    channel_clock,
    crossings_per_turn,
    play_minutes,
    run_length,
    sector_of,
    speed_at,
    time_of,
    tracks_between,
    turns_per_minute,
)

D = Decimal


def test_rates() -> None:
    assert (FRAMES, SECTORS, CHANNEL_BITS) == (7350, 75, 4_321_800)
    assert float(channel_clock()) * 1e9 == pytest.approx(231.385, abs=5e-4)


@pytest.mark.parametrize(
    ("bits", "nanoseconds", "kilohertz"),
    [
        (3, 694.16, 720.300), (4, 925.54, 540.225), (5, 1156.93, 432.180), (6, 1388.31, 360.150), (7, 1619.70, 308.700),
        (8, 1851.08, 270.113), (9, 2082.47, 240.100), (10, 2313.85, 216.090), (11, 2545.24, 196.445),
    ],
)  # fmt: skip
def test_runs_of_three_to_eleven_channel_bits(bits: int, nanoseconds: float, kilohertz: float) -> None:
    duration = run_length(bits)
    assert float(duration) * 1e9 == pytest.approx(nanoseconds, abs=6e-3)
    assert 1e-3 / (2 * float(duration)) == pytest.approx(kilohertz, abs=6e-4)
    # Pit length at 1.2 m/s, in um: secondary texts give 0.83 for 3T to 3.05 for 11T.
    assert float(duration) * 1.2e6 == pytest.approx(bits * 0.27766, abs=1e-3)


@pytest.mark.parametrize("bits", [2, 12])
def test_other_runs_do_not_exist(bits: int) -> None:
    with pytest.raises(ValueError):
        run_length(bits)


@pytest.mark.parametrize(
    ("speed", "turns"),
    [
        ("1.2", (498.2, 458.4, 229.2, 197.6)),
        ("1.3", (539.7, 496.6, 248.3, 214.0)),
        ("1.4", (581.3, 534.8, 267.4, 230.5)),
    ],
)
def test_turns_a_minute_at_four_radii(speed: str, turns: tuple[float, ...]) -> None:
    for radius, expected in zip(("0.023", "0.025", "0.050", "0.058"), turns, strict=True):
        assert float(turns_per_minute(D(speed), D(radius))) == pytest.approx(expected, abs=0.06)


def test_speed_check_at_25_mm() -> None:
    assert float(speed_at(D("0.025"), D("496.6"))) == pytest.approx(1.3001, abs=5e-5)


@given(st.decimals("0.02", "0.06", places=4), st.decimals("1.0", "1.6", places=3))
def test_speed_and_turns_are_each_others_way_back(radius: D, speed: D) -> None:
    assert float(speed_at(radius, turns_per_minute(speed, radius))) == pytest.approx(float(speed))


def test_a_run_out_of_70_um_gives_175_crossings_a_turn() -> None:
    assert crossings_per_turn(D("0.000070")) == 175


def test_turns_and_minutes_of_the_programme() -> None:
    assert tracks_between(D("0.025"), D("0.058")) == 20_625
    for speed, minutes in (("1.2", 74.7), ("1.3", 68.9), ("1.4", 64.0)):
        assert float(play_minutes(D("0.025"), D("0.058"), D(speed))) == pytest.approx(minutes, abs=0.06)


@pytest.mark.parametrize(
    ("time", "sector"), [((0, 2, 0), 0), ((0, 0, 0), -150), ((0, 2, 74), 74), ((74, 2, 0), 333_000)]
)
def test_time_and_address(time: tuple[int, int, int], sector: int) -> None:
    # 00:02:00 is address 0; 74 minutes hold 333 000 sectors.
    assert sector_of(*time) == sector
    assert time_of(sector) == time


@given(st.integers(-150, 449_999))
def test_every_address_has_one_time(sector: int) -> None:
    assert sector_of(*time_of(sector)) == sector


@pytest.mark.parametrize("time", [(-1, 0, 0), (0, 60, 0), (0, 0, 75), (0, 0, -1)])
def test_impossible_times_are_refused(time: tuple[int, int, int]) -> None:
    with pytest.raises(ValueError):
        sector_of(*time)


def test_nothing_lies_before_the_first_address() -> None:
    with pytest.raises(ValueError):
        time_of(-151)
