"""The small window when a book was refused: why, what to do, and the copies that can take the book's place."""

from __future__ import annotations

import logging
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import QWidget

from app.screens.between_books import BetweenBooks
from app.screens.desk import Errand
from app.screens.kit.boxes import Column, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.cells import Leave
from app.screens.kit.label import Label
from app.screens.kit.measure import px
from app.screens.kit.progress import ProgressLine
from app.screens.kit.rows import RowsModel
from app.screens.kit.table import HEADER, LIST_ROW, Table
from app.screens.kit.trouble import TroubleBar
from app.screens.language import say
from app.screens.log_file import as_text
from app.screens.office.upkeep.copy_rows import columns, copy_row
from app.screens.office.upkeep.restore_strip import RestoreStrip
from app.screens.office.upkeep.steps import steps
from app.screens.threads import Doors, Ticket
from app.screens.versions import versions
from app.trade.refusal import BookRefused, Refusal
from app.work.shop_book import OpenElsewhere
from app.work.upkeep.copies import Copy, copies_of
from app.work.upkeep.restore import LOOKED_INTO, examine_copy

_log = logging.getLogger(__name__)

WIDTH, LEAST_HEIGHT = 780, 180
ROWS = 6  # of the list of copies at most, before it scrolls
EDGE = 24  # px of the screen that stay free beside the window


class _Strip(RestoreStrip):
    """As in the Office, but of a book that is not open and may not be readable."""

    def __init__(self, restore: Callable[[Copy], object], leave: Callable[[], object]) -> None:
        super().__init__(restore, leave)
        self._rest.setText(
            say(
                "The book that was refused is kept aside with its files, and a copy is made of it where it can "
                "still be read. What was written after this copy is in there, not in the restored book."
            )
        )


