"""Taking an answer away: to the clipboard, as a picture or a table in a file, as a paper."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QMimeData
from PySide6.QtGui import QGuiApplication, QImage
from PySide6.QtWidgets import QFileDialog

from app.screens.actions import key_of
from app.screens.bench.failures import tell
from app.screens.kit.buttons import Button
from app.screens.language import current, say
from app.screens.office.figures.figure_look import Look
from app.screens.office.figures.figure_tables import columns_of, rows_of
from app.screens.printed_list import file_name, printing, show_list
from app.trade.statistics.table_words import csv_sheet, tab_separated
from app.trade.upkeep.csv_text import mark_like
from app.trade.wording import Wording

if TYPE_CHECKING:
    from app.screens.office.figures.figure_page import FigurePage

PNG, CSV = ".png", ".csv"


class TakingAway:
    """The buttons at the head of a page of figures, and what they do with the answer that stands there."""

    def __init__(self, page: FigurePage) -> None:
        self._page = page
        self.copy_button = Button(say("Copy"), self.copy, key=key_of("copy_answer"))
        self.save_button = Button(say("Save as…"), self.save)
        self.print_button = Button(say("Print"), self.print_paper, key=key_of("print"))
        self.buttons = (self.copy_button, self.save_button, self.print_button)

    def commands(self) -> Mapping[str, Callable[[], object]]:
        """The actions of the menu that it serves."""
        return {**printing(self.print_paper), "copy_answer": self.copy, "save_paper": self.save}

    def copy(self) -> None:
        """The tables as text for a sheet and the picture beside it: what pastes them takes what it can."""
        found = self._page.found
        if found is None:
            return
        both = QMimeData()
        both.setText(tab_separated(found.tables, current()))
        if found.picture.panels:
            both.setImageData(self._page.picture.image())
        QGuiApplication.clipboard().setMimeData(both)
        self._page.head.set_below(say("The tables and the picture are on the clipboard."))

    def save(self) -> None:
        """Ask where to, and as what."""
        if self._page.found is None:
            return
        kinds = {
            say("Picture (*.png)"): PNG,
            say("Tables (*.csv)"): CSV,
        }
        day = self._page.desk.today().isoformat()
        name, chosen = QFileDialog.getSaveFileName(
            self._page, say("Save the answer"), file_name(self._page.title, day, ""), ";;".join(kinds)
        )
        if name:
            path = Path(name)
            known = path.suffix.lower() in kinds.values()
            self.save_to(path if known else path.with_name(path.name + kinds.get(chosen, PNG)))

    def save_to(self, path: Path) -> None:
        """Write by the ending of the name: the picture, the paper, or the tables."""
        found = self._page.found
        if found is None:
            return
        if path.suffix.lower() == CSV:
            work: Callable[[], object] = partial(_write_csv, path, found, current())
        else:
            work = partial(_write_image, path, self._page.picture.image())
        self._page.desk.doors.look_up(
            self._page,
            work,
            lambda _: self._page.head.set_below(say("Saved as {path}.", path=str(path))),
            self._failed,
        )

    def _failed(self, error: Exception) -> None:
        if not isinstance(error, OSError):
            tell(self._page.trouble, error)
            return
        self._page.trouble.show_trouble(
            say("The file could not be written."),
            say("Choose another folder, or free some space."),
            [(say("Choose another place"), self.save)],
            details=str(error),
        )

    def print_paper(self) -> None:
        """The first table as a paper, to look at and to print."""
        found = self._page.found
        if found is not None and found.tables:
            first = found.tables[0]
            about = (say(found.answer.headline), *self._page.told())
            show_list(self._page, self._page.title, about, columns_of(first), rows_of(first))


def _write_csv(path: Path, found: Look, wording: Wording) -> None:
    text = csv_sheet(found.tables, wording, mark_like(wording.decimal_mark))
    path.write_text(text, encoding="utf-8", newline="")


def _write_image(path: Path, image: QImage) -> None:
    if not image.save(str(path)):
        raise OSError(str(path))
