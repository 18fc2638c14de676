"""Compact-disc arithmetic: frames, speed, turns and track crossings.

Sample rate 44 100 Hz, 588 channel bits and 6 stereo samples a frame, 98 frames a sector (IEC 60908,
ECMA-130); track pitch 1.6 um and 1.20 to 1.40 m/s from secondary texts.
"""

from __future__ import annotations

import math
from decimal import Decimal

SAMPLE_RATE = 44_100
FRAMES = SAMPLE_RATE // 6  # a second: 7350
SECTORS = FRAMES // 98  # a second: 75
CHANNEL_BITS = FRAMES * 588  # a second: 4 321 800
LEAD_IN_SECTORS = 150  # two seconds before logical address 0
TRACK_PITCH = Decimal("0.0000016")  # metres


def channel_clock() -> Decimal:
    """The period T of one channel bit, seconds."""
    return 1 / Decimal(CHANNEL_BITS)


def run_length(bits: int) -> Decimal:
    """Duration of a run of 3 to 11 channel bits, seconds."""
    if not 3 <= bits <= 11:
        raise ValueError("runs on a compact disc have 3 to 11 channel bits")
    return bits / Decimal(CHANNEL_BITS)


def turns_per_minute(speed: Decimal, radius: Decimal) -> Decimal:
    """Turns a minute at a radius in metres for a scanning speed in metres per second: 60 v / (2 pi r)."""
    return 60 * speed / (2 * Decimal(math.pi) * radius)


def speed_at(radius: Decimal, turns: Decimal) -> Decimal:
    """Scanning speed in metres per second, radius in metres, turns a minute: 2 pi r n / 60."""
    return 2 * Decimal(math.pi) * radius * turns / 60


def crossings_per_turn(run_out: Decimal) -> Decimal:
    """Tracks crossed in one turn with the radial loop open, for an eccentricity (single side) in metres: the
    track moves out and in by twice that, four times in all."""
    return 4 * run_out / TRACK_PITCH


def tracks_between(inner: Decimal, outer: Decimal) -> Decimal:
    """Turns of the spiral between two radii in metres."""
    return (outer - inner) / TRACK_PITCH


def play_minutes(inner: Decimal, outer: Decimal, speed: Decimal) -> Decimal:
    """Playing time between two radii in metres at a scanning speed: area / pitch / speed, minutes."""
    area = Decimal(math.pi) * (outer * outer - inner * inner)
    return area / TRACK_PITCH / speed / 60


def sector_of(minute: int, second: int, frame: int) -> int:
    """Logical address of an absolute time; 00:02:00 is 0. Seconds to 59 and frames to 74, else ValueError."""
    if minute < 0 or not 0 <= second < 60 or not 0 <= frame < SECTORS:
        raise ValueError("no time of a compact disc")
    return (minute * 60 + second) * SECTORS + frame - LEAD_IN_SECTORS


def time_of(sector: int) -> tuple[int, int, int]:
    """Absolute time (minute, second, frame) of a logical address from -150."""
    if sector < -LEAD_IN_SECTORS:
        raise ValueError("before the beginning of the disc's time")
    seconds, frame = divmod(sector + LEAD_IN_SECTORS, SECTORS)
    return seconds // 60, seconds % 60, frame
