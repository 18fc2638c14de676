"""From a judged reading to what it says."""

from decimal import Decimal
from fractions import Fraction

import pytest

from app.trade.bench.evidence import either, reading_seen, verdict_words
from app.trade.bench.verdict import Limit, VerdictWord, judge
from app.trade.sentence import Sentence
from tests.trade.bench.ranked import CLOSE, HIGH, LIKELIHOODS, LOW, WITHIN, seen

TILT = LIKELIHOODS.readings["tilt_lines"]
DRIVE = LIKELIHOODS.readings["radial_drive"]
NAME = Sentence("radial drive")


@pytest.mark.parametrize(("verdict", "chances"), [(WITHIN, (0, 0)), (HIGH, (1, 0)), (LOW, (0, 1))])
def test_a_clear_verdict_counts_whole(verdict: VerdictWord, chances: tuple[int, int]) -> None:
    reading = reading_seen(DRIVE, NAME, verdict, 0.01, 0.02)
    assert reading is not None
    assert (reading.high, reading.low) == chances


def test_one_too_close_to_call_counts_by_its_chances() -> None:
    # 30.4 mA against at most 30 with u 1.3015: P(high) 0.6207, as worked in the reference data, section 10.
    judged = judge(Decimal("0.0304"), Decimal("0.0013015"), Limit(None, Decimal("0.030")))
    reading = reading_seen(
        LIKELIHOODS.readings["arm_start_current"],
        NAME,
        judged.word,
        judged.probability_high,
        judged.probability_low,
    )
    assert reading is not None
    assert float(reading.high) == pytest.approx(0.6207, abs=5e-5)
    assert reading.low == 0


@pytest.mark.parametrize("chances", [(None, None), (0.5, None), (None, 0.5)])
def test_a_bare_bound_that_settles_nothing_says_nothing(chances: tuple[float | None, float | None]) -> None:
    assert reading_seen(DRIVE, NAME, CLOSE, *chances) is None


def test_what_is_judged_by_size_is_high_on_either_side() -> None:
    low = reading_seen(TILT, NAME, LOW, None, None, both_signs=True)
    assert low is not None
    assert (low.verdict, low.high, low.low) == (HIGH, 1, 0)
    close = reading_seen(DRIVE, NAME, CLOSE, 0.25, 0.125, both_signs=True)
    assert close is not None
    assert (close.verdict, close.high, close.low) == (CLOSE, Fraction(3, 8), 0)
    # A limit on one side of 0 is a limit of size already: below it the drive is too weak.
    weak = reading_seen(DRIVE, NAME, LOW, None, None)
    assert weak is not None
    assert (weak.verdict, weak.low) == (LOW, 1)
    # The sign of an offset matters.
    offset = reading_seen(LIKELIHOODS.readings["focus_offset"], NAME, LOW, None, None, both_signs=True)
    assert offset is not None
    assert (offset.verdict, offset.low) == (LOW, 1)


def test_tilt_is_high_when_either_direction_is() -> None:
    out, fine = seen("tilt_lines", HIGH), seen("tilt_lines", WITHIN)
    for pair in ((out, fine), (fine, out)):
        both = either(*pair)
        assert (both.verdict, both.high, both.low) == (HIGH, 1, 0)
    assert either(fine, fine).high == 0
    half = seen("tilt_lines", CLOSE, 0.5)
    both = either(half, half)
    assert (both.verdict, both.high) == (CLOSE, Fraction(3, 4))
    assert both.name.values["these"] == both.name.values["one"]


def test_each_verdict_has_its_words() -> None:
    assert [verdict_words(word).key for word in (WITHIN, HIGH, LOW, CLOSE)] == [
        "within its limit",
        "above its limit",
        "below its limit",
        "too close to call",
    ]
