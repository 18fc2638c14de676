"""A page that lists the jobs behind a number: Enter opens one, and the list can be printed."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from functools import partial
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from app.screens.bench.failures import tell
from app.screens.desk import Desk
from app.screens.kit.cells import Leave
from app.screens.kit.heading import Heading
from app.screens.kit.rows import PagedModel, RowsModel
from app.screens.kit.table import Table
from app.screens.page import Page
from app.screens.printed_list import printing


class JobsFoundPage(Page):
    """A list overrides ``ask``, away from the window, ``show_found`` and ``print_list``. ``changed_by``: kinds of
    change that make it ask anew."""

    scrolls = False
    changed_by: Collection[str] = ("jobs",)

    def __init__(
        self,
        desk: Desk,
        title: str,
        above: str,
        model: RowsModel | PagedModel,
        leaving: Sequence[Leave],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(desk, parent)
        self._asked: Any = None
        self.set_title(title)
        self.head = Heading(title, above=above)
        self.heading.add(self.head, 7)
        self.table = Table(title, model, leaving=tuple(leaving))
        self.table.opened.connect(desk.open_job)
        self.sheet.set_margins((18, 0, 18, 9))
        self.sheet.add(self.table, stretch=1)

    # for lists to override

    def ask(self) -> Any:
        """The jobs. Run away from the window."""
        raise NotImplementedError

    def show_found(self, lines: Any) -> None:
        """Put them into the table and the heading."""
        raise NotImplementedError

    def print_list(self) -> None:
        """The jobs of the list as a paper."""
        raise NotImplementedError

    # what the base does

    def reload(self, changes: Any = None) -> None:
        """Ask for the jobs anew where something changed that bears on them."""
        if changes is not None and not changes.kinds & frozenset(self.changed_by):
            return
        if self._asked is not None:
            self._asked.cancel()
        self._asked = self.desk.doors.look_up(self, self.ask, self._found, partial(tell, self.trouble))

    def _found(self, lines: Any) -> None:
        marked = self.table.marked_key()
        self.show_found(lines)
        if marked is None or not self.table.mark(marked):
            self.table.mark_first()

    def arrive(self) -> None:
        self.table.setFocus(Qt.FocusReason.OtherFocusReason)

    def put_away(self) -> None:
        if self._asked is not None:
            self._asked.cancel()

    def commands(self) -> Mapping[str, Callable[[], object]]:
        return {**printing(self.print_list), "leave": self.desk.back}
