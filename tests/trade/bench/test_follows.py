"""Readings that follow from a change itself. Sums: common practice, no source."""

from datetime import UTC
from decimal import Decimal

import pytest

from app.trade.bench.follows import (
    against_foretold,
    against_label,
    as_made,
    drive_sentence,
    foretold,
    light_ratio,
)
from app.trade.bench.uncertainty import Accuracy, Repeatability, reading_u
from app.trade.bench.verdict import Limit, VerdictWord, judge
from app.trade.sentence import Measure
from app.trade.wording import plain

D = Decimal

K = D("6.8") / D("5.6")
DRIVE = Accuracy(D(1), D(0), D(5))


def u(value: str) -> D:
    return reading_u(DRIVE, Repeatability(), D(value)).u


def test_a_drive_that_falls_as_foretold_proves_nothing() -> None:
    assert float(foretold(D(228), K)) == pytest.approx(187.76, abs=5e-3)
    found = against_foretold(D(228), u("228"), D(188), u("188"), K)
    assert found.z is not None
    assert float(found.z) == pytest.approx(0.0403, abs=5e-5)
    assert not found.real


def test_put_back_the_drive_rises_again_as_foretold() -> None:
    found = against_foretold(D(111), u("111"), D(135), u("135"), 1 / K)
    assert found.z is not None
    assert float(found.z) == pytest.approx(0.05, abs=5e-3)


def test_against_the_makers_limit_the_drive_counts_times_the_ratio() -> None:
    value, uncertainty = as_made(D(253), u("253"), K)
    assert float(value) == pytest.approx(307.2, abs=0.05)
    assert float(uncertainty) == pytest.approx(6.6, abs=0.05)
    limit = Limit(D(-300), D(300))
    assert judge(D(253), u("253"), limit).word is VerdictWord.WITHIN
    verdict = judge(value, uncertainty, limit)
    assert verdict.word is VerdictWord.CLOSE
    assert verdict.probability_high == pytest.approx(0.862, abs=5e-4)


def test_light_is_not_proportional_to_current() -> None:
    assert float(light_ratio(D("48.6"), D("54.3"), D(35))) == pytest.approx(1.419118, abs=5e-7)
    for before, after in ((35, 50), (50, 35)):
        with pytest.raises(ValueError):
            light_ratio(D(before), D(after), D(35))


def test_laser_current_against_its_label() -> None:
    ratio, uncertainty = against_label(D("54.3"), D("1.131818"), D("46.0"), D("0.028868"))
    assert 100 * float(ratio) == pytest.approx(118.04, abs=5e-3)
    assert 100 * float(uncertainty) == pytest.approx(2.46, abs=5e-3)
    assert 100 * float(against_label(D("51.2"), D(1), D("48.0"), D(0))[0]) == pytest.approx(106.67, abs=5e-3)


def test_the_sentence_names_all_three_figures() -> None:
    said = drive_sentence(Measure(D(228), "mV"), foretold(D(228), K), Measure(D(188), "mV"), K)
    assert plain(UTC)(said).replace("\u00a0", " ") == (
        "The drive falls to ×0.824 by the change alone: 228 mV foretells 187.8 mV, 188 mV was read. "
        "It proves nothing; seek time and rung speak."
    )