class RefusedWindow(BetweenBooks):
    """`BetweenBooks` with a list: Enter on a copy looks through it from end to end, then asks whether it shall
    take the book's place, which ``restore`` does."""

    def __init__(
        self,
        again: Callable[[Errand], object],
        instead: Callable[[Path, Errand], object],
        end: Callable[[], object],
        restore: Callable[[Copy, Errand], object],
        doors: Doors,
    ) -> None:
        super().__init__(again, instead, end)
        self._put_back, self._doors = restore, doors
        self._on_its_way: Ticket | None = None
        self.copies: dict[str, Copy] = {}
        self.trouble = TroubleBar()
        self.table = Table(
            say("Copies of this book"),
            RowsModel(columns()),
            leaving=(Leave("file"), Leave("why"), Leave("size"), Leave("last")),
        )
        self.table.opened.connect(self._open)
        self.progress = ProgressLine()
        self.strip = _Strip(self._restore, self._not_now)
        self.restore = Button(say("Restore the marked copy…"), self._open_marked, kind="main")
        self._row.insertWidget(0, self.restore)
        words = Column(gap=2, margins=(9, 9, 9, 0))
        words.add(Label(say("Copies of this book"), "strong"))
        words.add(
            Label(
                say("Enter on a copy looks through it and then asks. Until you say so, nothing is changed."),
                "soft",
                wrap=True,
            )
        )
        self._offer = QWidget()
        offer = Column(self._offer, gap=5, margins=(18, 0, 18, 0))
        offer.addLayout(words)
        offer.add(self.strip, self.table)
        going_on = Column(margins=(27, 0, 27, 0))
        going_on.add(self.progress)
        self.column.insertWidget(0, self.trouble)
        self.inside.insertWidget(1, self._offer, 1)
        self.inside.insertLayout(2, going_on)
        self._show(())
        self.resize(px(WIDTH), px(LEAST_HEIGHT))
        self.refit()

    # what it says

    def wait(self, saying: str) -> None:
        """Say what is being done."""
        self._forget()
        self.trouble.clear()
        self._show(())
        super().wait(saying)

    def refuse(self, refused: BookRefused, errand: Errand, error: Exception | None = None) -> None:
        """Say why no book could be opened, with the copies of it; ``error`` is why what was tried failed."""
        self._forget()
        super().refuse(refused, errand)
        self._show(())
        if error is not None and str(error) != str(refused):
            self._tell(error)
        # One that is open in another window is in good order: there is nothing to restore.
        if not isinstance(refused, OpenElsewhere):
            self._on_its_way = self._doors.look_up(
                self, partial(copies_of, errand.path), self._show_found, self._tell
            )
        self._fit()

    def refit(self) -> None:
        """Larger text does not demand a larger screen."""
        free = self.screen().availableSize()
        self.setFixedWidth(min(px(WIDTH), free.width() - EDGE))
        self.setMinimumHeight(min(px(LEAST_HEIGHT), free.height() - EDGE))
        self._fit()

    def closeEvent(self, event: QCloseEvent) -> None:
        super().closeEvent(event)
        if event.isAccepted():
            self._forget()

    # the copies

    def _show_found(self, found: Sequence[Copy]) -> None:
        waited = self.focusWidget() is self.try_again  # also before the window is the active one
        self._show(found)
        newest_good = next((str(copy.path) for copy in found if copy.checked), "")
        if not self.table.mark(newest_good):
            self.table.mark_first()
        self._fit()
        if found and waited:
            self._to(self.table)

    def _show(self, found: Sequence[Copy]) -> None:
        self.strip.fold()
        self.copies = {str(copy.path): copy for copy in found}
        self.table.rows_model().set_rows([copy_row(copy) for copy in found])
        for part in (self._offer, self.table, self.restore):
            set_shown(part, bool(found))
        self.try_again.kind = "plain" if found else "main"  # one main button
        self.try_again.refit()
        least = px(HEADER) + px(LIST_ROW) * min(len(found), ROWS)
        self.table.setMinimumHeight(min(least, self.screen().availableSize().height() // 3))

    def _open_marked(self) -> None:
        key = self.table.marked_key()
        if key is not None:
            self._open(key)

    def _open(self, key: Any) -> None:
        """Look through a copy from end to end, then ask."""
        self._forget()
        self.progress.begin(say("Looking through the copy"), self._stopped)
        work = partial(_examine, self.copies[key].path)
        self._on_its_way = self._doors.long_look_up(self, work, self._looked, self._tell, self.progress.step)

    def _stopped(self) -> None:
        self._forget()
        self._to(self.table)

    def _looked(self, copy: Copy) -> None:
        self.progress.end()
        self.trouble.clear()
        self._turn(asking=True)
        self.strip.ask(copy)
        self._fit()
        self.scroller.show_focus(self.strip)

    def _not_now(self) -> None:
        self._turn(asking=False)
        self._to(self.table)

    def _turn(self, *, asking: bool) -> None:
        """While it is asked, the answer is the only thing to press."""
        if not asking:
            self.strip.fold()
        set_shown(self.table, not asking)
        set_shown(self._buttons, not asking)

    def _restore(self, copy: Copy) -> None:
        errand = self._errand
        if errand is not None:
            self._put_back(copy, errand)

    # trouble, and what is on its way

    def _tell(self, error: Exception) -> None:
        self.progress.end()
        if isinstance(error, Refusal):
            step = say(error.next_step) if error.next_step is not None else ""
            self.trouble.show_trouble(say(error.sentence), step)
        else:
            _log.error("what was tried without a book failed", exc_info=error)
            self.trouble.show_trouble(
                say("Something went wrong that is not your doing."),
                say("Copy the details for those who look after the program."),
                details=f"{versions()}\n{as_text(error)}",
            )
        self._fit()

    def _forget(self) -> None:
        self.progress.end()
        if self._on_its_way is not None:
            self._on_its_way.cancel()
            self._on_its_way = None

    def _to(self, widget: QWidget) -> None:
        widget.setFocus(Qt.FocusReason.OtherFocusReason)
        self.scroller.show_focus(widget)

    def _fit(self) -> None:
        """As high as what it says needs, while the screen has the room; then it scrolls, and the buttons stay."""
        for layout in (
            self._offer.layout(),
            self.inside,
            self.column,
        ):  # what was just shown or hidden counts
            assert layout is not None
            layout.invalidate()
            layout.activate()
        wide = self.width()
        trouble = self.trouble.heightForWidth(wide) if not self.trouble.isHidden() else 0
        foot = self._buttons.sizeHint().height() + px(27) if not self._buttons.isHidden() else px(27)
        needs = trouble + self.inside.totalHeightForWidth(wide) + foot
        most = self.screen().availableSize().height() - EDGE
        self.resize(wide, min(max(needs, self.height()), most))


def _examine(path: Path, ticket: Ticket) -> Copy:
    return examine_copy(path, watch=steps(ticket, len(LOOKED_INTO)))
