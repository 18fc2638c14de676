"""The trail of pages: which page each place shows, and the way back."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QStackedWidget, QWidget

from app.screens.desk import Desk
from app.screens.page import Page

Factory = Callable[[Desk, Any], Page]
Entry = tuple[str, Any]

KEPT_PAGES = 10
LONGEST_WAY_BACK = 50


@dataclass(frozen=True)
class PageKind:
    """A kind of page the window knows: its place, and how one is made for a key. A page of no place (a paper,
    the list of keys) is shown in the place where it was asked for, and that place does not remember it."""

    kind: str
    place: str
    factory: Factory


class Trail(QStackedWidget):
    """Makes pages when they are first opened, keeps the last ten, and remembers the way back.

    `arrived` is emitted with the place and the page whenever another page comes into sight.
    """

    arrived = Signal(str, object)
    titled = Signal(object)  # a page has another title

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._kinds: dict[str, PageKind] = {}
        self._roots: dict[str, str] = {}
        self._pages: OrderedDict[Entry, Page] = OrderedDict()
        self._stale: set[Entry] = set()
        self._back: list[Entry] = []
        self._now: Entry | None = None
        self._place = ""
        self._last: dict[str, Entry] = {}
        desk.changed.connect(self._changed)

    def register(self, kind: str, place: str, factory: Factory, *, root: bool = False) -> None:
        """Teach a kind of page; ``root`` makes it what its place shows first; ``place`` may be empty."""
        self._kinds[kind] = PageKind(kind, place, factory)
        if root:
            self._roots[place] = kind

    @property
    def page(self) -> Page | None:
        """The page in sight."""
        return self._pages.get(self._now) if self._now is not None else None

    @property
    def place(self) -> str:
        """The place in sight; empty before the first."""
        return self._place

    def knows(self, kind: str) -> bool:
        """Whether a kind of page was registered."""
        return kind in self._kinds

    def open(self, kind: str, key: Any = None) -> bool:
        """Open a page; False when the present one will not be left."""
        entry = (kind, key)
        if entry == self._now:
            self._show(entry)
            return True
        if not self._leave():
            return False
        if self._now is not None:
            self._back.append(self._now)
            del self._back[:-LONGEST_WAY_BACK]
        self._show(entry)
        return True

    def back(self) -> bool:
        """Go back one page; False when there is none before."""
        if not self._back or not self._leave():
            return False
        self._show(self._back.pop())
        return True

    def go_to(self, place: str) -> bool:
        """Show what a place showed last; its root when it is in sight already."""
        root: Entry = (self._roots[place], None)
        here = self._now is not None and self._kinds[self._now[0]].place == place
        return self.open(*(root if here else self._last.get(place, root)))

    def close_page(self, kind: str, key: Any = None) -> None:
        """Let a page go, e.g. a form that was saved; the way back leads past it."""
        entry = (kind, key)
        self._back = [e for e in self._back if e != entry]
        for place in [p for p, e in self._last.items() if e == entry]:
            del self._last[place]
        if entry == self._now:
            before = self._back.pop() if self._back else (self._root_here(), None)
            self._show(before)
        self._drop(entry)

    def put_away(self) -> None:
        """The window closes: let all pages go."""
        for entry in list(self._pages):
            self._drop(entry)

    def leave(self) -> bool:
        """Ask the page in sight whether it may go."""
        return self._leave()

    def _leave(self) -> bool:
        page = self.page
        return page.leave() if page is not None else True

    def _show(self, entry: Entry) -> None:
        page = self._pages.get(entry)
        if page is None:
            page = self._kinds[entry[0]].factory(self._desk, entry[1])
            self._pages[entry] = page
            page.titled.connect(lambda _: self.titled.emit(page))
            self.addWidget(page)
            page.reload(None)
        elif entry in self._stale:
            page.reload(None)
        self._stale.discard(entry)
        self._pages.move_to_end(entry)
        self._now = entry
        if own := self._kinds[entry[0]].place:
            self._place = own
            self._last[own] = entry
        self.setCurrentWidget(page)
        while len(self._pages) > KEPT_PAGES:
            self._drop(next(iter(self._pages)))
        self.arrived.emit(self.place, page)
        page.arrive()

    def _root_here(self) -> str:
        return self._roots.get(self._place) or next(iter(self._roots.values()))

    def _drop(self, entry: Entry) -> None:
        page = self._pages.pop(entry, None)
        self._stale.discard(entry)
        if page is not None:
            page.put_away()
            self.removeWidget(page)
            page.deleteLater()

    def _changed(self, changes: Any) -> None:
        for entry, page in list(self._pages.items()):
            if entry == self._now:
                page.reload(changes)
            else:
                self._stale.add(entry)
