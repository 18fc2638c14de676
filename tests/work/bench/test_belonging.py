"""Which transport type belongs in a player."""

from __future__ import annotations

from typing import Any

import pytest

from app.trade.bench.kinds import Arrangement
from app.trade.bench.stages import MainsClass
from app.trade.counter.taking_in import Intake
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.work.bench.belonging import type_that_belongs
from app.work.bench.transports import note_transport, put_in, take_out
from app.work.counter.taking_in import receive_unit
from app.work.office.shop_lists import TypeLine, save_transport_type


def take_in(bench: Any, serial: str, maker: str = "Quellmar", model: str = "Larch 2") -> Any:
    intake = Intake(
        name="Solveig Marrin", phone="01632 960245", maker=maker, model=model, serial=serial,
        mains_class=MainsClass.II, fault="No disc is read.",
    )  # fmt: skip
    return receive_unit(bench.book, bench.shop.mirr, intake).value


def belongs(bench: Any, unit: int) -> str | None:
    with bench.book.ask() as session:
        return type_that_belongs(session, unit)


def test_it_is_the_type_that_was_in_it_last(bench: Any) -> None:
    assert belongs(bench, bench.unit) == "Velk A1"
    take_out(bench.book, bench.tobbe, bench.job)
    assert belongs(bench, bench.unit) == "Velk A1"


def test_of_a_player_never_looked_into_it_is_that_of_its_model(bench: Any) -> None:
    assert belongs(bench, take_in(bench, "0431 207").unit_id) == "Velk A1"
    assert belongs(bench, take_in(bench, "5 501", "Kestovar", "Kelp 1").unit_id) is None
    assert belongs(bench, take_in(bench, "5 502", "Quellmar", "").unit_id) is None


def test_where_another_type_was_found_it_is_the_type_that_was_named(bench: Any) -> None:
    sled = save_transport_type(
        bench.book, bench.shop.ine, TypeLine(name="Drevvo S8", arrangement=Arrangement.SLED)
    ).value
    other = take_in(bench, "0431 207")
    note_transport(bench.book, bench.tobbe, other.job_id, sled, "9", belongs_type="Velk A1")
    assert belongs(bench, other.unit_id) == "Velk A1"


def test_another_type_goes_in_only_when_somebody_says_so(bench: Any) -> None:
    sled = save_transport_type(
        bench.book, bench.shop.ine, TypeLine(name="Drevvo S8", arrangement=Arrangement.SLED)
    ).value
    other = take_in(bench, "0431 207")
    found = note_transport(bench.book, bench.tobbe, other.job_id, sled, "9", belongs_type="Velk A1").value
    take_out(bench.book, bench.tobbe, other.job_id)
    take_out(bench.book, bench.tobbe, bench.job)
    with pytest.raises(FieldRefusal) as refused:
        put_in(bench.book, bench.tobbe, bench.job, found)
    said = refused.value.fields["belongs_type"]
    assert isinstance(said, Sentence)
    assert said.values == {"belongs": "Velk A1", "own": "Drevvo S8"}
    assert bench.sheet.transport_id is None
    put_in(bench.book, bench.tobbe, bench.job, found, belongs_type="Velk A1")
    assert "other_type" in bench.rules()


def test_naming_its_own_type_is_no_departure(bench: Any) -> None:
    take_out(bench.book, bench.tobbe, bench.job)
    put_in(bench.book, bench.tobbe, bench.job, bench.transport, belongs_type=" velk a1")
    assert "other_type" not in bench.rules()


def test_where_the_book_knows_no_type_any_may_go_in(bench: Any) -> None:
    take_out(bench.book, bench.tobbe, bench.job)
    other = take_in(bench, "5 501", "Kestovar", "Kelp 1")
    put_in(bench.book, bench.tobbe, other.job_id, bench.transport)
    assert belongs(bench, other.unit_id) == "Velk A1"
