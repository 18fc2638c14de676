"""One person's data: handed out in full, erased everywhere, and history's chain still verifies."""

from __future__ import annotations

import json
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import select

from app.book.attachments import is_whole
from app.book.chain import walk
from app.book.check import check
from app.book.door import Book
from app.book.erase import erase_person
from app.book.opening import open_book
from app.book.person import person_rows, personal_columns
from app.book.tables import Customer, HistoryRow, HistoryText, Job, Message, Paper, Payment, Unit, metadata
from app.trade.bench.stages import Stage
from app.trade.refusal import Fault, Refusal, StaleRow
from app.trade.sentence import Sentence
from tests.book.filled import SETTLE

WHY = Sentence("tried")


def personal_texts(connection: Any) -> list[tuple[str, str, Any]]:
    """Every personal text that still stands in a table: table, column, text."""
    found = []
    for name, table in metadata.tables.items():
        for column in personal_columns(table):
            for (value,) in connection.exec_driver_sql(f'SELECT "{column}" FROM {name}'):
                if value not in ("", "{}", None):
                    found.append((name, column, value))
    return found


def test_every_personal_table_can_be_reached_from_a_customer() -> None:
    for table in metadata.tables.values():
        if personal_columns(table) and table.name != "customers":
            assert {"job_id", "customer_id"} & set(table.columns.keys()), table.name


def test_erasing_blanks_every_personal_text_of_one_and_none_of_another(book: Book) -> None:
    erased, change = erase_person(book, 1, 1)
    assert erased.rows >= 6
    assert erased.invoices_kept == 1
    assert change.changes.customers == {1}
    with book.ask() as session:
        left = personal_texts(session.connection())
        said = list(session.scalars(select(HistoryText.text).where(HistoryText.text != "")))
        customer = session.get_one(Customer, 1)
        assert customer.erased_at == change.now
    assert left
    assert all(str(text).endswith(("2", '2"}')) for _, _, text in left)
    assert said
    assert all("2" in text for text in said)


def test_the_erasure_is_itself_history_and_the_chain_verifies(book: Book) -> None:
    with book.ask() as session:
        before = walk(session.connection())
    erased, _ = erase_person(book, 1, 1)
    with book.ask() as session:
        after = walk(session.connection())
        rows = session.scalars(select(HistoryRow).where(HistoryRow.seq > before.rows)).all()
        assert after.first_bad == 0
        assert after.rows == before.rows + erased.rows
        assert {row.happened for row in rows} == {"erased"}
        assert {(row.row_table, row.row_id) for row in rows} >= {
            ("customers", 1),
            ("jobs", 1),
            ("messages", 1),
        }
        assert {row.action for row in rows} == {"erased a customer's personal data"}
        assert {row.staff_id for row in rows} == {1}
        assert not session.scalars(select(HistoryText).where(HistoryText.seq > before.rows)).all()
    assert check(book).found == ()


def test_the_name_is_gone_from_the_file_itself(book: Book) -> None:
    needles = [
        b"Personal customers name 1",
        b"Personal messages text 1",
        b"Personal papers facts 1",
        b"personal customers",
    ]
    data = book.path.read_bytes()
    assert all(needle in data or needle == needles[3] for needle in needles)
    with book.change(None, WHY) as change:  # the person can be found by name
        change.get(Customer, 1).name = "Zacharias Quint-Elderflower"
    assert b"elderflower" in book.path.read_bytes()
    with book.engine.connect() as connection:  # some builds of SQLite overwrite by themselves
        connection.exec_driver_sql("PRAGMA secure_delete = OFF")
    erase_person(book, 1, 1)
    book.engine.dispose()
    data = book.path.read_bytes()
    for needle in (*needles[:3], b"Zacharias", b"zacharias", b"elderflower"):
        assert needle not in data, needle


