"""The pages of this room, by the kind under which each is opened."""

from __future__ import annotations

from app.screens.counter.counter_page import CounterPage
from app.screens.counter.customer_page import CustomerPage
from app.screens.counter.customers_page import CustomersPage
from app.screens.counter.hand_back_page import HandBackPage
from app.screens.counter.take_in_page import TakeInPage
from app.screens.window import MainWindow


def register(window: MainWindow) -> None:
    """Teach the window the pages of the counter, and the deeds that begin on any page."""
    window.register("counter", "counter", CounterPage, root=True)
    window.register("take_in", "counter", TakeInPage)
    window.register("hand_back", "counter", HandBackPage)
    window.register("customer", "counter", CustomerPage)
    window.register("customers", "counter", CustomersPage)
    window.serve("take_in", lambda: window.open("take_in"))
    window.serve("customers", lambda: window.open("customers"))
