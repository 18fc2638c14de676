"""Papers on screen and on the printer are the very PDF that is filed."""

from __future__ import annotations

import io
from pathlib import Path

import pypdfium2
import pytest
from PySide6.QtGui import QPageSize
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.screens.kit import measure
from app.screens.kit.pdf_view import PdfView, open_pdf, page_size_of, prepare, print_pdf, render

A4 = (595.276, 841.89)  # points; source: ISO 216, 210 x 297 mm
LABEL = (175.75, 82.2)
SHEETS = {QPageSize.PageSizeId.A4, QPageSize.PageSizeId.Letter}


def pdf_of(*sizes: tuple[float, float]) -> bytes:
    from reportlab.pdfgen.canvas import Canvas

    out = io.BytesIO()
    canvas = Canvas(out, pagesize=sizes[0])
    for number, size in enumerate(sizes, start=1):
        canvas.setPageSize(size)
        canvas.drawString(20, 20, f"page {number}")
        canvas.rect(10, size[1] - 30, 40, 20, fill=1)
        canvas.showPage()
    canvas.save()
    return out.getvalue()


def test_pages_are_as_wide_as_there_is_room_and_keep_their_shape(qtbot: QtBot) -> None:
    view = PdfView(pdf_of(A4, A4), "Intake ticket 2131")
    qtbot.addWidget(view)
    view.resize(700, 600)
    view.show()
    view.grab()
    assert len(view.pages) == 2
    for page in view.pages:
        assert page.width() > 500
        assert page.height() / page.width() == pytest.approx(A4[1] / A4[0], rel=0.01)
    assert view.pages[1].accessibleName() == "Intake ticket 2131, page 2 of 2"
    view.resize(1600, 600)
    view.grab()
    assert view.pages[0].width() == measure.px(860)
    view.refit()


def test_another_paper_takes_the_place_of_the_first(qtbot: QtBot) -> None:
    view = PdfView(pdf_of(A4, A4), "x")
    qtbot.addWidget(view)
    view.set_pdf(pdf_of(LABEL), "Bench tag")
    assert len(view.pages) == 1
    view.close_pdf()
    assert view.pages == []


def test_what_is_no_pdf_is_refused(qtbot: QtBot) -> None:
    view = PdfView()
    qtbot.addWidget(view)
    with pytest.raises(ValueError, match="PDF"):
        view.set_pdf(b"hello")


def test_the_file_saved_is_the_paper_byte_for_byte(qtbot: QtBot, tmp_path: Path) -> None:
    pdf = pdf_of(A4)
    view = PdfView(pdf, "x")
    qtbot.addWidget(view)
    view.save_as(tmp_path / "ticket.pdf")
    assert (tmp_path / "ticket.pdf").read_bytes() == pdf


@pytest.mark.parametrize(
    "size",
    [A4, LABEL, (612.0, 792.0), (A4[1], A4[0]), (792.0, 612.0)],
    ids=["A4", "label", "Letter", "A4 across", "Letter across"],
)
def test_it_prints_on_a_page_of_its_own_size_without_scaling(
    qapp: QApplication, tmp_path: Path, size: tuple[float, float]
) -> None:
    pdf = pdf_of(size, size)
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(tmp_path / "printed.pdf"))
    prepare(printer, pdf)
    # Sheets go into a printer upright; only what is on them lies across.
    page = printer.pageLayout().pageSize()
    assert page.id() == QPageSize.PageSizeId.Custom if size == LABEL else page.id() in SHEETS
    assert print_pdf(pdf, printer) == 2
    printed = pypdfium2.PdfDocument(tmp_path / "printed.pdf")
    assert len(printed) == 2
    assert printed[0].get_size() == pytest.approx(size, abs=1.5)
    # The same ink at the same place: the black box of the original, in the middle of a band and across two.
    ours, theirs = open_pdf(pdf), printed
    a, b = render(ours[1], 1.0), render(theirs[1], 1.0)
    for x, y in ((30, 20), (30, 12), (30, 28), (60, 20)):
        assert abs(a.pixelColor(x, y).lightness() - b.pixelColor(x, y).lightness()) < 40
    ours.close()
    printed.close()


@pytest.mark.qt_log_ignore("QPainter::begin")  # Qt says so too, after our own error
def test_a_printer_that_does_not_take_the_job_is_told(qapp: QApplication, tmp_path: Path) -> None:
    printer = QPrinter()
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(tmp_path / "no such folder" / "printed.pdf"))
    with pytest.raises(RuntimeError):
        print_pdf(pdf_of(A4), printer)


def test_the_paper_size_is_read_from_the_paper() -> None:
    assert page_size_of(pdf_of(A4)).name() == "A4"
