"""The chain of history: whoever changes, drops or swaps a row is found, and at which row."""

from __future__ import annotations

import hashlib
import json
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sqlalchemy import select

from app.book import chain
from app.book.chain import START, ChainReport, chain_end, row_hash, text_hash, walk
from app.book.door import Book
from app.book.engine import sealed_engine
from app.book.tables import Customer, HistoryRow
from app.trade.sentence import Sentence


def walked(path: Path) -> ChainReport:
    engine = sealed_engine(path)
    try:
        with engine.connect() as connection:
            return walk(connection)
    finally:
        engine.dispose()


def by_hand(path: Path, *statements: str) -> None:
    """Change the file as somebody would who opens it with another program and takes the triggers away."""
    with closing(sqlite3.connect(path)) as connection:
        for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'").fetchall():
            connection.execute(f"DROP TRIGGER {name}")
        for statement in statements:
            connection.execute(statement)
        connection.commit()


def test_a_book_that_nobody_touched_verifies(closed: Path) -> None:
    report = walked(closed)
    assert report.first_bad == 0
    assert report.rows > 70
    assert report.head != START


def test_an_empty_chain_stands_on_its_start(empty: Book) -> None:
    with empty.ask() as session:
        assert chain_end(session.connection()) == (0, START)
        assert walk(session.connection()) == ChainReport(0, START)


@pytest.mark.parametrize(
    ("statement", "seq", "why"),
    [
        ("UPDATE history SET action = 'did something else' WHERE seq = 7", 7, "its content was changed"),
        ("UPDATE history SET at = at + 1 WHERE seq = 9", 9, "its content was changed"),
        ("UPDATE history SET staff_id = 3 WHERE seq = 5", 5, "its content was changed"),
        ("UPDATE history SET job_id = NULL WHERE seq = {of a job}", None, "its content was changed"),
        ("UPDATE history SET fields = '{}' WHERE seq = 1", 1, "its content was changed"),
        ("UPDATE history SET fields = 'no json' WHERE seq = 2", 2, "its content was changed"),
        ("UPDATE history SET hash = 'x' WHERE seq = 12", 12, "its content was changed"),
        ("DELETE FROM history WHERE seq = 8", 9, "a row is missing before it"),
        ("DELETE FROM history WHERE seq = 1", 2, "a row is missing before it"),
        ("UPDATE history_texts SET text = 'Somebody Else' WHERE id = 1", None, "a personal text was changed"),
        ("UPDATE history_texts SET \"column\" = 'city' WHERE id = 1", None, "a personal text was changed"),
        ("UPDATE history_texts SET salt = 'ff' WHERE id = 2", None, "a personal text was changed"),
    ],
)
def test_a_change_by_hand_is_found_at_its_row(
    closed: Path, statement: str, seq: int | None, why: str
) -> None:
    if "{of a job}" in statement:
        with closing(sqlite3.connect(closed)) as connection:
            seq = connection.execute("SELECT max(seq) FROM history WHERE job_id IS NOT NULL").fetchone()[0]
        statement = statement.format_map({"of a job": seq})
    if seq is None:
        with closing(sqlite3.connect(closed)) as connection:
            key = statement.rpartition("= ")[2]
            seq = connection.execute("SELECT seq FROM history_texts WHERE id = ?", (key,)).fetchone()[0]
    by_hand(closed, "PRAGMA foreign_keys = OFF", statement)
    report = walked(closed)
    assert (report.first_bad, report.why) == (seq, Sentence(why))


def test_a_row_rewritten_with_a_fitting_hash_breaks_at_the_next_one(closed: Path) -> None:
    engine = sealed_engine(closed)
    with engine.connect() as connection:
        table = HistoryRow.__table__
        rows = connection.execute(select(table).where(table.c.seq.in_((6, 7)))).mappings().all()
    engine.dispose()
    forged = {**rows[1], "action": "forged"}
    new = row_hash(rows[0]["hash"], forged)
    by_hand(closed, f"UPDATE history SET action = 'forged', hash = '{new}' WHERE seq = 7")
    assert walked(closed).first_bad == 8


def test_a_blanked_text_keeps_the_chain(closed: Path) -> None:
    with closing(sqlite3.connect(closed)) as connection:
        connection.execute("UPDATE history_texts SET text = '', salt = ''")
        connection.commit()
    assert walked(closed).first_bad == 0


def test_a_cut_tail_shows_only_in_what_was_written_down_before(closed: Path) -> None:
    # Why each copy's sidecar keeps the head and the length of the chain.
    before = walked(closed)
    last = f"(SELECT max(seq) FROM history WHERE seq <= {before.rows})"
    by_hand(
        closed,
        "PRAGMA foreign_keys = OFF",
        f"DELETE FROM history_texts WHERE seq = {last}",
        f"DELETE FROM history WHERE seq = {last}",
    )
    after = walked(closed)
    assert after.first_bad == 0
    assert (after.rows, after.head) != (before.rows, before.head)


def test_the_walk_goes_page_by_page(closed: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    whole = walked(closed)
    monkeypatch.setattr(chain, "PAGE", 7)
    assert walked(closed) == whole
    by_hand(closed, "UPDATE history_texts SET text = 'x' WHERE id = 20")
    assert walked(closed).first_bad


def canonical(previous: str, values: dict[str, object]) -> str:
    """The hash as the chain's own description gives it: SHA-256 over a JSON list, keys in order, no spaces."""
    text = json.dumps([previous, values], ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode()).hexdigest()


def test_the_hash_is_what_the_description_says(empty: Book) -> None:
    with empty.change(None, Sentence("it's “so” \\ {n}", {"n": "é\n\x01"})) as change:
        change.add(Customer(name="A", country="ÅÖ\"'\\", created_at=change.now))
    with closing(sqlite3.connect(empty.path)) as connection:
        connection.row_factory = sqlite3.Row
        row = dict(connection.execute("SELECT * FROM history").fetchone())
    kept = row.pop("hash")
    row["fields"], row["action_values"] = json.loads(row["fields"]), json.loads(row["action_values"])
    assert canonical(START, row) == kept


@given(st.text(st.characters(codec="utf-8"), min_size=1, max_size=40), st.text(max_size=10))
def test_a_salted_text_hash_says_nothing_without_its_salt(text: str, salt: str) -> None:
    try:
        text.encode()
        salt.encode()
    except UnicodeEncodeError:
        return
    assert text_hash(salt, text) == "#" + hashlib.sha256((salt + text).encode()).hexdigest()


@pytest.mark.parametrize(
    "odd", ["a\x00b", "\u2028", "😀", "'; DROP TABLE history; --", "\\u0041", '"', "\x7f\x1f"]
)
def test_any_text_survives_the_walk(empty: Book, odd: str) -> None:
    with empty.change(None, Sentence(odd or "x", {"v": odd})) as change:
        change.add(Customer(name=odd or "x", country=odd, created_at=change.now))
    with empty.ask() as session:
        assert walk(session.connection()).first_bad == 0
