"""Taking an answer away: to the clipboard, as a picture or a table in a file, as a paper."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtWidgets import QFileDialog

from app.screens.actions import key_of
from app.screens.bench.failures import tell
from app.screens.clipboard import copy_both
from app.screens.desk import Paper
from app.screens.kit.buttons import Button
from app.screens.language import current, say
from app.screens.office.figures.figure_look import Look
from app.screens.printed_list import file_name, printing
from app.trade.statistics.table_words import tab_separated
from app.trade.wording import Wording

if TYPE_CHECKING:
    from app.screens.office.figures.figure_page import FigurePage

PNG, SVG, PDF, CSV = ".png", ".svg", ".pdf", ".csv"


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

    def offer(self) -> None:
        """Show the buttons once there is something to take away."""
        for button in self.buttons:
            self._page.head.set_gone(button, self._page.found is None or self._page.found.is_empty)

    def copy(self) -> None:
        """The tables as text for a sheet and the picture beside it: what pastes them takes what it can."""
        found = self._page.found
        if found is None:
            return
        image = self._page.picture.image() if found.picture.panels else None
        copy_both(tab_separated(found.tables, current()), image)
        self._page.head.set_below(say("The tables and the picture are on the clipboard."))

    def save(self) -> None:
        """Ask where to, and as what."""
        if self._page.found is None:
            return
        kinds = {
            say("Picture (*.png)"): PNG,
            say("Drawing (*.svg)"): SVG,
            say("PDF file (*.pdf)"): PDF,
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
        """Write the picture, or the tables where the name ends so."""
        found = self._page.found
        if found is None:
            return
        if path.suffix.lower() == CSV:
            work = partial(_write_tables, path, found, current())
        else:
            asked = tuple(say(sentence) for sentence in found.asked)
            work = partial(_write_picture, path, found, asked, current())
        self._page.desk.doors.look_up(
            self._page,
            work,
            lambda _: self._page.head.set_below(say("Saved as {path}.", path=str(path))),
            partial(tell, self._page.trouble),
        )

    def print_paper(self) -> None:
        """The answer on one page, to look at and to print."""
        found = self._page.found
        if found is None:
            return
        desk, title = self._page.desk, self._page.title
        name = file_name(title, desk.today().isoformat(), PDF)
        asked = tuple(say(sentence) for sentence in found.asked)
        desk.doors.look_up(
            self._page,
            partial(_paper, desk.book, title, found, asked, current().language),
            lambda pdf: desk.show_paper(Paper(title, pdf, "list", name)),
            partial(tell, self._page.trouble),
        )


# What writes files and papers is loaded with the first of them.


def _write_tables(path: Path, found: Look, wording: Wording) -> None:
    from app.work.statistics.tables.saved import save_tables

    save_tables(found.tables, path, wording)


def _write_picture(path: Path, found: Look, asked: tuple[str, ...], wording: Wording) -> None:
    from app.work.papers.answers import save_picture

    save_picture(found.picture, path, wording, asked)


def _paper(book: Any, title: str, found: Look, asked: tuple[str, ...], language: str) -> bytes:
    from app.work.papers.answers import print_answer

    return print_answer(book, title, found.answer, asked, language)
