"""A paper to look at, to print and to save: the very PDF that is filed."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QSettings, Qt
from PySide6.QtGui import QPageSize
from PySide6.QtWidgets import QDialog, QFileDialog, QWidget

from app.screens.desk import Desk, Paper
from app.screens.kit.buttons import Button
from app.screens.kit.heading import Heading
from app.screens.kit.pdf_view import PdfView, page_size_of, prepare, print_pdf, same_sheet, sheet_words
from app.screens.language import say
from app.screens.page import Page

if TYPE_CHECKING:
    from PySide6.QtPrintSupport import QPrinter


class PaperPage(Page):
    """Registered as ``paper``; its key is a `Paper`. The printer is remembered for each kind of paper."""

    help_topic = "papers"
    scrolls = False

    def __init__(
        self, desk: Desk, paper: Paper, settings: Path | None = None, parent: QWidget | None = None
    ) -> None:
        super().__init__(desk, parent)
        self.paper = paper
        self._settings = settings
        self.set_title(paper.title)
        self.head = Heading(paper.title)
        self.print_button = Button(say("Print"), self.print_now, kind="main", key="Ctrl+P")
        save = Button(say("Save as a file…"), self.save_now, key="Ctrl+Shift+E")
        self.head.set_buttons(save, self.print_button)
        self.heading.add(self.head)
        self.sheet.set_margins((0, 9, 0, 0))
        self.view = PdfView(paper.pdf, paper.title)
        self.sheet.add(self.view, stretch=1)

    def arrive(self) -> None:
        self.print_button.setFocus(Qt.FocusReason.OtherFocusReason)

    def put_away(self) -> None:
        self.view.close_pdf()

    def commands(self) -> Mapping[str, Callable[[], object]]:
        return {"print": self.print_now, "save_paper": self.save_now, "leave": self.desk.back}

    def print_now(self) -> None:
        """Ask the platform's print dialog, then print in bands; a wrong sheet and trouble are told at the top."""
        from PySide6.QtPrintSupport import QPrintDialog, QPrinter

        printer = QPrinter(QPrinter.PrinterMode.HighResolution)
        kept = self._kept()
        if kept is not None and (name := str(kept.value(f"printers/{self.paper.kind}", ""))):
            printer.setPrinterName(name)
        prepare(printer, self.paper.pdf)
        printer.setDocName(self.paper.title)
        dialog = QPrintDialog(printer, self)
        if dialog.exec() != QDialog.DialogCode.Accepted:
            return
        chosen = printer.pageLayout().pageSize()
        prepare(printer, self.paper.pdf)  # the dialog may have put the driver's own page in its place
        wrong = self._wrong_sheet(printer, chosen)
        if wrong is None:
            self.trouble.clear()
            self._print_on(printer)
            return
        self.trouble.show_trouble(
            say(
                "This paper is made for {sheet}; {printer} was left at {other}.",
                sheet=sheet_words(page_size_of(self.paper.pdf)),
                printer=printer.printerName() or say("the printer"),
                other=sheet_words(wrong),
            ),
            say("Put the right sheets in and choose that size, or print it all the same: it may be cut."),
            [
                (say("Print it all the same"), partial(self._print_all_the_same, printer, wrong)),
                (say("Choose again"), self.print_now),
            ],
        )

    def _wrong_sheet(self, printer: QPrinter, chosen: QPageSize) -> QPageSize | None:
        """The sheet that the dialog was left at, or that the printer keeps to, where it is not the paper's own and
        nobody said yet that it is well so."""
        ours, kept = page_size_of(self.paper.pdf), self._kept()
        for size in (chosen, printer.pageLayout().pageSize()):
            if same_sheet(size, ours):
                continue
            if kept is None or str(kept.value(self._sheet_key(printer), "")) != sheet_words(size):
                return size
        return None

    def _sheet_key(self, printer: QPrinter) -> str:
        return f"sheets/{self.paper.kind}/{printer.printerName() or 'file'}".replace(" ", "_")

    def _print_all_the_same(self, printer: QPrinter, sheet: QPageSize) -> None:
        """Print, and ask no more about this sheet for this kind of paper on this printer."""
        kept = self._kept()
        if kept is not None:
            kept.setValue(self._sheet_key(printer), sheet_words(sheet))
        self.trouble.clear()
        self._print_on(printer)

    def _print_on(self, printer: QPrinter) -> None:
        try:
            print_pdf(self.paper.pdf, printer)
        except RuntimeError as error:
            self.trouble.show_trouble(
                say("The printer did not take the paper."),
                say("It is filed all the same and can be printed again, or saved as a file."),
                [(say("Print again"), self.print_now), (say("Save as a file…"), self.save_now)],
                details=str(error),
            )
            return
        kept = self._kept()
        if kept is not None:
            kept.setValue(f"printers/{self.paper.kind}", printer.printerName())

    def save_now(self) -> None:
        """Ask where, then write the very bytes."""
        name, _ = QFileDialog.getSaveFileName(
            self, say("Save the paper"), self.paper.name, say("PDF file (*.pdf)")
        )
        if name:
            self.save_to(Path(name))

    def save_to(self, path: Path) -> None:
        """Write the very bytes to a file; trouble is told at the top."""
        try:
            self.view.save_as(path)
        except OSError as error:
            self.trouble.show_trouble(
                say("The file could not be written."),
                say("Choose another folder, or free some space."),
                [(say("Choose another place"), self.save_now)],
                details=str(error),
            )
            return
        self.head.set_below(say("Saved as {path}", path=str(path)))

    def _kept(self) -> QSettings | None:
        if self._settings is None or not self.paper.kind:
            return None
        return QSettings(str(self._settings), QSettings.Format.IniFormat)
