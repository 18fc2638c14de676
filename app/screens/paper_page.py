"""A paper to look at, to print and to save: the very PDF that is filed."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

from PySide6.QtCore import QSettings, Qt
from PySide6.QtWidgets import QDialog, QFileDialog, QWidget

from app.screens.desk import Desk, Paper
from app.screens.kit.buttons import Button
from app.screens.kit.heading import Heading
from app.screens.kit.pdf_view import PdfView, prepare, print_pdf
from app.screens.language import say
from app.screens.page import Page


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
        """Ask the platform's print dialog, then print in bands; trouble is told at the top."""
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
        prepare(printer, self.paper.pdf)  # the dialog may have put the driver's own page in its place
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
