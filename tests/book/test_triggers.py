"""What is written once stays written, even against a hand in the file."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from app.book.tables import metadata
from app.book.triggers import NEVER_CHANGED, NEVER_DELETED, sqlite_triggers


@pytest.fixture
def hand(closed: Path) -> Iterator[sqlite3.Connection]:
    """A connection of somebody who opened the file with another program."""
    with closing(sqlite3.connect(closed, isolation_level=None)) as connection:
        yield connection


@pytest.mark.parametrize("table", NEVER_DELETED)
def test_rows_cannot_be_deleted(hand: sqlite3.Connection, table: str) -> None:
    with pytest.raises(sqlite3.IntegrityError, match="never deleted"):
        hand.execute(f"DELETE FROM {table}")
    assert hand.execute(f"SELECT count(*) FROM {table}").fetchone()[0] > 0


@pytest.mark.parametrize("table", NEVER_CHANGED)
def test_rows_cannot_be_changed(hand: sqlite3.Connection, table: str) -> None:
    column = next(c.name for c in metadata.tables[table].columns if not c.primary_key)
    with pytest.raises(sqlite3.IntegrityError, match="never change"):
        hand.execute(f'UPDATE {table} SET "{column}" = "{column}"')


@pytest.mark.parametrize(
    "change",
    [
        "text = 'x', salt = ''",
        "text = '', salt = 'x'",
        "text = '', salt = '', side = 'other'",
        "text = '', salt = '', \"column\" = 'other'",
        "text = '', salt = '', seq = seq + 1",
        "text = '', salt = '', id = id + 1000",
    ],
)
def test_a_personal_text_of_history_can_only_be_blanked(hand: sqlite3.Connection, change: str) -> None:
    with pytest.raises(sqlite3.IntegrityError, match="only be blanked"):
        hand.execute(f"UPDATE history_texts SET {change}")
    hand.execute("UPDATE history_texts SET text = '', salt = ''")


def test_an_issued_invoice_takes_no_further_line(hand: sqlite3.Connection) -> None:
    columns = [c.name for c in metadata.tables["invoice_lines"].columns if c.name != "id"]
    listed = ", ".join(columns)
    with pytest.raises(sqlite3.IntegrityError, match="is issued"):
        hand.execute(f"INSERT INTO invoice_lines ({listed}) SELECT {listed} FROM invoice_lines LIMIT 1")


@pytest.mark.parametrize(
    "change", ["title = 'x'", "facts = '{\"other\": 1}'", "kind = 'invoice'", "issued_at = 0"]
)
def test_an_issued_paper_stands(hand: sqlite3.Connection, change: str) -> None:
    with pytest.raises(sqlite3.IntegrityError, match="never changes"):
        hand.execute(f"UPDATE papers SET {change}")


def test_a_papers_facts_can_be_erased_but_an_invoices_cannot(hand: sqlite3.Connection) -> None:
    hand.execute("UPDATE papers SET facts = '{}', sha256 = ''")
    hand.execute("DROP TRIGGER tr_papers_frozen")
    hand.execute("UPDATE papers SET facts = '{\"total\": 1}', kind = 'invoice'")
    hand.execute(dict(sqlite_triggers())["tr_papers_frozen"])
    with pytest.raises(sqlite3.IntegrityError, match="never changes"):
        hand.execute("UPDATE papers SET facts = '{}'")


@pytest.mark.parametrize(
    "change", ["typed = 'x'", "value = 7.0", "verdict = 'x'", "limit_low = '9'", "rule = 'x'"]
)
def test_a_verdict_stands_as_it_was_given(hand: sqlite3.Connection, change: str) -> None:
    with pytest.raises(sqlite3.IntegrityError, match="as they were given"):
        hand.execute(f"UPDATE readings SET {change}")


def test_triggers_are_on_tables_that_are_there() -> None:
    assert set(NEVER_DELETED) | set(NEVER_CHANGED) <= set(metadata.tables)


def test_a_credit_note_is_closed_and_never_more_than_its_invoice(hand: sqlite3.Connection) -> None:
    line = "INSERT INTO credit_note_lines SELECT credit_note_id, 2, 1, kind, words, quantity, unit, price,"
    line += " price_with_vat, discount, discount_reason, net, vat_rate, category, vat_reason, 99 FROM"
    with pytest.raises(sqlite3.IntegrityError, match="the credit note is issued"):
        hand.execute(f"{line} credit_note_lines WHERE id = 1")
    note = "INSERT INTO credit_notes SELECT series, number + 90, invoice_id, job_id, customer_id, issued_on,"
    note += " issued_at, issued_by, currency, reason, lines_net, discount, charge, net, vat, gross, rounding,"
    note += " {due}, groups, adjustments, line_count, id + 90 FROM credit_notes WHERE id = 1"
    with pytest.raises(sqlite3.IntegrityError, match="more than the invoice"):
        hand.execute(note.format(due=5951))
    hand.execute(note.format(due=5950))


@pytest.mark.parametrize(
    "change",
    [
        "UPDATE estimates SET intro = 'x'",
        "UPDATE estimate_options SET title = 'x'",
        "UPDATE estimate_lines SET price = 1",
        (
            "INSERT INTO estimate_options SELECT estimate_id, title, what, design, risk, guarantee, ready,"
            " never_above, taken_out_at, version, id + 1000 FROM estimate_options"
        ),
        (
            "INSERT INTO estimate_lines SELECT option_id, kind, words, quantity, unit, price, price_with_vat,"
            " vat_rate, category, vat_reason, taken_out_at, version, id + 1000 FROM estimate_lines"
        ),
    ],
)
def test_an_issued_estimate_stands_as_it_went_to_the_customer(hand: sqlite3.Connection, change: str) -> None:
    hand.execute(change.replace("1000", "500"))
    hand.execute("UPDATE estimates SET number = id, issued_at = 1")
    with pytest.raises(sqlite3.IntegrityError, match="issued estimate never changes"):
        hand.execute(change)
