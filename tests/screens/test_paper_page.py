"""A paper to look at, print and save."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from PySide6 import QtPrintSupport
from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QDialog, QFileDialog
from pytestqt.qtbot import QtBot

from app.screens import paper_page as module
from app.screens.desk import Desk, Paper
from app.screens.paper_page import PaperPage


def pdf() -> bytes:
    from reportlab.pdfgen.canvas import Canvas

    out = io.BytesIO()
    canvas = Canvas(out, pagesize=(300, 400))
    canvas.drawString(20, 20, "ticket 2131")
    canvas.save()
    return out.getvalue()


@pytest.fixture
def page(qtbot: QtBot, desk: Desk, tmp_path: Path) -> PaperPage:
    made = PaperPage(
        desk, Paper("Intake ticket 2131", pdf(), "ticket", "ticket-2131.pdf"), tmp_path / "s.ini"
    )
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


def test_printing_asks_once_and_remembers_the_printer(
    page: PaperPage, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    sizes: list[float] = []

    def accept(dialog: QtPrintSupport.QPrintDialog) -> int:
        printer = dialog.printer()
        printer.setOutputFormat(QtPrintSupport.QPrinter.OutputFormat.PdfFormat)
        printer.setOutputFileName(str(tmp_path / "printed.pdf"))
        # Some drivers put their own page in the place of ours.
        from PySide6.QtGui import QPageSize

        printer.setPageSize(QPageSize(QPageSize.PageSizeId.A3))
        return int(QDialog.DialogCode.Accepted.value)

    monkeypatch.setattr(QtPrintSupport.QPrintDialog, "exec", accept)
    page.print_now()
    assert (tmp_path / "printed.pdf").stat().st_size > 500
    import pypdfium2

    printed = pypdfium2.PdfDocument(tmp_path / "printed.pdf")
    sizes += printed[0].get_size()
    printed.close()
    assert sizes == pytest.approx([300, 400], abs=1.5)
    kept = QSettings(str(tmp_path / "s.ini"), QSettings.Format.IniFormat)
    assert kept.contains("printers/ticket")
    page.print_now()


def test_giving_up_the_dialog_prints_nothing(page: PaperPage, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(QtPrintSupport.QPrintDialog, "exec", lambda dialog: 0)
    monkeypatch.setattr(module, "print_pdf", lambda *_: pytest.fail("printed"))
    page.print_now()
    assert not page.trouble.isVisible()


def test_a_printer_in_trouble_is_told(page: PaperPage, monkeypatch: pytest.MonkeyPatch) -> None:
    def jams(pdf: bytes, printer: object) -> int:
        raise RuntimeError("out of paper")

    monkeypatch.setattr(
        QtPrintSupport.QPrintDialog, "exec", lambda dialog: int(QDialog.DialogCode.Accepted.value)
    )
    monkeypatch.setattr(module, "print_pdf", jams)
    page.print_now()
    assert page.trouble.isVisible()
    assert "filed all the same" in page.trouble.words


def test_without_settings_no_printer_is_remembered(qtbot: QtBot, desk: Desk) -> None:
    page = PaperPage(desk, Paper("x", pdf()))
    qtbot.addWidget(page)
    assert page._kept() is None