def test_filed_papers_go_and_invoices_stay(book: Book) -> None:
    with book.ask() as session:
        ticket = session.get_one(Paper, 1)
        gone, job, facts = ticket.sha256, ticket.job_id, ticket.facts
    from app.book.attachments import store

    bill = store(book.files, b"%PDF an invoice").sha256
    with book.change(1, WHY) as change:
        kept = change.add(
            Paper(
                kind="invoice",
                job_id=job,
                title="Invoice 1",
                language="en",
                facts=facts,
                issued_at=change.now,
                issued_by=1,
                sha256=bill,
            )
        ).id
    erased, _ = erase_person(book, 1, 1)
    assert erased.files == 1
    assert not is_whole(book.files, gone)
    assert is_whole(book.files, bill)
    with book.ask() as session:
        assert session.get_one(Paper, 1).facts == {}
        assert session.get_one(Paper, 1).sha256 == ""
        assert session.get_one(Paper, kept).facts == facts
    assert check(book).found == ()  # an erased paper is not one that waits to be filed


def _filed(book: Book, kind: str, invoiced: bool) -> int:
    """A further paper of the first customer, of the job with an invoice or of another without."""
    with book.change(1, WHY) as change:
        job = 1
        if not invoiced:
            values = {c.name: getattr(change.get(Job, 1), c.name) for c in Job.__table__.columns}
            job = change.add(Job(**{**values, "id": None, "number": 3})).id
        values = {c.name: getattr(change.get(Paper, 1), c.name) for c in Paper.__table__.columns}
        return int(change.add(Paper(**{**values, "id": None, "kind": kind, "job_id": job})).id)


# German law, from memory: vouchers (AO § 147 (1) 4) and letters of a deal that came about (HGB § 257 (1) 2, 3) stay.
@pytest.mark.parametrize(
    ("kind", "invoiced", "stays"),
    [
        ("invoice", True, True),
        ("credit note", True, True),
        ("payment receipt", True, True),
        ("payment receipt", False, True),  # of a deposit that was given back
        ("reminder", True, True),
        ("uncollected notice", False, True),
        ("estimate", True, True),
        ("estimate", False, False),
        ("intake ticket", True, False),
        ("hand-back receipt", True, False),
        ("service report", True, False),
    ],
)
def test_what_the_law_has_the_shop_keep_stays_and_no_hand_can_blank_it(
    book: Book, kind: str, invoiced: bool, stays: bool
) -> None:
    paper = _filed(book, kind, invoiced)
    erase_person(book, 1, 1)
    with book.ask() as session:
        row = session.get_one(Paper, paper)
        assert bool(row.facts) is stays
        assert bool(row.sha256) is stays
    with closing(sqlite3.connect(book.path)) as hand:
        if stays:
            with pytest.raises(sqlite3.IntegrityError, match="never changes"):
                hand.execute("UPDATE papers SET facts = '{}' WHERE id = ?", (paper,))


def test_a_file_that_another_paper_names_too_stays(book: Book) -> None:
    with book.ask() as session:
        shared = session.get_one(Paper, 1).sha256
    with book.change(1, WHY) as change:
        change.get(Paper, 2).sha256 = shared
    erased, _ = erase_person(book, 1, 1)
    assert erased.files == 0
    assert is_whole(book.files, shared)


def test_cards_merged_into_the_person_are_erased_with_it(book: Book) -> None:
    with book.change(None, WHY) as change:
        second = change.add(Customer(name="Same Person", created_at=change.now, merged_into_id=1)).id
        third = change.add(Customer(name="Same Again", created_at=change.now, merged_into_id=second)).id
    erase_person(book, 1, third)  # whichever card is meant
    with book.ask() as session:
        names = session.scalars(select(Customer.name).where(Customer.id.in_((1, second, third)))).all()
    assert names == ["", "", ""]


def test_a_job_still_in_the_shop_stops_it(book: Book) -> None:
    with book.change(None, WHY) as change:
        change.get(Job, 1).stage = Stage.READY
    with pytest.raises(Refusal, match="still in the shop"):
        erase_person(book, 1, 1)
    with book.ask() as session:
        assert session.get_one(Customer, 1).name


@pytest.mark.parametrize("amount", [-1, 1, -5950])
def test_money_still_open_either_way_stops_it(book: Book, amount: int) -> None:
    with book.change(None, WHY) as change:
        change.add(
            Payment(
                job_id=1, kind="payment", amount=amount, currency="EUR", means="cash", at=change.now, by=1
            )
        )
    with pytest.raises(Refusal, match="still open"):
        erase_person(book, 1, 1)


