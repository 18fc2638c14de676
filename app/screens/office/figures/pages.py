"""Which class makes the page of a question."""

from __future__ import annotations

from app.screens.desk import Desk
from app.screens.office.figures.comeback_rate_page import FIGURE, ComebackRatePage
from app.screens.office.figures.figure_page import FigurePage


def figure_page(desk: Desk, key: str) -> FigurePage:
    """The page ``figure`` of the question of this name."""
    return ComebackRatePage(desk, key) if key == FIGURE else FigurePage(desk, key)
