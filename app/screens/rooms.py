"""Every page of every room, by the kind under which it is opened."""

from __future__ import annotations

from typing import Any

from app.screens.about_page import AboutPage
from app.screens.bench.pages import register as register_bench
from app.screens.counter.pages import register as register_counter
from app.screens.desk import Desk, Paper
from app.screens.keys_page import KeysPage
from app.screens.office.pages import register as register_office
from app.screens.page import Page
from app.screens.paper_page import PaperPage
from app.screens.window import MainWindow


def register(window: MainWindow) -> None:
    """Teach the window all pages."""
    register_counter(window)
    register_bench(window)
    register_office(window)
    window.register("paper", "", _paper)
    window.register("about", "", AboutPage)
    window.register("keys", "", KeysPage)
    window.serve("about", lambda: window.open("about"))
    window.serve("keys", lambda: window.open("keys"))


def _paper(desk: Desk, paper: Any) -> Page:
    assert isinstance(paper, Paper)
    return PaperPage(desk, paper)
