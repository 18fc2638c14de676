"""What the bookkeeper gets: a journal that a spreadsheet reads, its columns explained, and the papers as PDFs."""

from __future__ import annotations

import csv
from datetime import date
from pathlib import Path

import pytest

from app.book import attachments
from app.book.tables import Paper
from app.trade.bench.kinds import Means
from app.trade.calendar.period import Period
from app.trade.money import Money
from app.trade.office.credit_note import everything
from app.trade.refusal import Refusal
from app.trade.upkeep.csv_text import Mark
from app.work.language import wording_for
from app.work.office.credit_notes import issue_credit_note
from app.work.office.for_bookkeeper import write_for_bookkeeper
from app.work.office.invoices import issue_invoice
from app.work.office.payments import take_payment
from app.work.papers.issuing import file_paper
from tests.work.asked import credit_view

MARCH = Period(date(2026, 3, 1), date(2026, 3, 31))
SPAN = "2026-03-01_2026-03-31"


@pytest.fixture
def invoiced(worked):
    """An invoice with its PDF filed, a payment whose note would run in a spreadsheet, and a credit note unfiled."""
    worked.issued = issue_invoice(worked.book, worked.who, worked.job).value
    file_paper(worked.book, worked.issued.paper_id, worked.who)
    take_payment(worked.book, worked.who, worked.job, Money(500, "EUR"), Means.CASH, note="=HYPERLINK(0)")
    wanted = everything(credit_view(worked.book, worked.issued.id).left)
    issue_credit_note(worked.book, worked.who, worked.issued.id, wanted, "written twice")
    return worked


def write(bench, folder: Path, period=MARCH, language="en", **more):
    return write_for_bookkeeper(bench.book, folder, period, wording_for(language, bench.book.zone), **more)


def told(folder: Path, name: str, separator: str = ",") -> list[dict[str, str]]:
    text = (folder / name).read_text(encoding="utf-8-sig")
    return list(csv.DictReader(text.splitlines(), delimiter=separator))


def test_the_folder_holds_journal_columns_and_papers(invoiced, tmp_path):
    written = write(invoiced, tmp_path / "out")
    assert sorted(str(p.relative_to(tmp_path / "out")) for p in (tmp_path / "out").rglob("*")) == [
        "journal_2026-03-01_2026-03-31.csv",
        "journal_columns.csv",
        f"papers_{SPAN}",
        f"papers_{SPAN}/credit_note_C-0001.pdf",
        f"papers_{SPAN}/invoice_0001.pdf",
    ]
    assert (written.papers, written.lacking, written.sums.rows) == (2, (), 3)
    assert (written.sums.turnover.minor, written.sums.paid.minor) == (0, 500)


def test_the_invoice_is_the_very_pdf_that_is_filed_and_nothing_is_written_into_the_book(invoiced, tmp_path):
    write(invoiced, tmp_path)
    with invoiced.book.ask() as session:
        paper = session.get_one(Paper, invoiced.issued.paper_id)
        filed = attachments.read(invoiced.book.files, paper.sha256)
        unfiled = [row.credit_note_id for row in session.query(Paper) if not row.sha256]
    assert (tmp_path / f"papers_{SPAN}" / "invoice_0001.pdf").read_bytes() == filed
    assert (tmp_path / f"papers_{SPAN}" / "credit_note_C-0001.pdf").read_bytes().startswith(b"%PDF")
    assert any(unfiled)


def test_no_text_runs_and_numbers_are_numbers(invoiced, tmp_path):
    write(invoiced, tmp_path)
    rows = told(tmp_path, f"journal_{SPAN}.csv")
    assert [row["kind"] for row in rows] == ["invoice", "credit note", "payment"]
    assert (rows[0]["date"], rows[0]["vat_percent"], rows[0]["net"]) == ("2026-03-12", "19", "99.80")
    assert (rows[2]["text"], rows[2]["paid"]) == ("'=HYPERLINK(0)", "5.00")
    assert rows[1]["gross"] == "-118.76"  # no apostrophe: a number is no text that could run


def test_a_decimal_comma_comes_with_semicolons_and_the_meanings_in_the_language(invoiced, tmp_path):
    write(invoiced, tmp_path, language="de", mark=Mark.COMMA)
    rows = told(tmp_path, f"journal_{SPAN}.csv", ";")
    assert rows[1]["gross"] == "-118,76"
    columns = told(tmp_path, "journal_columns.csv", ";")
    assert [row["column"] for row in columns] == list(rows[0])
    assert columns[4]["meaning"] == "Nummer des Auftrags."


def test_an_empty_period_gives_an_empty_journal(invoiced, tmp_path):
    written = write(invoiced, tmp_path, Period(date(2020, 1, 1), date(2020, 12, 31)))
    assert (written.papers, written.sums.rows) == (0, 0)
    assert told(tmp_path, "journal_2020-01-01_2020-12-31.csv") == []


def test_a_paper_that_is_missing_keeps_nobody_from_the_rest(invoiced, tmp_path):
    with invoiced.book.ask() as session:
        sha256 = session.get_one(Paper, invoiced.issued.paper_id).sha256
    attachments.place_of(invoiced.book.files, sha256).unlink()
    written = write(invoiced, tmp_path)
    assert [name for name, _ in written.lacking] == ["invoice_0001.pdf"]
    assert written.papers == 1
    assert [path.name for path in (tmp_path / f"papers_{SPAN}").iterdir()] == ["credit_note_C-0001.pdf"]


def test_stopped_nothing_is_left_and_what_stood_there_stays(invoiced, tmp_path):
    write(invoiced, tmp_path)
    before = {path: path.read_bytes() for path in tmp_path.rglob("*") if path.is_file()}
    seen = []

    def stop(done, of, name):
        seen.append((done, of, name))
        if done == 1:
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        write(invoiced, tmp_path, watch=stop)
    assert seen == [(0, 2, "invoice_0001.pdf"), (1, 2, "credit_note_C-0001.pdf")]
    assert {path: path.read_bytes() for path in tmp_path.rglob("*") if path.is_file()} == before


def test_once_files_are_laid_in_place_it_is_too_late_to_stop(invoiced, tmp_path, monkeypatch):
    """Half of the new files among the old ones would be a folder that nobody can trust."""
    asked = []
    really = Path.replace

    def replace(path, to):
        asked.append(path)
        if len(asked) in (1, 3):
            raise KeyboardInterrupt
        return really(path, to)

    monkeypatch.setattr(Path, "replace", replace)
    folder = tmp_path / "for the bookkeeper"
    written = write(invoiced, folder)
    assert len(asked) == 6
    assert {path.name for path in folder.rglob("*.*")} == {
        written.journal.name,
        "journal_columns.csv",
        "invoice_0001.pdf",
        "credit_note_C-0001.pdf",
    }


def test_a_folder_that_cannot_be_made_is_refused(invoiced, tmp_path):
    (tmp_path / "file").write_text("no folder")
    with pytest.raises(Refusal) as refusal:
        write(invoiced, tmp_path / "file")
    assert refusal.value.next_step is not None
