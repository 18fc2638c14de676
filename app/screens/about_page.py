"""About Spindlebook: which program, which book, which licence, and what it cannot take off anybody's hands."""

from __future__ import annotations

import logging
from collections.abc import Callable, Mapping
from decimal import Decimal
from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QSizePolicy, QWidget

from app import __version__
from app.screens.desk import Desk
from app.screens.kit.boxes import Column
from app.screens.kit.buttons import Button
from app.screens.kit.cells import Column as TableColumn
from app.screens.kit.cells import Row, Words
from app.screens.kit.form import Form
from app.screens.kit.heading import Heading, Rule
from app.screens.kit.label import Label
from app.screens.kit.measure import px
from app.screens.kit.section import Section
from app.screens.kit.table import SmallTable
from app.screens.language import say
from app.screens.log_file import NAME, log_folder
from app.screens.page import Page
from app.screens.versions import Part, parts, runs_on, versions
from app.trade.sentence import Measure
from app.work.upkeep.about_book import AboutBook, about_book

LICENCE = Path(__file__).resolve().parents[2] / "LICENSE"
_log = logging.getLogger(__name__)


class _Value(Label):
    """A fact behind its soft label, its first line as high as the label's."""

    def __init__(self, text: str = "") -> None:
        super().__init__(text, wrap=True)
        policy = self.sizePolicy()
        policy.setHorizontalPolicy(QSizePolicy.Policy.Expanding)
        self.setSizePolicy(policy)

    def refit(self) -> None:
        super().refit()
        self.setContentsMargins(0, px(7), 0, 0)


class AboutPage(Page):
    """Registered as ``about``, in no place."""

    help_topic = "about"

    def __init__(self, desk: Desk, key: Any = None, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.set_title(say("About Spindlebook"))
        self.head = Heading(
            say("About Spindlebook"),
            below=say("The shop's book for a workshop that mends optical-disc players."),
        )
        self.copy = Button(say("Copy details"), self.copy_details)
        self.head.set_buttons(self.copy)
        self.heading.add(self.head, 9, Rule())
        self._about: AboutBook | None = None
        form = Form()
        form.section(say("Program"))
        form.row(say("Version"), _Value(__version__))
        form.row(say("Runs on"), _Value(runs_on()))
        form.row(say("Log"), _Value(str(log_folder() / NAME)))
        form.section(say("Book"))
        self._path, self._files, self._copies, self._kept = (_Value() for _ in range(4))
        form.row(say("File"), self._path)
        form.row(say("Papers, photos"), self._files)
        form.row(say("Copies"), self._copies)
        form.row(say("Kept by"), self._kept)
        form.section(say("Safety"))
        for text in safety_words():
            form.row("", _Value(text))
        self.sheet.add(form, self._licence(), self._parts())

    def reload(self, changes: Any = None) -> None:
        self.desk.doors.look_up(self, partial(about_book, self.desk.book), self._show, self._failed)
        if not self.parts.rows_model().rowCount():
            self.desk.doors.look_up(self, parts, self._show_parts)

    def arrive(self) -> None:
        self.copy.setFocus(Qt.FocusReason.OtherFocusReason)

    def commands(self) -> Mapping[str, Callable[[], object]]:
        return {"leave": self.desk.back}

    def details(self) -> str:
        """What goes to the clipboard: the same in every language, for those who look after the program."""
        lines = [versions(), f"log {log_folder() / NAME}"]
        if (about := self._about) is not None:
            lines += [
                f"book {about.path}, {about.size} bytes, schema {about.schema}, {about.history_rows} history rows",
                f"SQLite {about.sqlite}, journal {about.journal}",
            ]
        return "\n".join(lines)

    def copy_details(self) -> None:
        """Put the details on the clipboard and say so."""
        QGuiApplication.clipboard().setText(self.details())
        self.head.set_below(say("The details are on the clipboard."))

    def _show(self, about: AboutBook) -> None:
        self._about = about
        size = Measure(Decimal(about.size / 1_000_000).quantize(Decimal("0.1")), "MB")
        self._path.setText(say("{path}, {size}", path=str(about.path), size=size))
        self._files.setText(str(about.files))
        self._copies.setText(str(about.copies))
        self._kept.setText(
            say(
                "SQLite {version}, journal mode {mode}, {rows} lines of history",
                version=about.sqlite,
                mode=about.journal,
                rows=about.history_rows,
            )
        )

    def _failed(self, error: Exception) -> None:
        self.trouble.show_trouble(
            say("The book could not be asked about itself."),
            details=f"{type(error).__name__}\n{self.details()}",
        )
        _log.error("the book could not be asked about itself", exc_info=error)

    def _licence(self) -> Section:
        section = Section(say("Licence"), say("MIT: free to use, change and pass on"), opened=False)
        text = LICENCE.read_text(encoding="utf-8") if LICENCE.is_file() else ""
        inside = QWidget()
        Column(inside, margins=(18, 0, 0, 0)).add(
            *(Label(" ".join(part.split()), wrap=True) for part in text.split("\n\n"))
        )
        section.column.add(inside)
        return section

    def _parts(self) -> Section:
        section = Section(say("Parts from elsewhere"), say("each under its own licence"), opened=False)
        columns = (
            TableColumn("part", say("Part"), width=220),
            TableColumn("version", say("Version"), width=110),
            TableColumn("licence", say("Licence")),
        )
        self.parts = SmallTable(say("Parts from elsewhere"), columns)
        section.column.add(self.parts)
        return section

    def _show_parts(self, found: tuple[Part, ...]) -> None:
        self.parts.set_rows(
            [Row(part.name, (Words(part.name), Words(part.version), Words(part.licence))) for part in found]
        )


def safety_words() -> tuple[str, ...]:
    """What the README says about safety, shorter."""
    return (
        say(
            "A disc player is worked on with its case open near mains voltage and an invisible laser beam that the "
            "eye does not turn away from. Spindlebook reminds, records and blocks, but it does not make work safe."
        ),
        say(
            "Local codes, the maker's documents and the judgement of a person licensed or trained for electrical and "
            "laser work come before anything that this program says. Nobody should test or release mains equipment "
            "on the word of a program."
        ),
    )
