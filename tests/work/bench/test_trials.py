"""Trials: one change, before and after, and what it did."""

from __future__ import annotations

from typing import Any

import pytest

from app.trade.bench.stages import Moment, TrialOutcome
from app.trade.refusal import FieldRefusal, StaleRow
from app.work.bench.strike_out import strike_out
from app.work.bench.transports import take_out
from app.work.bench.trials import TrialEntry, judge_trial, record_trial, take_as_before


def begin(bench: Any, words: str = "Flex led anew", **more: Any) -> int:
    entry = TrialEntry(change=more.pop("change", "flex_dress"), words=words, **more)
    return record_trial(bench.book, bench.tobbe, bench.job, entry).value


def test_a_trial_is_numbered_in_its_job_and_keeps_the_rung_before(bench: Any) -> None:
    bench.climb(10)
    begin(bench)
    begin(bench, "Joints resoldered", change="resolder", order_reason="promised for Friday")
    first, second = bench.sheet.trials
    assert (first.number, second.number) == (1, 2)
    assert first.rung_before == 10
    assert second.order_reason == "promised for Friday"
    assert first.outcome is None


def test_readings_before_and_after_stand_beside_each_other_with_their_difference(bench: Any) -> None:
    # bench.md section 12, job 1: 4.8 to 4.7 s, z -0.54 for means of five (common practice, no source); single
    # readings of a stopwatch are wider, so z is smaller still.
    before = bench.read("seek_time", "4.8").id
    trial = begin(bench)
    take_as_before(bench.book, bench.tobbe, trial, (before,))
    bench.later(minutes=10)
    bench.read("seek_time", "4.7", Moment.DURING, trial_id=trial, trial_side="after")
    judge_trial(bench.book, bench.tobbe, trial, TrialOutcome.NO_DIFFERENCE, left="left so; leaves nothing")
    tile = bench.sheet.trials[0]
    pair = tile.readings[0]
    assert (str(pair.before.value), str(pair.after.value), pair.after.unit) == ("4.8", "4.7", "s")
    assert -2 < pair.z < 0
    assert tile.outcome is TrialOutcome.NO_DIFFERENCE
    assert tile.left == "left so; leaves nothing"


def test_a_reading_on_one_side_only_has_no_difference(bench: Any) -> None:
    trial = begin(bench)
    bench.read("seek_time", "4.7", Moment.DURING, trial_id=trial, trial_side="after")
    bench.read("radial_coil_r", "open", Moment.DURING, trial_id=trial, trial_side="after")
    pairs = bench.sheet.trials[0].readings
    assert [(pair.before, pair.z) for pair in pairs] == [(None, None), (None, None)]
    assert pairs[1].after is None


def test_a_reading_belongs_to_one_trial(bench: Any) -> None:
    reading = bench.read("seek_time", "4.8").id
    first, second = begin(bench), begin(bench, "Lens cleaned", change="clean_lens")
    take_as_before(bench.book, bench.tobbe, first, (reading,))
    take_as_before(bench.book, bench.tobbe, second, (reading,))
    tiles = bench.sheet.trials
    assert len(tiles[0].readings) == 1
    assert tiles[1].readings == ()


def test_judging_takes_the_rung_seen_since(bench: Any) -> None:
    bench.climb(10)
    trial = begin(bench)
    bench.later(minutes=5)
    bench.climb(12, Moment.DURING, trial_id=trial, trial_side="after")
    judge_trial(bench.book, bench.tobbe, trial, TrialOutcome.CURED, note="played an hour")
    tile = bench.sheet.trials[0]
    assert (tile.rung_before, tile.rung_after, tile.note) == (10, 12, "played an hour")


def test_before_it_is_judged_the_rung_after_is_that_of_its_climb(bench: Any) -> None:
    trial = begin(bench)
    bench.climb(11, Moment.DURING, trial_id=trial, trial_side="after")
    assert bench.sheet.trials[0].rung_after == 11


def test_two_who_judge_at_once_are_told(bench: Any) -> None:
    trial = begin(bench)
    judge_trial(bench.book, bench.tobbe, trial, TrialOutcome.BETTER, version=1)
    with pytest.raises(StaleRow) as stale:
        judge_trial(bench.book, bench.shop.sanna, trial, TrialOutcome.WORSE, version=1)
    assert stale.value.theirs["outcome"] == "better"
    assert bench.sheet.trials[0].outcome is TrialOutcome.BETTER


def test_a_trial_says_what_was_changed(bench: Any) -> None:
    with pytest.raises(FieldRefusal):
        begin(bench, "  ")


def test_a_trial_without_a_transport_and_struck_out(bench: Any) -> None:
    take_out(bench.book, bench.tobbe, bench.job)
    trial = begin(bench)
    strike_out(bench.book, bench.tobbe, "trial", trial, "was not done")
    assert bench.sheet.trials[0].struck.reason == "was not done"


def test_a_trimmer_turned_without_a_reading_before_is_flagged(bench: Any) -> None:
    begin(bench, "Laser power set", change="laser_set", reference="RV101")
    assert "trimmer_blind" in bench.rules()


def test_a_trimmer_read_before_is_not_flagged(bench: Any) -> None:
    before = bench.read("laser_current", "48.6").id
    trial = begin(bench, "Laser power set", change="laser_set", reference="RV101")
    take_as_before(bench.book, bench.tobbe, trial, (before,))
    assert "trimmer_blind" not in bench.rules()


def test_the_last_reading_before_a_trial_stands_as_its_before_where_none_was_marked(bench: Any) -> None:
    bench.read("seek_time", "4.8")
    struck = bench.read("seek_time", "0.48").id
    strike_out(bench.book, bench.tobbe, "reading", struck, "decimal mark")
    bench.later(minutes=5)
    trial = begin(bench)
    bench.later(minutes=5)
    bench.read("seek_time", "4.7", Moment.DURING, trial_id=trial, trial_side="after")
    (pair,) = bench.sheet.trials[0].readings
    assert (str(pair.before.value), str(pair.after.value)) == ("4.8", "4.7")
