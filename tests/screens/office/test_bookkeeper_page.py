"""For the bookkeeper: a period's journal looked at, written with its papers, and stopped."""

from __future__ import annotations

from datetime import date

import pytest

from app.screens.office.period_bar import CHOSEN, THIS_MONTH, YEAR
from app.trade.bench.kinds import Means
from app.trade.calendar.period import Period
from app.trade.money import Money
from app.trade.upkeep.csv_text import Mark
from app.work.office import for_bookkeeper
from app.work.office.invoices import issue_invoice
from app.work.office.payments import take_payment
from tests.screens.office.conftest import lines

SPAN = "2026-03-01_2026-03-31"


@pytest.fixture
def paid(worked):
    """An invoice of this month and a payment on it."""
    issue_invoice(worked.book, worked.who, worked.job)
    take_payment(worked.book, worked.who, worked.job, Money(5000, "EUR"), Means.CARD, note="rest by transfer")
    return worked


def opened(office, span=THIS_MONTH):
    page = office.open("bookkeeper")
    page.bar.span.set_value(span)
    page.bar.span.changed.emit(span)
    office.settle()
    return page


def test_the_month_before_is_proposed_and_says_when_nothing_happened(office, paid):
    page = office.open("bookkeeper")
    assert "Nothing was invoiced, credited or paid in this period" in office.sees()
    assert page.told() == ("1\u00a0Feb\u00a02026 to 28\u00a0Feb\u00a02026",)
    page.add()
    office.settle()
    assert office.page.title == "Invoices"


def test_the_rows_of_a_month_lead_to_their_invoice(office, paid):
    page = opened(office)
    day, *invoice = lines(page.table)[0]
    assert day == "12\u00a0Mar\u00a02026"
    # 99.80 net, 18.96 VAT: worked out by hand.
    assert invoice[:4] == ["invoice", "0001", "", "1001"]
    assert invoice[5:9] == ["19 %", "99.80", "18.96", "118.76"]
    assert lines(page.table)[1][1:4] == ["payment rest by transfer", "", "0001"]
    assert lines(page.table)[1][10:] == ["50.00", "card"]
    assert "118.76\u00a0EUR with VAT, 18.96\u00a0EUR of it VAT. 50.00\u00a0EUR taken." in office.sees()
    opened_pages = []
    page.desk.open = lambda kind, key=None: opened_pages.append((kind, key))
    page.open(1)
    assert opened_pages == [("invoice", paid.job)]


def test_days_are_chosen_and_what_is_wrong_stands_under_its_field(office, paid):
    page = opened(office, CHOSEN)
    page.bar.since.set_day(date(2026, 3, 12))
    page.bar.until.set_day(date(2026, 3, 1))
    office.settle()
    assert "is before" in page.bar.until.error()
    page.start(None)
    assert page.progress.isHidden()
    page.bar.until.set_day(date(2026, 3, 12))
    office.settle()
    assert page.bar.until.error() == ""
    assert page.bar.period() == Period(date(2026, 3, 12), date(2026, 3, 12))
    assert len(lines(page.table)) == 2
    page.bar.since.set_day(None)
    office.settle()
    assert page.bar.since.error()


def test_the_files_are_written_and_said(office, paid, tmp_path):
    page = opened(office)
    page.bar.mark.set_value(Mark.COMMA)
    page.start(tmp_path / "out")
    office.settle()
    assert sorted(path.name for path in (tmp_path / "out").iterdir()) == [
        f"journal_{SPAN}.csv",
        "journal_columns.csv",
        f"papers_{SPAN}",
    ]
    assert "118,76" in (tmp_path / "out" / f"journal_{SPAN}.csv").read_text(encoding="utf-8-sig")
    assert page.done.text() == (
        f"Written into {tmp_path / 'out'}: the journal with 2 rows, what its columns mean, 1 paper as PDF."
    )


def test_a_paper_that_is_not_whole_is_told(office, paid, tmp_path, monkeypatch):
    from app.trade.refusal import Refusal
    from app.trade.sentence import Sentence

    def gone(book, paper_id):
        raise Refusal(Sentence("The file is gone."))

    monkeypatch.setattr(for_bookkeeper, "paper_as_filed", gone)
    page = opened(office)
    page.start(tmp_path / "out")
    office.settle()
    assert "0 papers as PDF" in page.done.text()
    assert "invoice_0001.pdf: The file is gone." in page.trouble.words


def test_it_can_be_stopped_and_leaves_nothing(office, paid, tmp_path, monkeypatch):
    page = opened(office)
    kept = for_bookkeeper.paper_as_filed

    def stopping(book, paper_id):
        page._ticket.cancel()  # as the button does, while the first paper is written
        return kept(book, paper_id)

    monkeypatch.setattr(for_bookkeeper, "paper_as_filed", stopping)
    page.start(tmp_path / "out")
    office.settle()
    page._stopped()
    assert page.done.text() == "Stopped. What was half written was taken away again."
    assert list((tmp_path / "out").iterdir()) == []
    assert office.focus is page.write_button


def test_a_folder_that_cannot_be_written_is_told(office, paid, tmp_path):
    (tmp_path / "file").write_text("no folder")
    page = opened(office)
    page.start(tmp_path / "file")
    office.settle()
    assert "failed" in page.trouble.words
    assert page.progress.isHidden()


def test_writing_asks_for_a_folder(office, paid, tmp_path, monkeypatch):
    from PySide6.QtWidgets import QFileDialog

    answers = iter(["", str(tmp_path / "there")])
    monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *asked: next(answers))
    page = opened(office, YEAR)
    page.ask_folder()
    office.push(page.write_button)
    office.settle()
    assert (tmp_path / "there" / "journal_2025-01-01_2025-12-31.csv").exists()


def test_more_rows_than_can_be_looked_at_are_counted(office, paid, monkeypatch):
    from app.screens.office import bookkeeper_page

    monkeypatch.setattr(bookkeeper_page, "MOST", 1)
    page = opened(office)
    assert len(lines(page.table)) == 1
    assert "The first 1 of 2 rows stand here; the file has all." in office.sees()
