"""Pages whose modules are imported when they are first needed: a window begins with one page, not with forty."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from importlib import import_module
from typing import Any

from PySide6.QtWidgets import QWidget

from app.screens.desk import Desk
from app.screens.frame.trail import Factory
from app.screens.page import Page
from app.screens.threads import Doors, Ticket


@dataclass(frozen=True)
class LaterPage:
    """Makes pages of the class at ``path``, module and name, as the trail asks for them."""

    path: str

    @property
    def module(self) -> str:
        """Where the class is."""
        return self.path.rpartition(".")[0]

    def load(self) -> Factory:
        """The class itself."""
        page: Factory = getattr(import_module(self.module), self.path.rpartition(".")[2])
        return page

    def __call__(self, desk: Desk, key: Any) -> Page:
        return self.load()(desk, key)


def import_when_idle(window: QWidget, doors: Doors, pages: Iterable[LaterPage]) -> None:
    """Import all of them away from the window once its first page is loaded: the first opening waits for nothing."""

    def imported(ticket: Ticket) -> None:
        modules = sorted({page.module for page in pages})
        for done, module in enumerate(modules):
            ticket.step(done, len(modules))
            import_module(module)

    def begin(busy: bool) -> None:
        if not busy and window.isVisible():
            doors.busy.disconnect(begin)
            doors.long_look_up(window, imported, lambda _: None)

    doors.busy.connect(begin)
