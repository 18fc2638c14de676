"""The list of players."""

from __future__ import annotations

from typing import Any

import pytest

from app.trade.bench.modifications import Circuit, Kind
from app.trade.bench.stages import MainsClass
from app.trade.counter.taking_in import Intake
from app.work.bench.modifications import ModificationEntry, record_modification
from app.work.bench.unit_list import unit_list, units_to_print
from app.work.counter.taking_in import receive_unit


@pytest.fixture
def kelp(bench: Any) -> int:
    """A player that came in after the Larch of the bench."""
    intake = Intake(
        name="Odile Varenne",
        maker="Kestovar",
        model="Kelp 1",
        serial="77 1204",
        mains_class=MainsClass.BATTERY,
        fault="No sound.",
    )
    return int(receive_unit(bench.book, bench.shop.mirr, intake).value.unit_id)


def test_those_that_came_in_last_stand_first(bench: Any, kelp: int) -> None:
    lines = unit_list(bench.book)
    assert [line.id for line in lines] == [kelp, bench.unit]
    assert (lines[0].maker, lines[0].serial, lines[0].owner, lines[0].jobs) == (
        "Kestovar", "77 1204", "Odile Varenne", 1,
    )  # fmt: skip
    assert unit_list(bench.book, limit=1) == lines[:1]


def test_one_that_is_in_the_shop_says_with_which_job(bench: Any) -> None:
    (line,) = unit_list(bench.book)
    assert line.here == bench.sheet.number
    bench.close()
    (line,) = unit_list(bench.book)
    assert line.here is None
    assert line.last_at is not None


def test_what_stays_in_the_player_is_counted(bench: Any) -> None:
    entry = ModificationEntry(
        kind=Kind.OTHER,
        circuit=Circuit.OTHER,
        where="cover",
        was="no felt",
        now="a strip of felt",
        why="the cover rattled",
    )
    record_modification(bench.book, bench.tobbe, bench.job, entry)
    assert [line.changed for line in unit_list(bench.book)] == [1]


@pytest.mark.parametrize("typed", ["larch", "quellmar lar", "0158", " Larch "])
def test_it_is_found_by_words_and_the_end_of_its_serial(bench: Any, kelp: int, typed: str) -> None:
    assert [line.id for line in unit_list(bench.book, typed)] == [bench.unit]


def test_what_nobody_knows_is_not_found(bench: Any) -> None:
    assert unit_list(bench.book, "zzzz") == ()


def test_for_a_paper_those_that_have_no_room_are_counted(bench: Any, kelp: int) -> None:
    lines, more = units_to_print(bench.book, "", 1)
    assert ([line.id for line in lines], more) == ([kelp], 1)
    assert units_to_print(bench.book, "", 2)[1] == 0
    assert units_to_print(bench.book, "larch", 0) == ((), -1)
