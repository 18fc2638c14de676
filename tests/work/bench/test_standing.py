"""Where a job stands is said by the shop's own ladder, from the moment on when it is changed."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from app.trade.bench.kinds import Arrangement, KnowledgeKind
from app.trade.bench.stages import Moment
from app.trade.refusal import FieldRefusal
from app.trade.wording import plain
from app.work.bench.standing import rung_card
from app.work.bench.start_ups import StartUpEntry, record_start_up
from app.work.office.knowledge_list import knowledge_line, save_record
from app.work.office.shop_lists import save_transport_type, transport_types

S = Arrangement.SWING_ARM


def test_the_sheet_tells_what_the_shops_own_ladder_says_works(bench: Any) -> None:
    bench.climb(10)
    say = plain(bench.book.zone)
    row = knowledge_line(bench.book, KnowledgeKind.LADDER_ROW, "10 S")
    assert say(bench.sheet.stands_more).startswith("Laser, lens, focus, spindle, decoder and sound work")
    own = {**row.content, "works": ["spindle"]}
    owner = bench.shop.ine
    save_record(bench.book, owner, KnowledgeKind.LADDER_ROW, "10 S", own, version=row.version)
    assert say(bench.sheet.stands_more).startswith("Spindle works to that extent; still suspect: arm bearing")


def test_a_rungs_card_says_what_parts_the_suspects_and_with_what_care(bench: Any) -> None:
    # Common practice, no source: the row of rung 8 on a swing arm.
    say = plain(bench.book.zone)
    card = rung_card(bench.book, 8, S)
    assert say(card.name) == "radial lock"
    assert [(say(name), weight) for name, weight in card.suspects][:2] == [
        ("radial motor weak (magnet aged) or its current too low", 17),
        ("arm bearing or stop: dust, dried oil, dropped adhesive", 16),
    ]
    assert say(card.suspects[-1][0]) == "none of these"
    assert sum(weight for _, weight in card.suspects) == 100
    assert [(say(name), how) for name, how in card.readings][:2] == [
        ("radial error, loop open", ""),
        ("wobble", ""),
    ]
    assert rung_card(bench.book, 11, S).readings[0][1] == "both ways"
    assert next(say(change) for change in card.changes) == "lens cleaned"
    assert card.tools == "oscilloscope"
    assert card.caution.startswith("loop open only as the service data say")
    assert rung_card(bench.book, 8, S, [8]).suspects[0][1] == 15


def test_a_rung_that_cannot_be_tested_on_the_type_is_the_highest_of_none(bench: Any) -> None:
    kind = next(line for line in transport_types(bench.book) if line.id == bench.type)
    save_transport_type(bench.book, bench.shop.ine, replace(kind, not_testable=(8,)))
    with pytest.raises(FieldRefusal) as refused:
        record_start_up(bench.book, bench.tobbe, bench.job, StartUpEntry(rung=8, moment=Moment.ARRIVAL))
    assert list(refused.value.fields) == ["rung"]
    bench.climb(7)
    say = plain(bench.book.zone)
    assert say(bench.sheet.stands).startswith("It stops before radial lock or before lead-in read")
