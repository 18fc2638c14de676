"""A paper to look at, to print and to save: the very PDF that is filed."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QSettings, Qt
from PySide6.QtGui import QPageSize
from PySide6.QtWidgets import QDialog, QFileDialog, QWidget

from app.screens.bench.failures import tell
from app.screens.desk import Desk, Paper
from app.screens.kit.buttons import Button
from app.screens.kit.heading import Heading
from app.screens.kit.pdf_view import PdfView, page_size_of, prepare, print_pdf, same_sheet, sheet_words
from app.screens.language import moment, say
from app.screens.page import Page

if TYPE_CHECKING:
    from PySide6.QtPrintSupport import QPrinter

    from app.work.papers.issuing import PaperFile
    from app.work.papers.printing import Printed
    from app.work.shop_book import Book, Done


class PaperPage(Page):
    """Registered as ``paper``; its key is a `Paper`. The printer is remembered for each kind of paper."""

    help_topic = "papers"
    scrolls = False

    def __init__(self, desk: Desk, paper: Paper, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.paper = paper
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
        self._tell_prints()

    def _tell_prints(self) -> None:
        """Say when it was printed, as the next print carries the stamp."""
        if self.paper.id is not None and not self.paper.copied:
            self.desk.doors.look_up(
                self, partial(_prints, self.desk.book, self.paper.id), self._show_prints, self._tell
            )

    def _show_prints(self, prints: tuple[Printed, ...]) -> None:
        if prints:
            last = prints[-1]
            who = f", {last.by}" if last.by else ""
            self.head.set_below(
                say(
                    "Printed {when}. Printed again it carries the stamp “copy”.",
                    when=f"{moment(last.at)}{who}",
                )
            )

    def put_away(self) -> None:
        self.view.close_pdf()

    def commands(self) -> Mapping[str, Callable[[], object]]:
        return {"print": self.print_now, "save_paper": self.save_now, "leave": self.desk.back}

    def print_now(self) -> None:
        """Ask the platform's print dialog, then print in bands; a wrong sheet and trouble are told at the top.
        An issued paper that was printed before is printed with the stamp."""
        if self.paper.id is None or self.paper.copied:
            self._print(self.paper.pdf, copied=self.paper.copied)
            return
        self.desk.change(
            self,
            partial(_to_print, self.desk.book, self.paper.id),
            lambda file: self._print(file.pdf, copied=file.copied),
            self._tell,
        )

    def _tell(self, error: Exception) -> None:
        tell(self.trouble, error)

    def _print(self, pdf: bytes, *, copied: bool) -> None:
        from PySide6.QtPrintSupport import QPrintDialog, QPrinter

        printer = QPrinter(QPrinter.PrinterMode.HighResolution)
        kept = self._kept()
        if kept is not None and (name := str(kept.value(f"printers/{self.paper.kind}", ""))):
            printer.setPrinterName(name)
        prepare(printer, pdf)
        printer.setDocName(self.paper.title)
        dialog = QPrintDialog(printer, self)
        if dialog.exec() != QDialog.DialogCode.Accepted:
            return
        chosen = printer.pageLayout().pageSize()
        prepare(printer, pdf)  # the dialog may have put the driver's own page in its place
        wrong = self._wrong_sheet(printer, chosen)
        if wrong is None:
            self.trouble.clear()
            self._print_on(printer, pdf, copied)
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
                (
                    say("Print it all the same"),
                    partial(self._print_all_the_same, printer, wrong, pdf, copied),
                ),
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

    def _print_all_the_same(self, printer: QPrinter, sheet: QPageSize, pdf: bytes, copied: bool) -> None:
        """Print, and ask no more about this sheet for this kind of paper on this printer."""
        kept = self._kept()
        if kept is not None:
            kept.setValue(self._sheet_key(printer), sheet_words(sheet))
        self.trouble.clear()
        self._print_on(printer, pdf, copied)

    def _print_on(self, printer: QPrinter, pdf: bytes, copied: bool) -> None:
        try:
            print_pdf(pdf, printer)
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
        if self.paper.id is not None:
            who = self.desk.staff.id if self.desk.staff is not None else None
            self.desk.change(
                self,
                partial(_note, self.desk.book, who, self.paper.id, copied=copied),
                lambda _: self._tell_prints(),
                self._tell,
            )

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
        if self.desk.settings is None or not self.paper.kind:
            return None
        return QSettings(str(self.desk.settings), QSettings.Format.IniFormat)


# The papers' own code is loaded with the first of them.


def _prints(book: Book, paper_id: int) -> tuple[Printed, ...]:
    from app.work.papers.printing import prints_of

    return prints_of(book, paper_id)


def _to_print(book: Book, paper_id: int) -> PaperFile:
    from app.work.papers.printing import paper_to_print

    return paper_to_print(book, paper_id)


def _note(book: Book, who: int | None, paper_id: int, *, copied: bool) -> Done[int]:
    from app.work.papers.printing import note_printed

    return note_printed(book, who, paper_id, copied=copied)
