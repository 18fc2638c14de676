"""The sheet of a transport type: what it asks for at which stage."""

from __future__ import annotations

import pytest

from app.trade.bench.sheet_order import SheetEntry, When, read_entry
from app.trade.bench.stages import Moment


@pytest.mark.parametrize("when", When)
def test_an_entry_reads_back(when: When) -> None:
    entry = SheetEntry("seek_time", when)
    assert read_entry(entry.text) == entry


def test_an_entry_without_a_stage_is_asked_for_at_every_one() -> None:
    assert read_entry("seek_time") == SheetEntry("seek_time", When.ALWAYS)
    assert SheetEntry("seek_time").text == "seek_time"
    with pytest.raises(ValueError, match="never"):
        read_entry("seek_time: never")


@pytest.mark.parametrize(
    ("when", "moments"),
    [
        (When.ALWAYS, set(Moment)),
        (When.ARRIVAL, {Moment.ARRIVAL}),
        (When.DURING, {Moment.DURING}),
        (When.FINAL, {Moment.FINAL}),
        (When.BOTH_ENDS, {Moment.ARRIVAL, Moment.FINAL}),
    ],
)
def test_a_stage_holds_its_moments(when: When, moments: set[Moment]) -> None:
    assert {moment for moment in Moment if when.holds(moment)} == moments
