"""The pages of this room, by the kind under which each is opened."""

from __future__ import annotations

from app.screens.frame.later import LaterPage
from app.screens.window import MainWindow

PAGES = {
    "counter": LaterPage("app.screens.counter.counter_page.CounterPage"),
    "take_in": LaterPage("app.screens.counter.take_in_page.TakeInPage"),
    "hand_back": LaterPage("app.screens.counter.hand_back_page.HandBackPage"),
    "customer": LaterPage("app.screens.counter.customer_page.CustomerPage"),
    "customers": LaterPage("app.screens.counter.customers_page.CustomersPage"),
    "uncollected": LaterPage("app.screens.counter.uncollected_page.UncollectedPage"),
}


def register(window: MainWindow) -> None:
    """Teach the window the pages of the counter, and the deeds that begin on any page."""
    for kind, page in PAGES.items():
        window.register(kind, "counter", page, root=kind == "counter")
    window.serve("take_in", lambda: window.open("take_in"))
    window.serve("customers", lambda: window.open("customers"))
    window.serve("uncollected", lambda: window.open("uncollected"))
