"""A list of the shop: a table, a button that adds, and former entries on wish."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from app.screens.bench.failures import tell
from app.screens.desk import Desk
from app.screens.kit.boxes import set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.cells import Column, Group, Leave, Row
from app.screens.kit.empty import EmptyPage
from app.screens.kit.heading import Heading
from app.screens.kit.rows import RowsModel
from app.screens.kit.table import Table
from app.screens.language import say
from app.screens.page import Page
from app.screens.printed_list import printing, show_list
from app.trade.sentence import Sentence


class ListPage(Page):
    """A list overrides ``columns``, ``fetch`` (run away from the window) and ``rows``; ``record`` is the kind of
    page that Enter opens, with the key of the row, or None for a new one."""

    scrolls = False
    record = ""
    words = Sentence("")
    add_words = Sentence("")
    empty_words = (Sentence(""), Sentence(""))
    leaving: Sequence[Leave] = ()
    kinds: frozenset[str] = frozenset()  # tables whose changes concern it; empty: all
    has_former = True

    def __init__(self, desk: Desk, key: Any = None, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.key = key
        self.former = False
        self._asked: Any = None
        self.set_title(say(self.words))
        self.head = Heading(say(self.words))
        self.turn = Button(say("Show former ones"), self.turn_former, kind="quiet")
        self.add_button = Button(say(self.add_words), self.add, kind="main")
        self.head.set_buttons(self.turn, self.add_button)
        set_shown(self.turn, self.has_former)
        self.heading.add(self.head, 7)
        self.model = RowsModel(self.columns())
        self.table = Table(say(self.words), self.model, leaving=self.leaving)
        self.table.opened.connect(self.open)
        first, second = self.empty_words
        self.empty = EmptyPage(say(first), say(second), (Button(say(self.add_words), self.add, kind="main"),))
        self.sheet.set_margins((18, 0, 18, 9))
        self.sheet.add(self.table, stretch=1)
        self.sheet.add(self.empty, stretch=1)
        set_shown(self.empty, False)

    # for lists to override

    def columns(self) -> tuple[Column, ...]:
        """The columns of the table."""
        raise NotImplementedError

    def fetch(self) -> Any:
        """Ask the book; run away from the window."""
        raise NotImplementedError

    def rows(self, found: Any) -> list[Row | Group]:
        """What was found, as rows."""
        raise NotImplementedError

    def below(self, found: Any) -> str:
        """The soft line under the heading."""
        return ""

    def open(self, key: Any) -> None:
        """Open the record of a row."""
        self.desk.open(self.record, key)

    def add(self) -> None:
        """Open an empty record."""
        self.desk.open(self.record, None)

    # what pages do

    def reload(self, changes: Any = None) -> None:
        """Ask anew where something of the list changed."""
        if changes is not None and self.kinds and not self.kinds & changes.kinds:
            return
        if self._asked is not None:
            self._asked.cancel()
        self._asked = self.desk.doors.look_up(self, self.fetch, self._show, partial(tell, self.trouble))

    def arrive(self) -> None:
        target = self.table if self.empty.isHidden() else self.empty.findChild(Button)
        assert target is not None
        target.setFocus(Qt.FocusReason.OtherFocusReason)

    def put_away(self) -> None:
        if self._asked is not None:
            self._asked.cancel()

    def commands(self) -> Mapping[str, Callable[[], object]]:
        return {**printing(self.print_list), "leave": self.desk.back}

    def told(self) -> tuple[str, ...]:
        """In words, which rows are shown."""
        return (say("former ones as well"),) if self.former else ()

    def print_list(self) -> None:
        """The list as a paper."""
        rows = [row for _, row in self.model.known()]
        show_list(self, say(self.words), (*self.told(), self.head.below()), self.model.columns, rows)

    def turn_former(self) -> None:
        """Show entries that are no longer used as well, or hide them again."""
        self.former = not self.former
        self.turn.setText(say("Hide former ones") if self.former else say("Show former ones"))
        self.reload()

    def _show(self, found: Any) -> None:
        marked = self.table.marked_key()
        rows = self.rows(found)
        self.model.set_rows(rows)
        if marked is None or not self.table.mark(marked):
            self.table.mark_first()
        set_shown(self.table, bool(rows))
        set_shown(self.add_button, bool(rows))
        set_shown(self.empty, not rows)
        self.head.set_below(self.below(found))
        if not rows and self.isVisible():
            self.arrive()
