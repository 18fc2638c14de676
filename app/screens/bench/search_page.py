"""A list that is typed into: it shows what is meant, and Enter opens it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from app.screens.bench.failures import tell
from app.screens.desk import Desk
from app.screens.kit.boxes import Row as Across
from app.screens.kit.boxes import set_shown
from app.screens.kit.cells import Column, Leave, Row
from app.screens.kit.fields import Field
from app.screens.kit.heading import Heading
from app.screens.kit.label import Label
from app.screens.kit.rows import RowsModel
from app.screens.kit.table import Table
from app.screens.language import say
from app.screens.page import Page
from app.screens.printed_list import MOST, printing, show_list


class SearchPage(Page):
    """A page gives its words, its columns and ``opened``, and overrides ``ask`` and ``row``; what it puts into
    ``self.tools`` stands beside the field."""

    scrolls = False

    def __init__(
        self,
        desk: Desk,
        title: str,
        *,
        below: str,
        name: str,
        hint: str,
        nothing: str,
        none_yet: str,
        columns: Sequence[Column],
        leaving: Sequence[Leave],
        opened: Callable[[int], object],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(desk, parent)
        self.set_title(title)
        self._asked: Any = None
        self._opened = opened
        self._below = below
        self.search = Field(name, hint=hint, width=320)
        line = QWidget()
        self.tools = Across(line, gap=18)
        self.tools.add(self.search)
        self.heading.add(Heading(title, below=below), 9, line, 4)
        self.model = RowsModel(columns)
        self.table = Table(title, self.model, leaving=leaving)
        self.table.opened.connect(opened)
        self._nothing, self._none_yet = nothing, none_yet
        self.nothing = Label(nothing, "soft")
        self.nothing.setContentsMargins(9, 9, 0, 0)
        self.sheet.set_margins((18, 0, 18, 9))
        self.sheet.add(self.table, stretch=1)
        self.sheet.add(self.nothing)
        set_shown(self.nothing, False)
        self.search.changed.connect(lambda _: self.look())
        self.search.entered.connect(self._open_first)
        self.search.edit.stepped.connect(lambda _: self.table.setFocus(Qt.FocusReason.TabFocusReason))

    # for pages to override

    def ask(self) -> Callable[[], Sequence[Any]]:
        """The question of app.work, ready to be asked away from the window."""
        raise NotImplementedError

    def ask_all(self, most: int) -> Callable[[], tuple[Sequence[Any], int]]:
        """The same question for a paper: at most so many lines, and how many more there are, below zero for
        some that nobody has counted."""
        raise NotImplementedError

    def row(self, line: Any) -> Row:
        """A line of the answer as a row."""
        raise NotImplementedError

    def told(self) -> tuple[str, ...]:
        """In words, which lines are shown."""
        typed = self.search.text().strip()
        return (say("matching “{typed}”", typed=typed) if typed else self._below,)

    def narrowed_down(self) -> bool:
        """Whether something is typed or chosen, so that there may be more than is shown."""
        return bool(self.search.text())

    # what the base does

    def reload(self, changes: Any = None) -> None:
        """Ask anew."""
        self.look()

    def arrive(self) -> None:
        self.search.setFocus(Qt.FocusReason.OtherFocusReason)

    def put_away(self) -> None:
        if self._asked is not None:
            self._asked.cancel()

    def commands(self) -> Mapping[str, Callable[[], object]]:
        return {**printing(self.print_list), "leave": self.desk.back}

    def print_list(self) -> None:
        """The list as a paper, longer than it is shown."""
        told = self.told()

        def arrived(answer: tuple[Sequence[Any], int]) -> None:
            lines, more = answer
            show_list(self, self.title, told, self.model.columns, [self.row(line) for line in lines], more)

        self.desk.doors.look_up(self, self.ask_all(MOST), arrived, partial(tell, self.trouble))

    def look(self) -> None:
        """Ask for what is typed and chosen now."""
        self.put_away()
        self._asked = self.desk.doors.look_up(self, self.ask(), self._show, partial(tell, self.trouble))

    def _show(self, lines: Sequence[Any]) -> None:
        self.model.set_rows([self.row(line) for line in lines])
        self.nothing.setText(self._nothing if self.narrowed_down() else self._none_yet)
        set_shown(self.table, bool(lines))
        set_shown(self.nothing, not lines)

    def _open_first(self) -> None:
        """Enter in the field opens the first of them."""
        first = self.model.row_at(0) if self.model.rowCount() else None
        if isinstance(first, Row):
            self._opened(first.key)
