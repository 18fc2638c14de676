"""A paper to look at, print and save."""

from __future__ import annotations

import io
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pypdfium2
import pytest
from PySide6 import QtPrintSupport
from PySide6.QtCore import QSettings
from PySide6.QtGui import QPageSize
from PySide6.QtPrintSupport import QPrintDialog
from PySide6.QtWidgets import QDialog, QFileDialog
from pytestqt.qtbot import QtBot

from app.screens import paper_page as module
from app.screens.counter.papers import paper_of
from app.screens.desk import Desk, Paper
from app.screens.kit.buttons import Button
from app.screens.kit.pdf_view import same_sheet, sheet_words
from app.screens.paper_page import PaperPage
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.work.papers.issuing import paper_pdf
from app.work.papers.printing import prints_of
from tests.papers.reading import whole as words_of
from tests.work.asked import papers_of_job


def pdf() -> bytes:
    from reportlab.pdfgen.canvas import Canvas

    out = io.BytesIO()
    canvas = Canvas(out, pagesize=(300, 400))
    canvas.drawString(20, 20, "ticket 2131")
    canvas.save()
    return out.getvalue()


@pytest.fixture
def page(qtbot: QtBot, desk: Desk, tmp_path: Path) -> PaperPage:
    desk.settings = tmp_path / "s.ini"
    made = PaperPage(desk, Paper("Intake ticket 2131", pdf(), "ticket", "ticket-2131.pdf"))
    qtbot.addWidget(made)
    made.resize(900, 600)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    made.arrive()
    return made


def test_it_is_shown_with_its_name_and_print_has_the_focus(page: PaperPage) -> None:
    assert page.title == "Intake ticket 2131"
    assert page.print_button.hasFocus()
    assert set(page.commands()) == {"print", "save_paper", "leave"}
    page.grab()
    page.put_away()


def test_saving_writes_the_very_bytes(
    page: PaperPage, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    proposed: list[str] = []

    def choose(parent: object, title: str, name: str, kinds: str) -> tuple[str, str]:
        proposed.append(name)
        return str(tmp_path / "out.pdf"), kinds

    monkeypatch.setattr(QFileDialog, "getSaveFileName", choose)
    page.save_now()
    assert proposed == ["ticket-2131.pdf"]
    assert (tmp_path / "out.pdf").read_bytes() == page.paper.pdf
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: ("", ""))
    page.save_now()


def test_a_folder_that_is_not_there_is_told_with_what_to_do(page: PaperPage, tmp_path: Path) -> None:
    page.save_to(tmp_path / "nowhere" / "out.pdf")
    assert page.trouble.isVisible()
    assert "Choose another folder" in page.trouble.words


def press(page: PaperPage, words: str) -> None:
    """Press the button with these words in what stands at the top."""
    (button,) = [one for one in page.trouble.findChildren(Button) if one.text() == words]
    button.click()


def dialog_left_at(path: Path, sheet: QPageSize.PageSizeId | None) -> Callable[[QPrintDialog], int]:
    """The platform's dialog, accepted: a printer into a file, left at this sheet where one is named."""

    def accept(dialog: QPrintDialog) -> int:
        printer = dialog.printer()
        printer.setOutputFormat(QtPrintSupport.QPrinter.OutputFormat.PdfFormat)
        printer.setOutputFileName(str(path))
        if sheet is not None:
            printer.setPageSize(QPageSize(sheet))
        return int(QDialog.DialogCode.Accepted.value)

    return accept


