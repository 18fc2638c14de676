"""The foot of a page that is no letter: whose it is and when it was printed, and which page of how many."""

from __future__ import annotations

from datetime import date

from app.papers.facts import SheetFacts
from app.papers.pen import HAIRLINE, Pen
from app.papers.sheet import Dress, Format, page_of
from app.papers.text import FINE_GREY, RIGHT, one_line, set_text
from app.trade.wording import Wording

FOOT = 15.0  # from its rule to the edge
RUNNING = 12.0  # top of the line over every page but the first


def page_foot(
    paper: Format, sheet: SheetFacts, wording: Wording, day: date, running: str, left: float, width: float
) -> Dress:
    """Draws the foot on every page, and ``running`` over every page but the first."""
    printed = wording("printed {day}", day=day)
    if sheet.shop.name:
        printed = wording("{shop}, printed {day}", shop=sheet.shop.name, day=day)

    def dress(pen: Pen, page: int, pages: int) -> None:
        foot = paper.height - FOOT
        pen.rule(left, foot, width, 0.4, HAIRLINE)
        one_line(printed, FINE_GREY, width - 45).draw(pen, left, foot + 1.0)
        set_text(page_of(wording, page, pages), FINE_GREY, 40, RIGHT).draw(pen, left + width - 40, foot + 1.0)
        if page > 1:
            one_line(running, FINE_GREY, width).draw(pen, left, RUNNING)

    return dress
