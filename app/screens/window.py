"""The one window: menu bar, find strip, dividers, the sheet, help in the margin."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtCore import QByteArray, QSettings, Qt
from PySide6.QtGui import QCloseEvent, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QApplication, QMainWindow, QWidget

from app.screens.desk import Desk, FindHit, PlaceCount, StaffNow
from app.screens.frame.dividers import PLACES, Dividers
from app.screens.frame.help_margin import WIDTH as HELP_WIDTH
from app.screens.frame.help_margin import HelpMargin
from app.screens.frame.menus import Menus
from app.screens.frame.strip import Strip
from app.screens.frame.trail import Factory, Trail
from app.screens.kit import measure, palette
from app.screens.kit.boxes import Column, Row
from app.screens.kit.strokes import hline
from app.screens.language import say
from app.screens.page import Page
from app.screens.threads import Ticket

LEAST_WIDTH, LEAST_HEIGHT = 1024, 700
LEAST_PAGE = 760  # px beside the help, for L = 18
SHAPE_VERSION = 1


class _Sheet(QWidget):
    """The sheet with its rule above; the dividers draw its left edge."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setBackgroundRole(self.palette().ColorRole.Base)
        self.setAutoFillBackground(True)

    def paintEvent(self, event: QPaintEvent) -> None:
        hline(QPainter(self), 0, self.width(), 0, "edge")


