"""The list of transports."""

from __future__ import annotations

from typing import Any

import pytest

from app.work.bench.transport_list import Where, transport_list, transports_to_print
from app.work.bench.transports import take_out


def test_one_in_a_player_says_in_which_and_since_when(bench: Any) -> None:
    (line,) = transport_list(bench.book)
    assert (line.id, line.type, line.marking) == (bench.transport, "Velk A1", "55 871")
    assert (line.unit_id, line.unit, line.unit_serial) == (bench.unit, "Quellmar Larch 2", "0420 158")
    assert line.since is not None
    assert (line.shelf, line.donor, line.scrapped) == ("", False, False)
    assert transport_list(bench.book, where=Where.FREE) == ()
    assert transport_list(bench.book, where=Where.FITTED) == (line,)


def test_one_on_a_shelf_says_which_and_is_free(bench: Any) -> None:
    take_out(bench.book, bench.tobbe, bench.job, shelf="C 4")
    (line,) = transport_list(bench.book, where=Where.FREE)
    assert (line.unit_id, line.unit, line.unit_serial, line.shelf, line.since) == (None, "", "", "C 4", None)
    assert transport_list(bench.book, where=Where.FITTED) == ()


@pytest.mark.parametrize("typed", ["velk", "5871", " 55 871 "])
def test_it_is_found_by_type_and_marking(bench: Any, typed: str) -> None:
    assert [line.id for line in transport_list(bench.book, typed)] == [bench.transport]
    assert transport_list(bench.book, typed, Where.FREE) == ()


def test_what_nobody_knows_is_not_found(bench: Any) -> None:
    assert transport_list(bench.book, "zzzz") == ()


def test_for_a_paper_those_that_have_no_room_are_counted(bench: Any) -> None:
    assert transports_to_print(bench.book, "", Where.EVERY, 0) == ((), 1)
    assert transports_to_print(bench.book, "", Where.FREE, 0) == ((), 0)
    assert transports_to_print(bench.book, "velk", Where.EVERY, 0) == ((), -1)
    assert [line.id for line in transports_to_print(bench.book, "", Where.FITTED, 5)[0]] == [bench.transport]
