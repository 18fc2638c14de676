"""Readings taken anew: three values in one field are their mean, with the spread that they showed."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from app.trade.bench.verdict import VerdictWord
from app.work.bench.readings import correct_reading
from app.work.office.shop_lists import InstrumentLine, save_instrument


def test_the_mean_of_three_is_judged_with_its_own_spread(bench: Any) -> None:
    # Worked by script: 28.4, 30.4, 32.4 mA: mean 30.4, s 2.000, u_rep 1.1547, u_model 0.6005, u 1.3015, and
    # 0.379 within "at most 30" (JCGM 100 and 106).
    bench.read("arm_start_current", "28.4; 30.4; 32.4")
    line = bench.sheet.readings[0]
    assert (line.value, line.verdict) == (Decimal("30.4"), VerdictWord.CLOSE)
    assert line.uncertainty == pytest.approx(Decimal("1.3015"), abs=Decimal("0.0001"))
    assert line.probability == pytest.approx(0.379, abs=0.0005)


def test_the_accuracy_of_the_instrument_at_hand_stands_in_the_mean(bench: Any) -> None:
    supply = InstrumentLine(name="bench supply", percent=Decimal(3), digits=Decimal(0), step=Decimal("0.001"))
    meter = save_instrument(bench.book, bench.tobbe, supply).value
    bench.read("arm_start_current", "40; 41; 42", instrument_id=meter)
    line = bench.sheet.readings[0]
    assert line.value == 41
    # sqrt((0.03·41)²/3 + 1/12 + (1/√3)²) = 0.9597 mA
    assert line.uncertainty == pytest.approx(Decimal("0.9597"), abs=Decimal("0.0001"))


def test_what_was_typed_stays_and_can_be_corrected(bench: Any) -> None:
    first = bench.read("arm_start_current", "40; 41; 24")
    fixed = correct_reading(bench.book, bench.tobbe, first.id, "40; 41; 42", "figures swapped").value
    lines = {line.id: line for line in bench.sheet.readings}
    assert lines[first.id].struck is not None
    assert lines[fixed.id].value == 41