def test_a_deposit_that_nothing_was_charged_for_stops_it(empty: Book, book: Book) -> None:
    with book.change(None, WHY) as change:
        unit = change.get(Unit, 1)
        values = {c.name: getattr(change.get(Job, 1), c.name) for c in Job.__table__.columns}
        job = change.add(Job(**{**values, "id": None, "number": 3, "unit_id": unit.id})).id
        change.add(
            Payment(
                job_id=job, kind="deposit", amount=2000, currency="EUR", means="cash", at=change.now, by=1
            )
        )
    with pytest.raises(Refusal, match="still open"):
        erase_person(book, 1, 1)


def test_an_erased_card_is_not_erased_again(book: Book) -> None:
    erase_person(book, 1, 1)
    with pytest.raises(Refusal, match="erased already"):
        erase_person(book, 1, 1)


def test_a_form_still_open_elsewhere_cannot_bring_the_texts_back(book: Book) -> None:
    with book.ask() as session:
        version = session.get_one(Customer, 1).version
    erase_person(book, 1, 1)
    with pytest.raises(StaleRow), book.change(None, WHY) as change:
        change.get(Customer, 1, version=version).name = "typed before"


def test_an_erasure_that_fails_changes_nothing(book: Book, monkeypatch: pytest.MonkeyPatch) -> None:
    from app.book import erase as erasing

    def fail(*_: object) -> Any:
        raise ZeroDivisionError

    with book.ask() as session:
        before = personal_texts(session.connection())
    monkeypatch.setattr(erasing, "_blank_papers", fail)
    with pytest.raises(ZeroDivisionError):
        erase_person(book, 1, 1)
    with book.ask() as session:
        assert personal_texts(session.connection()) == before


def test_the_person_can_no_longer_be_found(book: Book) -> None:
    from app.book.tables import FindWords

    with book.ask() as session:
        assert session.scalar(select(FindWords.id).where(FindWords.kind == "customer", FindWords.ref_id == 1))
    erase_person(book, 1, 1)
    with book.ask() as session:
        assert not session.scalar(
            select(FindWords.id).where(FindWords.kind == "customer", FindWords.ref_id == 1)
        )
        job = session.scalars(
            select(FindWords.words).where(FindWords.kind == "job", FindWords.ref_id == 1)
        ).one()
    assert "personal" not in job


def test_one_persons_data_is_handed_out_in_full_and_nobody_elses(book: Book) -> None:
    with book.ask() as session:
        rows = person_rows(session, 1)
    assert {
        "customers",
        "units",
        "jobs",
        "messages",
        "readings",
        "invoices",
        "invoice_lines",
        "safety_steps",
    } <= set(rows)
    assert all(len(some) == 1 for some in rows.values())
    text = json.dumps(rows)
    assert "Personal customers name 1" in text
    assert "name 2" not in text
    assert "pin_hash" not in text


def test_of_a_player_that_was_sold_the_next_owners_jobs_are_not_handed_out(book: Book) -> None:
    with book.change(None, WHY) as change:
        values = {c.name: getattr(change.get(Job, 2), c.name) for c in Job.__table__.columns}
        job = change.add(Job(**{**values, "id": None, "number": 3, "unit_id": 1})).id
        change.add(
            Message(job_id=job, to_customer=True, way="letter", text="to the next owner", at=change.now, by=1)
        )
    with book.ask() as session:
        assert "next owner" not in json.dumps(person_rows(session, 1))


def test_nobody_is_nobody(book: Book) -> None:
    with pytest.raises(Fault, match="no customer"), book.ask() as session:
        person_rows(session, 99)


def test_an_erased_book_opens_and_is_sound(book: Book, closed: Path) -> None:
    erase_person(book, 1, 1)
    book.close()
    again = open_book(closed, settle=SETTLE)
    try:
        assert check(again).found == ()
    finally:
        again.close()
    with closing(sqlite3.connect(closed)) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchone()[0] == "ok"