class MainWindow(QMainWindow):
    """Give it the desk, the ini file for its shape, and who may work here; register pages; then `go_to` a
    place and show it.

    ``closing`` are asked in turn when the window is about to close; one that answers False keeps it open.
    """

    def __init__(
        self,
        desk: Desk,
        *,
        settings: Path,
        staff: Callable[[], Sequence[StaffNow]] = tuple,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.desk = desk
        self.closing: list[Callable[[], bool]] = []
        self._settings = QSettings(str(settings), QSettings.Format.IniFormat)
        self._asked: Ticket | None = None
        self.setContextMenuPolicy(Qt.ContextMenuPolicy.NoContextMenu)
        self.menus = Menus(self)
        self.strip = Strip(staff)
        self.dividers = Dividers()
        self.trail = Trail(desk)
        self.help = HelpMargin()
        sheet = _Sheet()
        across = Row(sheet, gap=0, margins=(0, 1, 0, 0))
        across.add(self.trail, stretch=1)
        across.add(self.help)
        below = Row(gap=0)
        below.add(self.dividers)
        below.add(sheet, stretch=1)
        centre = QWidget()
        Column(centre).add(self.strip).addLayout(below, 1)
        self.setCentralWidget(centre)
        QWidget.setTabOrder(self.strip.find_box, self.strip.change)
        self._fit_least()
        self._connect()
        self._restore()

    # setting up

    def register(self, kind: str, place: str, factory: Factory, *, root: bool = False) -> None:
        """Teach a kind of page: ``factory(desk, key)`` makes one; ``root`` is what its place shows first. A
        page of no place ("") is shown in the place where it was asked for."""
        self.trail.register(kind, place, factory, root=root)

    def serve(self, act_id: str, call: Callable[[], object]) -> None:
        """Do an action of the menu on every page that does not serve it itself."""
        self.menus.serve(act_id, call)

    def set_counts(self, counts: PlaceCount) -> None:
        """The counts under the places' names."""
        self.dividers.set_counts(counter=counts.counter, bench=counts.bench, office=counts.office)

    def set_book(self, name: str, copied: str) -> None:
        """The name of the book and when it was last copied, at the foot of the dividers."""
        self.dividers.set_book(name, copied)

    # going about

    def go_to(self, place: str) -> None:
        """Show a place: ``counter``, ``bench`` or ``office``."""
        self.trail.go_to(place)

    def open(self, kind: str, key: Any = None) -> None:
        """Open a page of a registered kind."""
        self.trail.open(kind, key)

    @property
    def page(self) -> Page | None:
        """The page in sight."""
        return self.trail.page

    def go_find(self) -> None:
        """Put the focus into the find box."""
        self.strip.find_box.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def turn_help(self) -> None:
        """Show help with the page in sight, or close it."""
        if self.help.isVisible():
            self.help.close_help()
        elif self.page is not None:
            self.help.show_topic(self.page.help_topic)
            self._share_room()

    # appearance

    def set_scheme(self, scheme: str) -> None:
        """``system``, ``light`` or ``dark``; remembered."""
        app = QApplication.instance()
        assert isinstance(app, QApplication)
        palette.apply(app, scheme)
        self._settings.setValue("appearance/scheme", scheme)
        self.menus.check(f"scheme_{scheme}")

    def set_text_size(self, percent: int) -> None:
        """100, 150 or 200 per cent; remembered."""
        app = QApplication.instance()
        assert isinstance(app, QApplication)
        measure.set_text_size(app, percent)
        self._fit_least()
        self._share_room()
        self._settings.setValue("appearance/text", percent)
        self.menus.check(f"text_{percent}")

    def _fit_least(self) -> None:
        # Larger text does not demand a larger screen: the sheet scrolls, columns leave.
        self.setMinimumSize(LEAST_WIDTH, LEAST_HEIGHT)
        self.menuBar().setFixedHeight(measure.line() + measure.px(8))
        self.menuBar().setContentsMargins(measure.px(18), 0, 0, 0)

    def _connect(self) -> None:
        self.desk.serve(self.trail.open, self.trail.back)
        self.desk.staff_changed.connect(self.strip.set_staff)
        self.strip.set_staff(self.desk.staff)
        self.strip.chosen.connect(self.desk.set_staff)
        self.strip.find_box.look_up = self._look_up
        self.strip.find_box.opened.connect(lambda target: self.trail.open(*target))
        self.strip.find_box.given_up.connect(self._back_to_page)
        self.dividers.chosen.connect(self.go_to)
        self.help.closed.connect(self._help_closed)
        self.trail.arrived.connect(self._arrived)
        self.trail.titled.connect(self._title)
        own: dict[str, Callable[[], object]] = {
            "find": self.go_find,
            "back": self.trail.back,
            "change_staff": self.strip.choose,
            "help_page": self.turn_help,
            "quit": self.close,
        }
        for place in PLACES:
            own[f"place_{place}"] = partial(self.go_to, place)
        for scheme in palette.Scheme:
            own[f"scheme_{scheme}"] = partial(self.set_scheme, scheme)
        for percent in measure.TEXT_SIZES:
            own[f"text_{percent}"] = partial(self.set_text_size, percent)
        for act_id, call in own.items():
            self.menus.serve(act_id, call)
        self.menus.check(f"scheme_{palette.wanted()}")
        self.menus.check(f"text_{measure.text_size()}")

    def _look_up(self, text: str, deliver: Callable[[Sequence[FindHit]], None]) -> None:
        if self._asked is not None:
            self._asked.cancel()
        self._asked = self.desk.doors.look_up(self, lambda: self.desk.find(text), deliver)

    def _arrived(self, place: str, page: Page) -> None:
        self.dividers.set_open(place)
        self.menus.of_page(page.commands)
        self._title(page)
        if self.help.isVisible():
            self.help.show_topic(page.help_topic)

    def _share_room(self) -> None:
        """Help stands beside the page; where that would leave too little of it, help takes its place."""
        sheet = self.width() - self.dividers.width()
        shown = not self.help.isHidden()
        whole = sheet - measure.px(HELP_WIDTH) < measure.px(LEAST_PAGE)
        self.help.set_whole(whole)
        self.trail.setVisible(not (whole and shown))

    def _help_closed(self) -> None:
        self._share_room()
        self._back_to_page()

    def _title(self, page: Page) -> None:
        if page is self.page:
            self.menus.refresh()  # a page that has loaded serves more than one that has not
            shop = self.desk.shop.name
            parts = [part for part in (page.title, shop, say("Spindlebook")) if part]
            self.setWindowTitle(" – ".join(parts))

    def _back_to_page(self) -> None:
        if self.page is not None:
            self.page.arrive()

    # its shape, and closing

    def _restore(self) -> None:
        version = self._settings.value("window/version")
        shape = self._settings.value("window/shape")
        if version is not None and int(str(version)) == SHAPE_VERSION and isinstance(shape, QByteArray):
            self.restoreGeometry(shape)
        else:
            self.resize(1366, 768)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.strip.find_box.close_results()
        self._share_room()

    def closeEvent(self, event: QCloseEvent) -> None:
        if not self.trail.leave() or not all(ask() for ask in list(self.closing)):
            event.ignore()
            return
        self._settings.setValue("window/version", SHAPE_VERSION)
        self._settings.setValue("window/shape", self.saveGeometry())
        self._settings.sync()
        self.trail.put_away()
        event.accept()


def appearance(settings: Path) -> tuple[str, int]:
    """The scheme and text size remembered in an ini file, for the start before there is a window."""
    kept = QSettings(str(settings), QSettings.Format.IniFormat)
    scheme = str(kept.value("appearance/scheme", "system"))
    percent = str(kept.value("appearance/text", "100"))
    return (
        scheme if scheme in set(palette.Scheme) else "system",
        int(percent) if percent.isdigit() and int(percent) in measure.TEXT_SIZES else 100,
    )
