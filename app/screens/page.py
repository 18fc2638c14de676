"""One page of the notebook: trouble at the top, heading, sheet, foot, and a margin beside it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QApplication, QWidget

from app.screens.desk import Desk
from app.screens.kit.boxes import Column, Row
from app.screens.kit.margin import MarginPage
from app.screens.kit.measure import px
from app.screens.kit.scrolling import Scroller
from app.screens.kit.trouble import TroubleBar

NARROW_BELOW = 1180 - 126  # px of sheet and margin together, for L = 18

SHEET = (27, 18, 27, 18)  # 3u left and right for words, 2u above and below


class Page(QWidget):
    """Base of all pages. A page overrides what it needs:

    ``title`` (words, for history and window title), ``help_topic`` (file in assets/help), ``reload(changes)``,
    ``arrive()`` (shown: put the focus), ``leave()`` (False keeps it open), ``commands()`` (action ids of
    app.screens.actions it serves, e.g. ``{"print": self.print_tag}``), ``narrowed(bool)``.

    It puts its things into ``self.heading``, ``self.sheet`` and ``self.foot`` (columns), and its margin by
    ``set_margin``. Set ``scrolls = False`` for a page that is one table with its own scroll bar.
    """

    help_topic = "index"
    scrolls = True

    titled = Signal(str)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.desk = desk
        self.title = ""
        self.narrow = False
        self._commands_enabled: dict[str, bool] = {}
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.trouble = TroubleBar(self)
        self.heading = Column(gap=5, margins=(27, 18, 27, 0))
        inside = QWidget()
        self.sheet = Column(gap=18, margins=(27, 9, 27, 18))
        all_of_it = Column(inside)
        all_of_it.addLayout(self.sheet, 0 if self.scrolls else 1)
        if self.scrolls:
            all_of_it.addStretch(1)
        self.scroller: Scroller | None = None
        self.foot = Column(margins=(27, 0, 27, 0))
        left = Column()
        left.add(self.heading)
        if self.scrolls:
            self.scroller = Scroller(inside)
            left.add(self.scroller, stretch=1)
        else:
            left.add(inside, stretch=1)
        left.add(self.foot)
        self._across = Row(gap=0)
        self._across.add(left, stretch=1)
        Column(self).add(self.trouble)
        whole = self.layout()
        assert isinstance(whole, Column)
        whole.addLayout(self._across, 1)
        self.margin: MarginPage | None = None
        self._folded_margin: QWidget | None = None

    def set_title(self, title: str) -> None:
        """The words that name this page in the window's title."""
        self.title = title
        self.titled.emit(title)

    def set_margin(self, margin: MarginPage, when_narrow: QWidget | None = None) -> None:
        """Put a margin at the right; below 1180 px of window it gives way to ``when_narrow`` (folded flag
        lines, placed by the page itself, hidden while the margin is there)."""
        self.margin = margin
        self._folded_margin = when_narrow
        self._across.addWidget(margin)
        self._fold_margin()

    # for pages to override

    def reload(self, changes: Any = None) -> None:
        """Load anew what is shown; ``changes`` says what an action changed, None means everything."""

    def arrive(self) -> None:
        """The page has come into sight: give the focus to where work begins."""

    def leave(self) -> bool:
        """The page is about to go out of sight; False keeps it, after saying why."""
        return True

    def put_away(self) -> None:
        """The page is about to be destroyed: cancel what is on its way."""

    def commands(self) -> Mapping[str, Callable[[], object]]:
        """The actions of the menu that this page serves, by their ids."""
        return {}

    def narrowed(self, narrow: bool) -> None:
        """The window has become narrower or wider than 1180 px."""

    # what the base does

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        narrow = self.width() < px(NARROW_BELOW)
        if narrow != self.narrow:
            self.narrow = narrow
            self._fold_margin()
            self.narrowed(narrow)

    def _fold_margin(self) -> None:
        if self.margin is None:
            return
        folded = self._folded_margin
        self.margin.setVisible(not self.narrow or folded is None)
        if folded is not None:
            folded.setVisible(self.narrow)

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Show:
            self.refresh_focus_scroll()
        return super().event(event)

    def refresh_focus_scroll(self) -> None:
        """Follow the focus with the scroll bar from now on."""
        app = QApplication.instance()
        if self.scroller is not None and isinstance(app, QApplication) and not self.property("follows"):
            self.setProperty("follows", True)
            app.focusChanged.connect(self._follow)

    def _follow(self, old: QWidget | None, new: QWidget | None) -> None:
        if new is not None and self.scroller is not None and self.isVisible():
            self.scroller.show_focus(new)
