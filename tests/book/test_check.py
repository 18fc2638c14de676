"""The check looks at everything and names what it finds in words."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from datetime import UTC
from pathlib import Path
from typing import Any

import pytest

from app.book import check as checking
from app.book import check_index, check_sums
from app.book.attachments import place_of, store
from app.book.check import CheckReport, check
from app.book.copy_state import keep_failure, read_state
from app.book.door import Book
from app.book.find.rebuild import rebuild_index
from app.book.opening import open_book
from app.book.tables import Attachment, Paper
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.trade.wording import plain
from tests.book.filled import SETTLE, add_round

SAY = plain(UTC)


def said(report: CheckReport) -> list[str]:
    return [SAY(sentence) for sentence in report.found]


@pytest.fixture
def hand(closed: Path, clock: Any) -> Any:
    """Changes the closed file by hand, triggers and keys taken away, and checks it then."""

    def change(*statements: str) -> list[str]:
        with closing(sqlite3.connect(closed)) as connection:
            connection.execute("PRAGMA foreign_keys = OFF")
            triggers = connection.execute(
                "SELECT name, sql FROM sqlite_master WHERE type = 'trigger'"
            ).fetchall()
            for name, _ in triggers:
                connection.execute(f"DROP TRIGGER {name}")
            for statement in statements:
                connection.execute(statement)
            for _, sql in triggers:
                connection.execute(sql)
            connection.commit()
        book = open_book(closed, clock=clock, settle=SETTLE)
        try:
            return said(check(book))
        finally:
            book.close()

    return change


def test_a_good_book_is_good_and_says_what_was_looked_at(book: Book) -> None:
    parts: list[str] = []
    report = check(book, watch=lambda at: parts.append(at.key))
    assert said(report) == []
    counts = {part.at.key: part.count for part in report.parts}
    assert list(counts) == parts
    assert counts["files beside the book"] == 4
    assert counts["issued papers"] == 2
    assert counts["entries of the search index"] == 8
    assert counts["invoices"] == 2
    assert counts["credit notes"] == 2
    assert counts["numbers of jobs, invoices and credit notes"] == 6
    assert counts["rows of history"] > 70
    assert counts["pages of the file"] > 100


def test_an_empty_book_is_good(empty: Book) -> None:
    assert said(check(empty)) == []


def test_looking_can_be_stopped(book: Book) -> None:
    class Stop(Exception):
        pass

    def stop(at: Sentence) -> None:
        raise Stop

    with pytest.raises(Stop):
        check(book, watch=stop)


@pytest.mark.parametrize(
    ("statement", "expected"),
    [
        (
            "UPDATE jobs SET unit_id = 99 WHERE id = 2",
            "In jobs, 1 rows point at rows of units that are not there.",
        ),
        (
            "UPDATE history SET action = 'x' WHERE seq = 3",
            "History is broken at row 3: its content was changed.",
        ),
        ("DROP INDEX ix_readings_job_id", "The index ix_readings_job_id is missing."),
        (
            "UPDATE history_texts SET text = '', salt = '' WHERE id = 1",
            "History row 1 lost a personal text, and no erasure tells of it.",
        ),
        (
            "UPDATE part_moves SET quantity = -3500000, kind = 'used' WHERE id = 1",
            "Part code 1 has −3.5 in stock, which cannot be. Count it.",
        ),
        (
            "UPDATE part_moves SET kind = 'used' WHERE id = 2",
            "Move 2 of part code 2 goes the wrong way for “used”.",
        ),
        (
            "UPDATE part_moves SET part_id = 1 WHERE id = 2",
            "Move 2 of part code 1 cannot have come of order 2.",
        ),
        ("UPDATE invoices SET gross = gross + 1 WHERE id = 1", "The sums of invoice 0001 do not add up."),
        (
            "UPDATE invoices SET vat = vat + 1, gross = gross + 1 WHERE id = 2",
            "The sums of invoice 0002 do not add up.",
        ),
        ("UPDATE invoices SET due = 0 WHERE id = 2", "The sums of invoice 0002 do not add up."),
        ("UPDATE invoices SET line_count = 2 WHERE id = 2", "The sums of invoice 0002 do not add up."),
        (
            "UPDATE invoice_lines SET price = price * 2 WHERE id = 1",
            "The sums of invoice 0001 do not add up.",
        ),
        ("DELETE FROM invoice_lines WHERE id = 1", "The sums of invoice 0001 do not add up."),
        (
            "UPDATE payments SET job_id = 1 WHERE id = 2",
            "Payment 2 does not belong to the job of its invoice.",
        ),
        ("UPDATE fittings SET removed_at = 1 WHERE id = 1", "Fitting 1 ends before it begins."),
        ("UPDATE jobs SET number = 4 WHERE id = 2", "Jobs: The number 2 is missing."),
        ("UPDATE number_series SET next = 9", "Jobs: After 2 the next would be 9."),
        ("UPDATE invoices SET number = 7 WHERE id = 2", "Invoices: The number 2 is missing."),
        ("UPDATE credit_notes SET gross = 1 WHERE id = 1", "The sums of credit note C-0001 do not add up."),
        ("DELETE FROM credit_note_lines WHERE id = 2", "The sums of credit note C-0002 do not add up."),
        (
            "UPDATE credit_notes SET rounding = 5951, due = 5951 WHERE id = 2",
            "More than invoice 0002 was credited on it.",
        ),
        ("UPDATE credit_notes SET number = 7 WHERE id = 2", "Credit notes C: The number 2 is missing."),
        (
            "UPDATE credit_notes SET issued_on = '2020-01-01' WHERE id = 2",
            "Credit note C-0002 bears an earlier date than the one before it.",
        ),
        (
            "UPDATE invoices SET issued_on = '2020-01-01' WHERE id = 2",
            "Invoice 0002 bears an earlier date than the one before it.",
        ),
        (
            "UPDATE units SET maker = 'Changed' WHERE id = 1",
            "2 entries of the search index do not fit the book. It can be built anew: Book, Check.",
        ),
        (
            "INSERT INTO find_words (kind, ref_id, words, tails) VALUES ('unit', 77, 'ghost', '')",
            "3 entries of the search index do not fit the book. It can be built anew: Book, Check.",
        ),
        (
            "DELETE FROM find_fts WHERE rowid = 1",
            "1 entries of the search index do not fit the book. It can be built anew: Book, Check.",
        ),
        (
            "INSERT INTO find_tails (rowid, tails) VALUES (99, 'ghost')",
            "1 entries of the search index do not fit the book. It can be built anew: Book, Check.",
        ),
    ],
)
def test_what_was_changed_by_hand_is_named(hand: Any, statement: str, expected: str) -> None:
    assert expected in hand(statement)


def test_two_open_fittings_are_named_where_the_index_that_forbids_them_is_gone(hand: Any) -> None:
    found = hand(
        "DROP INDEX uq_fittings_open_transport",
        "DROP INDEX uq_fittings_open_place",
        "UPDATE fittings SET transport_id = 1, unit_id = 1, place = 'main'",
    )
    assert "Transport 1 is in two units at once." in found
    assert "Unit 1 has two transports in one place." in found
    assert "The index uq_fittings_open_place is missing." in found


def test_a_trigger_of_somebody_elses_making_is_named(closed: Path) -> None:
    with closing(sqlite3.connect(closed)) as connection:
        connection.execute("DROP TRIGGER tr_history_stand")
        connection.execute(
            "CREATE TRIGGER tr_history_stand BEFORE UPDATE ON history WHEN 0 BEGIN SELECT 1; END"
        )
        connection.execute("DROP TRIGGER tr_history_stay")
        connection.commit()
    book = open_book(closed, settle=SETTLE)
    try:
        found = said(check(book))
    finally:
        book.close()
    assert "The trigger tr_history_stand is not the one that this program makes." in found
    assert "The trigger tr_history_stay is missing." in found


def damage(path: Path, table: str, where: slice) -> None:
    """Overwrite a part of a table's or index's first page."""
    with closing(sqlite3.connect(path)) as connection:
        page = connection.execute("SELECT rootpage FROM sqlite_master WHERE name = ?", (table,)).fetchone()[0]
    data = bytearray(path.read_bytes())
    start = (page - 1) * 4096
    data[start + where.start : start + where.stop] = b"\xff" * (where.stop - where.start)
    path.write_bytes(data)


def test_damaged_pages_are_named_and_nothing_more_is_read(closed: Path) -> None:
    damage(closed, "ix_readings_job_id", slice(4000, 4096))
    book = open_book(closed, settle=SETTLE)
    try:
        report = check(book)
        assert any("damaged" in line for line in said(report))
        assert len(report.parts) == 1
    finally:
        book.close()


def test_damage_met_on_the_way_is_a_finding_not_a_crash(book: Book, monkeypatch: pytest.MonkeyPatch) -> None:
    def damaged(book: Book) -> Any:
        raise Refusal(Sentence("The book's file is damaged; nothing was saved."))

    monkeypatch.setattr(checking, "stock_findings", damaged)
    assert said(check(book)) == ["The book's file is damaged; nothing was saved."]


def test_missing_and_damaged_files_are_named_with_their_job(book: Book) -> None:
    with book.ask() as session:
        photo = session.get_one(Attachment, 1).sha256
        paper = session.get_one(Paper, 2).sha256
    place_of(book.files, photo).unlink()
    place_of(book.files, paper).write_bytes(b"x")
    assert sorted(said(check(book))) == [
        "The file name 1 of job 1 is missing or damaged.",
        "The file title 2 of job 2 is missing or damaged.",
    ]


def test_a_missing_logo_is_named_by_its_sum(book: Book) -> None:
    from app.book.tables import SettingKept

    logo = store(book.files, b"logo").sha256
    with book.change(None, Sentence("chose")) as change:
        change.add(SettingKept(key="logo", value=logo))
    assert said(check(book)) == []
    place_of(book.files, logo).unlink()
    assert said(check(book)) == [f"The file {logo[:12]} is missing or damaged."]


def unfile(book: Book) -> None:
    """As after a crash between issuing and filing."""
    with book.change(None, Sentence("tried")) as change:
        change.get(Paper, 1).sha256 = ""


def test_a_paper_that_was_not_filed_is_filed_where_that_can_be_done(book: Book) -> None:
    unfile(book)
    assert said(check(book)) == ["“title 1” of job 1 is issued but not filed."]
    filed: list[int] = []
    assert said(check(book, filed.append)) == []
    assert filed == [1]

    def cannot(key: int) -> None:
        raise Refusal(Sentence("The disk is full."))

    assert said(check(book, cannot)) == ["“title 1” of job 1 cannot be filed: The disk is full."]


def test_a_failed_copy_is_part_of_the_report(book: Book, clock: Any) -> None:
    keep_failure(book.path, read_state(book.path), Refusal(Sentence("The stick is full.")), clock())
    assert said(check(book)) == ["The last copy failed: The stick is full."]


def test_files_that_a_copy_had_to_leave_out_are_part_of_the_report(book: Book, clock: Any) -> None:
    from app.book.backup import Why, back_up
    from app.book.copies import copies_folder

    with book.ask() as session:
        photo = session.get_one(Attachment, 1).sha256
    place_of(book.files, photo).unlink()
    back_up(book.path, copies_folder(book.path), clock(), Why.BY_HAND)
    assert "The last copy had to leave out 1 missing files." in said(check(book))


def test_many_findings_of_one_kind_are_counted(closed: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(checking, "MOST_NAMED", 1)
    with closing(sqlite3.connect(closed)) as connection:
        for name in ("ix_readings_job_id", "ix_jobs_unit_id", "ix_units_model"):
            connection.execute(f"DROP INDEX {name}")
        connection.commit()
    book = open_book(closed, settle=SETTLE)
    try:
        assert said(check(book)) == ["The index ix_jobs_unit_id is missing.", "and 2 more of this kind"]
    finally:
        book.close()


def test_small_pages_of_rows_find_the_same(book: Book, closed: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for number in range(3, 6):
        add_round(book, number)
    whole = check(book)
    monkeypatch.setattr(check_index, "AT_ONCE", 2)
    monkeypatch.setattr(check_sums, "AT_ONCE", 2)
    assert check(book) == whole
    assert said(whole) == []


def test_a_broken_index_can_be_built_anew(closed: Path, clock: Any) -> None:
    with closing(sqlite3.connect(closed)) as connection:
        connection.execute("DELETE FROM find_fts WHERE rowid < 4")
        connection.execute("UPDATE find_words SET words = 'wrong'")
        connection.execute(
            "INSERT INTO find_words (kind, ref_id, words, tails) VALUES ('unit', 77, 'ghost', '')"
        )
        connection.commit()
    book = open_book(closed, clock=clock, settle=SETTLE)
    try:
        assert len(said(check(book))) == 1
        with book.change(None, Sentence("built the search index anew")) as change:
            assert rebuild_index(change) == 8
        assert said(check(book)) == []
        assert not change.changes  # nothing that history tells
    finally:
        book.close()


def test_an_empty_index_can_be_built_anew(empty: Book) -> None:
    with empty.change(None, Sentence("built the search index anew")) as change:
        assert rebuild_index(change) == 0
