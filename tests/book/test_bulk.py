"""Rows laid down by the thousand stand in the book, its history and its index as if they had come one by one."""

from __future__ import annotations

from datetime import UTC, date, datetime
from decimal import Decimal
from typing import Any

import pytest
from sqlalchemy import select

from app.book import bulk
from app.book.bulk import lay_down
from app.book.check import check
from app.book.door import Book
from app.book.find.lookup import ids_by_words
from app.book.tables import (
    Customer,
    HistoryRow,
    Instrument,
    Job,
    Limit,
    NumberSeries,
    Staff,
    TransportType,
    Unit,
)
from app.trade.bench.kinds import Arrangement
from app.trade.bench.stages import MainsClass
from app.trade.refusal import Fault
from app.trade.sentence import Sentence

DEED = Sentence("did something")
CAME = datetime(2026, 3, 2, 10, tzinfo=UTC)


def card(key: int, name: str, **more: Any) -> dict[str, Any]:
    """A customer's row."""
    return {"id": key, "name": name, "created_at": CAME, **more}


def findings(book: Book) -> dict[str, Any]:
    """What is wrong with the book, by part."""
    return {part.at.key: part.found for part in check(book).parts if part.found}


def told_of(book: Book, table: str) -> list[Any]:
    """What history says was put into a table; a personal text is only its mark there."""
    with book.ask() as session:
        rows = session.scalars(
            select(HistoryRow).where(HistoryRow.row_table == table).order_by(HistoryRow.seq)
        )
        return [
            {
                name: [before, "#" if str(after).startswith("#") else after]
                for name, (before, after) in row.fields.items()
            }
            for row in rows
        ]


def test_history_tells_of_laid_rows_what_it_tells_of_rows_added_one_by_one(empty: Book) -> None:
    names: dict[str, Any] = dict(maker="Quillfeather", model="QF-1", mains_class=MainsClass.II)
    with empty.change(None, DEED) as change:
        change.add(TransportType(name="Alder", arrangement=Arrangement.SLED))
        change.add(Unit(**names, serial="1", created_at=CAME))
    with lay_down(empty, None, DEED) as laying:
        key = laying.free_key("transport_types")
        laying.lay("transport_types", [{"id": key, "name": "Birch", "arrangement": Arrangement.SLED}])
        laying.lay("units", [{"id": laying.free_key("units"), **names, "serial": "2", "created_at": CAME}])
    for table, own in (("transport_types", "name"), ("units", "serial")):
        added, laid = told_of(empty, table)
        assert added.pop(own) != laid.pop(own)
        assert added == laid
    assert findings(empty) == {}


def test_secrets_persons_and_numbers_are_told_of_laid_rows_as_of_others(empty: Book) -> None:
    secret: dict[str, Any] = dict(name="Ada", pin_hash="$argon2id$something")
    window: dict[str, Any] = dict(
        quantity="laser_current", low=Decimal("0.050"), high=None, must=True, source="sheet 3, “p. 12” \\ é\n"
    )
    tool: dict[str, Any] = dict(name="meter", percent=Decimal("0.5"), due_on=date(2027, 1, 2))
    person = {name: value for name, value in card(0, "Édith", note="rings \t late").items() if name != "id"}
    rows = (("staff", Staff, secret), ("limits", Limit, window), ("instruments", Instrument, tool))
    with empty.change(None, DEED) as change:
        for _, table, values in rows:
            change.add(table(**values))
        change.add(Customer(**person))
    with lay_down(empty, None, DEED) as laying:
        for name, values in (*((name, values) for name, _, values in rows), ("customers", person)):
            laying.lay(name, [{"id": laying.free_key(name), **values}])
    for name in ("staff", "limits", "instruments", "customers"):
        added, laid = told_of(empty, name)
        assert added == laid, name
    assert told_of(empty, "staff")[1]["pin_hash"] == ["", "set"]
    assert findings(empty) == {}


def test_pages_of_rows_make_one_unbroken_chain_that_goes_on_behind_them(
    empty: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(bulk, "AT_ONCE", 3)
    with lay_down(empty, None, DEED) as laying:
        laying.lay("customers", (card(1 + at, f"Person {at}", note="x" * (at % 2)) for at in range(8)))
        assert laying.count == 8
        assert laying.free_key("customers") == 9
    with empty.change(None, DEED) as change:
        change.add(Customer(name="The one after", created_at=CAME))
    assert len(told_of(empty, "customers")) == 9
    assert findings(empty) == {}
    assert empty.changed_since_backup


def test_laid_rows_are_found_beside_those_that_were_there(book: Book) -> None:
    with book.ask() as session:
        before = session.scalars(select(Job.fault)).first()
        assert before
        job = ids_by_words(session, before, ["job"], 5)["job"]
    with lay_down(book, None, DEED) as laying:
        laying.lay("customers", [card(laying.free_key("customers"), "Wilhelmine Hollunder")])
    with book.ask() as session:
        assert len(ids_by_words(session, "hollun", ["customer"], 5)["customer"]) == 1
        assert ids_by_words(session, before, ["job"], 5)["job"] == job


def test_an_error_on_the_way_leaves_nothing_behind(empty: Book) -> None:
    def lay_one_twice() -> None:
        with lay_down(empty, None, DEED) as laying:
            laying.take_numbers("job", 5, first=100)
            laying.lay("customers", [card(1, "One")])
            laying.lay("customers", [card(1, "The same key again")])

    with pytest.raises(Fault, match="UNIQUE"):
        lay_one_twice()
    with empty.ask() as session:
        assert session.scalars(select(Customer.id)).all() == []
        assert session.scalars(select(NumberSeries.next)).all() == []
    assert told_of(empty, "customers") == []
    assert not empty.changed_since_backup


def test_a_series_goes_on_behind_the_numbers_that_were_taken(empty: Book) -> None:
    with lay_down(empty, None, DEED) as laying:
        assert laying.take_numbers("job", 3, first=100) == range(100, 103)
        assert laying.take_numbers("job", 2, first=100) == range(103, 105)
    with empty.change(None, DEED) as change:
        assert change.next_number("job", 100) == 105


@pytest.mark.parametrize(
    ("table", "row"),
    [("history", {"seq": 1}), ("no_such_table", {}), ("customers", card(1, "One", middle_name="No column"))],
)
def test_what_is_no_row_of_the_book_is_a_fault(empty: Book, table: str, row: dict[str, Any]) -> None:
    def lay_it() -> None:
        with lay_down(empty, None, DEED) as laying:
            laying.lay(table, [row])

    with pytest.raises(Fault):
        lay_it()
    assert told_of(empty, "customers") == []
