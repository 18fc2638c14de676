"""Climbs of the ladder through the book: what the sheet says of them, and what cannot be."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from app.trade.bench.kinds import HowSeen, Warmth
from app.trade.bench.stages import Moment
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.wording import plain
from app.work.bench.start_ups import StartUpEntry, check_start_up
from app.work.bench.strike_out import strike_out
from app.work.bench.transports import take_out


def words(bench: Any, sentence: Any) -> str:
    return plain(bench.book.zone)(sentence)


def test_the_sheet_says_in_one_sentence_where_the_job_stands(bench: Any) -> None:
    assert bench.sheet.stands is None
    bench.climb(10, tries=3, warmth=Warmth.WARM, warm_minutes=40, room=Decimal(21), disc="reference disc R2")
    sheet = bench.sheet
    assert words(bench, sheet.stands) == "It plays, but stalls on a long seek."
    more = words(bench, sheet.stands_more)
    assert more.startswith("Laser, lens, focus, spindle, decoder and sound work to that extent;")
    assert "still suspect: arm bearing" in more
    line = sheet.start_ups[0]
    assert (line.rung, line.tries, line.stopped_in, line.room) == (10, 3, 3, Decimal(21))


def test_all_rungs_reached_stopped_nowhere(bench: Any) -> None:
    bench.climb(12, tries=2)
    sheet = bench.sheet
    assert sheet.start_ups[0].stopped_in == 0
    assert words(bench, sheet.stands) == "It plays to the end."


def test_what_was_seen_in_test_mode_is_told_as_such(bench: Any) -> None:
    bench.climb(8, seen=HowSeen.TEST_MODE)
    assert "test mode" in words(bench, bench.sheet.stands_more)


def test_a_struck_out_climb_does_not_count(bench: Any) -> None:
    bench.climb(10)
    wrong = bench.climb(3)
    strike_out(bench.book, bench.tobbe, "start-up", wrong, "another player")
    assert words(bench, bench.sheet.stands) == "It plays, but stalls on a long seek."
    strike_out(bench.book, bench.tobbe, "start-up", bench.sheet.start_ups[0].id, "another player, too")
    assert bench.sheet.stands is None


def test_without_a_transport_the_ladder_names_nobody(bench: Any) -> None:
    take_out(bench.book, bench.tobbe, bench.job)
    bench.climb(10)
    assert "arm bearing" not in words(bench, bench.sheet.stands_more)


@pytest.mark.parametrize(
    ("field", "entry"),
    [
        ("rung", {"rung": 13}),
        ("tries", {"rung": 3, "tries": 0}),
        ("stopped_in", {"rung": 3, "tries": 3, "stopped_in": 4}),
        ("warm_minutes", {"rung": 3, "warm_minutes": -1}),
        ("room", {"rung": 3, "room": Decimal(99)}),
    ],
)
def test_what_cannot_be_right_is_said_at_its_field(bench: Any, field: str, entry: dict[str, Any]) -> None:
    assert field in check_start_up(StartUpEntry(moment=Moment.ARRIVAL, **entry))
    with pytest.raises(FieldRefusal) as refused:
        bench.climb(**entry)
    assert field in refused.value.fields
    assert bench.sheet.start_ups == ()


def test_a_closed_job_takes_no_more_records(bench: Any) -> None:
    bench.close()
    with pytest.raises(Refusal):
        bench.climb(12)


def test_leaving_worse_than_it_came_holds_the_job(bench: Any) -> None:
    bench.climb(10)
    bench.climb(6, Moment.FINAL)
    gate = bench.gate("final_missing")
    assert not gate.done
    assert "worse" in words(bench, gate.reason)
