"""The one transaction door: all or nothing, told in history, and the second saver is told."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import delete, func, insert, select, text, update
from sqlalchemy.exc import DBAPIError

from app.book.door import Book, Change
from app.book.opening import make_book
from app.book.tables import (
    Customer,
    FindWords,
    Fitting,
    HistoryRow,
    HistoryText,
    Job,
    NumberSeries,
    Staff,
    Transport,
    Unit,
)
from app.book.trouble import refusal_of
from app.trade.bench.stages import MainsClass
from app.trade.refusal import Fault, Refusal, StaleRow
from app.trade.sentence import Sentence
from tests.book.conftest import Children

WHY = Sentence("tried {what}", {"what": "something"})


def add_customer(book: Book, name: str = "Maike Sorrel") -> int:
    with book.change(None, WHY) as change:
        return change.add(Customer(name=name, created_at=change.now)).id


def count(book: Book, table: Any) -> int:
    with book.ask() as session:
        return session.scalar(select(func.count()).select_from(table)) or 0


def test_an_action_tells_history_who_did_what_and_why(empty: Book, clock: Any) -> None:
    with empty.change(None, WHY) as change:
        who = change.add(Staff(name="Ine")).id
    clock.advance(minutes=5)
    with empty.change(who, WHY) as change:
        change.add(Customer(name="Maike Sorrel", city="Lunden", country="DE", created_at=change.now))
    with empty.ask() as session:
        row = session.scalars(select(HistoryRow).order_by(HistoryRow.seq.desc())).first()
        assert row is not None
        assert (row.seq, row.staff_id, row.at, row.happened) == (2, who, clock(), "added")
        assert (row.row_table, row.row_id) == ("customers", 1)
        assert (row.action, row.action_values) == (WHY.key, {"what": "something"})
        assert row.fields["country"] == [None, "DE"]
        # A personal text stands in history as its salted hash only; the text itself can be blanked.
        assert row.fields["name"][1].startswith("#")
        said = {t.column: t.text for t in session.scalars(select(HistoryText).where(HistoryText.seq == 2))}
        assert said["name"] == "Maike Sorrel"
        assert said["city"] == "Lunden"


def test_a_change_tells_what_stood_there_before(empty: Book) -> None:
    key = add_customer(empty)
    with empty.change(None, WHY) as change:
        row = change.get(Customer, key)
        row.country, row.language = "AT", "de"
    with empty.ask() as session:
        told = session.scalars(select(HistoryRow.fields).where(HistoryRow.happened == "changed")).one()
    assert told == {"country": ["", "AT"], "language": ["", "de"]}


def test_nothing_changed_tells_nothing(empty: Book) -> None:
    key = add_customer(empty)
    with empty.change(None, WHY) as change:
        change.get(Customer, key).name = "Maike Sorrel"
    assert not change.changes
    assert count(empty, HistoryRow) == 1


def test_a_pin_never_reaches_history(empty: Book) -> None:
    with empty.change(None, WHY) as change:
        row = change.add(Staff(name="Ine"))
        row.pin_hash = "$argon2id$secret"
    with empty.ask() as session:
        told = json.dumps(session.scalars(select(HistoryRow.fields)).all())
        assert session.scalar(select(HistoryText.id).where(HistoryText.text.contains("argon2"))) is None
    assert "argon2" not in told
    assert '["", "set"]' in told


def test_changes_name_what_was_touched(empty: Book) -> None:
    with empty.change(None, WHY) as change:
        key = change.add(Customer(name="A", created_at=change.now)).id
    assert change.changes.customers == {key}
    assert change.changes.kinds == {"customers"}
    assert empty.changed_since_backup


def fail(book: Book, action: Callable[[Change], object]) -> None:
    """An action that ends by an error after it did something."""
    with book.change(None, WHY) as change:
        action(change)
        raise ZeroDivisionError


def customer_and_number(change: Change) -> None:
    change.add(Customer(name="A", created_at=change.now))
    change.next_number("job")


def test_leaving_by_an_error_changes_nothing(empty: Book) -> None:
    with pytest.raises(ZeroDivisionError):
        fail(empty, customer_and_number)
    for table in (Customer, HistoryRow, NumberSeries, FindWords):
        assert count(empty, table) == 0


def test_a_rollback_gives_the_number_back(empty: Book) -> None:
    with empty.change(None, WHY) as change:
        assert change.next_number("job") == 1
    with pytest.raises(ZeroDivisionError):
        fail(empty, lambda change: change.next_number("job"))
    with empty.change(None, WHY) as change:
        assert change.next_number("job") == 2
        assert change.next_number("invoice") == 1


def customer_in_a_nested_transaction(change: Change) -> None:
    with change.session.begin_nested():
        change.add(Customer(name="A", created_at=change.now))


def test_a_row_of_a_nested_transaction_does_not_survive_the_outer_one(empty: Book) -> None:
    # The stdlib driver's own transactions lost this: a row of a savepoint outlived the rollback.
    with pytest.raises(ZeroDivisionError):
        fail(empty, customer_in_a_nested_transaction)
    assert count(empty, Customer) == 0


def test_tables_made_in_a_failed_transaction_are_gone(empty: Book) -> None:
    make = "CREATE TABLE half_done (id INTEGER)"
    with pytest.raises(ZeroDivisionError):
        fail(empty, lambda change: change.session.connection().exec_driver_sql(make))
    with empty.ask() as session:
        assert session.execute(text("SELECT 1 FROM sqlite_master WHERE name = 'half_done'")).first() is None


def test_the_second_saver_is_told_and_overwrites_nothing(empty: Book) -> None:
    key = add_customer(empty)
    with empty.change(None, WHY) as change:
        change.get(Customer, key, version=1).country = "AT"
    with pytest.raises(StaleRow) as told, empty.change(None, WHY) as change:
        change.get(Customer, key, version=1).country = "DE"
    assert told.value.theirs["country"] == "AT"
    with empty.ask() as session:
        assert session.get_one(Customer, key).country == "AT"


def save_while_another_saves(book: Book, key: int) -> None:
    with book.change(None, WHY) as change:
        row = change.get(Customer, key)
        change.session.connection().execute(text("UPDATE customers SET version = 7"))
        row.country = "DE"


def test_a_version_that_moves_during_the_action_is_noticed_too(empty: Book) -> None:
    key = add_customer(empty)
    with pytest.raises(StaleRow):
        save_while_another_saves(empty, key)


def test_rows_are_never_deleted(book: Book) -> None:
    with pytest.raises(Fault, match="never deleted"), book.change(None, WHY) as change:
        change.session.delete(change.get(Job, 1))


@pytest.mark.parametrize(
    "statement",
    [
        update(Customer).values(name="x"),
        delete(Customer),
        insert(Customer).values(name="x", created_at=datetime.now().astimezone()),
    ],
)
def test_nothing_passes_history_by(book: Book, statement: Any) -> None:
    with pytest.raises(Fault, match="history"), book.change(None, WHY) as change:
        change.session.execute(statement)


def write_while_asking(book: Book) -> None:
    with book.ask() as session:
        session.get_one(Customer, 1).name = "x"
        session.flush()


def test_a_question_cannot_change_the_book(book: Book) -> None:
    with pytest.raises(Fault, match="must not change"):
        write_while_asking(book)


def test_a_row_that_is_not_there_is_our_mistake(empty: Book) -> None:
    with pytest.raises(Fault, match="no row 9"), empty.change(None, WHY) as change:
        change.get(Customer, 9)


def test_a_change_that_needs_a_person_says_so(empty: Book) -> None:
    with pytest.raises(Fault, match="needs a person"), empty.change(None, WHY) as change:
        _ = change.by


def test_naive_instants_are_refused(empty: Book) -> None:
    with pytest.raises(Exception, match="naive instant"), empty.change(None, WHY) as change:
        change.add(Customer(name="A", created_at=datetime(2026, 3, 12, 9, 0)))  # noqa: DTZ001
    assert count(empty, Customer) == 0


@pytest.mark.parametrize(
    ("code", "says"),
    [
        (sqlite3.SQLITE_FULL, "The disk is full"),
        (sqlite3.SQLITE_BUSY, "Another program is writing"),
        (sqlite3.SQLITE_READONLY | (1 << 8), "may only be read"),  # extended codes count by their low byte
        (sqlite3.SQLITE_IOERR | (10 << 8), "The disk gave an error"),
        (sqlite3.SQLITE_CANTOPEN, "cannot be reached"),
        (sqlite3.SQLITE_CORRUPT, "damaged"),
        (sqlite3.SQLITE_NOTADB, "damaged"),
    ],
)
def test_what_a_person_can_mend_is_said_with_the_next_step(code: int, says: str) -> None:
    error = sqlite3.OperationalError("raw words of the engine")
    error.sqlite_errorcode = code
    refusal = refusal_of(DBAPIError("", None, error))
    assert isinstance(refusal, Refusal)
    assert says in refusal.sentence.key
    assert refusal.next_step is not None


def test_anything_else_from_the_engine_is_our_mistake() -> None:
    error = sqlite3.OperationalError("no such column: flavour")
    error.sqlite_errorcode = sqlite3.SQLITE_ERROR
    assert isinstance(refusal_of(DBAPIError("", None, error)), Fault)
    assert isinstance(refusal_of(DBAPIError("", None, ValueError("no code at all"))), Fault)


def fill_disk(book: Book) -> None:
    with book.change(None, WHY) as change:
        # The engine may take no page more: the same error as a full disk gives.
        change.session.connection().exec_driver_sql("PRAGMA max_page_count = 1")
        for number in range(200):
            change.add(Customer(name=f"{number} " + "x" * 4000, created_at=change.now))


def test_a_full_disk_saves_nothing_and_says_so(book: Book) -> None:
    before = count(book, Customer)
    with pytest.raises(Refusal) as told:
        fill_disk(book)
    assert "disk is full" in told.value.sentence.key
    book.engine.dispose()
    assert count(book, Customer) == before
    add_customer(book)  # the program is alive


def test_damage_met_while_working_is_a_refusal_not_a_crash(book: Book) -> None:
    with book.ask() as session:
        page = session.execute(
            text("SELECT rootpage FROM sqlite_master WHERE name = 'customers'")
        ).scalar_one()
        size = session.execute(text("PRAGMA page_size")).scalar_one()
    book.engine.dispose()
    with book.path.open("rb+") as file:
        file.seek((page - 1) * size)
        file.write(b"\xff" * size)
    with pytest.raises(Refusal, match="damaged"), book.ask() as session:
        session.scalars(select(Customer)).all()
    with pytest.raises(Refusal, match="damaged"):
        add_customer(book)


def test_two_transports_in_one_place_are_a_persons_matter(book: Book) -> None:
    with book.change(None, WHY) as change:
        spare = change.add(Transport(type_id=1, created_at=change.now)).id
        second = change.add(
            Unit(maker="Vannoy", model="CD 12", mains_class=MainsClass.II, created_at=change.now)
        ).id
    with pytest.raises(Refusal, match="in another unit"), book.change(None, WHY) as change:
        change.add(Fitting(transport_id=1, unit_id=second, place="main", fitted_at=change.now))
    with pytest.raises(Refusal, match="has a transport already"), book.change(None, WHY) as change:
        change.add(Fitting(transport_id=spare, unit_id=1, place="main", fitted_at=change.now))


def test_two_processes_take_numbers_without_gap_or_double(
    tmp_path: Path, children: Children, often: Callable[[int, int], int]
) -> None:
    path, each = tmp_path / "book.sqlite", often(25, 500)
    make_book(path)
    outs = [tmp_path / "one", tmp_path / "two"]
    pids = [children.begin("take_numbers", path, each, out) for out in outs]
    assert [children.wait(pid) for pid in pids] == [0, 0]
    taken = [number for out in outs for number in json.loads(out.read_text())]
    assert sorted(taken) == list(range(1, 2 * each + 1))