def test_printing_asks_once_and_remembers_the_printer(
    page: PaperPage, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(QPrintDialog, "exec", dialog_left_at(tmp_path / "printed.pdf", None))
    page.print_now()
    assert not page.trouble.isVisible()
    assert (tmp_path / "printed.pdf").stat().st_size > 500
    kept = QSettings(str(tmp_path / "s.ini"), QSettings.Format.IniFormat)
    assert kept.contains("printers/ticket")


def test_another_sheet_in_the_dialog_is_warned_of_once_and_our_page_is_laid_on_again(
    page: PaperPage, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out = tmp_path / "printed.pdf"
    monkeypatch.setattr(QPrintDialog, "exec", dialog_left_at(out, QPageSize.PageSizeId.A3))
    page.print_now()
    assert "This paper is made for 106 × 141 mm; the printer was left at A3." in page.trouble.words
    assert not out.exists()
    press(page, "Print it all the same")
    printed = pypdfium2.PdfDocument(out)
    assert printed[0].get_size() == pytest.approx((300, 400), abs=1.5)
    printed.close()
    out.unlink()
    page.print_now()  # that was said once
    assert not page.trouble.isVisible()
    assert out.exists()
    monkeypatch.setattr(QPrintDialog, "exec", dialog_left_at(out, QPageSize.PageSizeId.A4))
    page.print_now()
    assert "was left at A4" in page.trouble.words


def test_a_sheet_is_the_same_upright_and_lying() -> None:
    from PySide6.QtCore import QSizeF

    millimetre = QPageSize.Unit.Millimeter
    a4 = QPageSize(QPageSize.PageSizeId.A4)
    assert same_sheet(a4, QPageSize(QSizeF(297, 210), millimetre))
    assert not same_sheet(a4, QPageSize(QPageSize.PageSizeId.Letter))
    assert sheet_words(QPageSize(QSizeF(62, 85), millimetre)) == "62 × 85 mm"


def test_giving_up_the_dialog_prints_nothing(page: PaperPage, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(QPrintDialog, "exec", lambda dialog: 0)
    monkeypatch.setattr(module, "print_pdf", lambda *_: pytest.fail("printed"))
    page.print_now()
    assert not page.trouble.isVisible()


def test_a_printer_in_trouble_is_told(page: PaperPage, monkeypatch: pytest.MonkeyPatch) -> None:
    def jams(pdf: bytes, printer: object) -> int:
        raise RuntimeError("out of paper")

    monkeypatch.setattr(QPrintDialog, "exec", lambda dialog: int(QDialog.DialogCode.Accepted.value))
    monkeypatch.setattr(module, "print_pdf", jams)
    page.print_now()
    assert page.trouble.isVisible()
    assert "filed all the same" in page.trouble.words


def test_without_settings_no_printer_is_remembered(qtbot: QtBot, desk: Desk) -> None:
    page = PaperPage(desk, Paper("x", pdf()))
    qtbot.addWidget(page)
    assert page._kept() is None


def test_what_is_printed_is_written_down_and_the_next_print_carries_the_stamp(
    whole: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The first print is the very paper; whoever prints it again hands out a copy that says so."""
    book = whole.bench.book
    (line,) = papers_of_job(book, whole.bench.job)
    file = paper_pdf(book, line.id)
    sheets: list[bytes] = []
    monkeypatch.setattr(module, "print_pdf", lambda pdf, printer: sheets.append(pdf) or 1)
    monkeypatch.setattr(QPrintDialog, "exec", lambda dialog: int(QDialog.DialogCode.Accepted.value))
    page = whole.open("paper", paper_of(file))
    for _ in range(2):
        page.print_now()
        whole.settle()
    assert sheets[0] == file.pdf
    assert "copy" in words_of(sheets[1])
    assert [(one.copied, one.by) for one in prints_of(book, line.id)] == [(False, ""), (True, "")]
    assert "Printed again it carries the stamp" in page.head.below()
    copy = whole.open("paper", paper_of(paper_pdf(book, line.id, copy=True)))
    copy.print_now()
    whole.settle()
    assert "copy" in words_of(sheets[2])
    assert len(prints_of(book, line.id)) == 3


def test_the_window_of_the_shop_remembers_the_printer_of_each_kind(
    whole: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    (line,) = papers_of_job(whole.bench.book, whole.bench.job)
    chosen: list[str] = []
    monkeypatch.setattr(QtPrintSupport.QPrinter, "printerName", lambda self: "label printer")
    monkeypatch.setattr(QtPrintSupport.QPrinter, "setPrinterName", lambda self, name: chosen.append(name))
    monkeypatch.setattr(module, "print_pdf", lambda pdf, printer: 1)
    monkeypatch.setattr(QPrintDialog, "exec", lambda dialog: int(QDialog.DialogCode.Accepted.value))
    for _ in range(2):
        page = whole.open("paper", paper_of(paper_pdf(whole.bench.book, line.id)))
        page.print_now()
        whole.settle()
    assert chosen == ["label printer"]
    other = whole.open("paper", Paper("Bench tag", pdf(), "bench tag"))
    other.print_now()
    whole.settle()
    assert chosen == ["label printer"]  # of a ticket, not of a tag


def test_a_paper_that_is_gone_is_told_before_any_dialog(whole: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    book = whole.bench.book
    (line,) = papers_of_job(book, whole.bench.job)
    page = whole.open("paper", paper_of(paper_pdf(book, line.id)))
    monkeypatch.setattr(QPrintDialog, "exec", lambda dialog: pytest.fail("asked"))

    def gone(book: object, paper_id: int) -> None:
        raise Refusal(Sentence("The filed PDF of “{title}” is missing or damaged.", {"title": "Ticket"}))

    monkeypatch.setattr(module, "_to_print", gone)
    page.print_now()
    whole.settle()
    assert "is missing or damaged" in page.trouble.words
