"""Every page of every room, by the kind under which it is opened."""

from __future__ import annotations

from app.screens.bench import pages as bench
from app.screens.counter import pages as counter
from app.screens.frame.later import LaterPage, import_when_idle
from app.screens.office import pages as office
from app.screens.window import MainWindow

OF_NO_ROOM = {
    "paper": LaterPage("app.screens.paper_page.PaperPage"),
    "about": LaterPage("app.screens.about_page.AboutPage"),
    "keys": LaterPage("app.screens.keys_page.KeysPage"),
}


def register(window: MainWindow) -> None:
    """Teach the window all pages. Only the first one is imported before the window stands."""
    for room in (counter, bench, office):
        room.register(window)
    for kind, page in OF_NO_ROOM.items():
        window.register(kind, "", page)
    window.serve("about", lambda: window.open("about"))
    window.serve("keys", lambda: window.open("keys"))
    every = {**counter.PAGES, **bench.PAGES, **office.PAGES, **OF_NO_ROOM}
    import_when_idle(window, window.desk.doors, every.values())
