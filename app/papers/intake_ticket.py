"""The intake ticket: the customer's half above the cut, the shop's half below it."""

from __future__ import annotations

from collections.abc import Sequence

from app.papers.blocks import Gap, Stack
from app.papers.fit import Part
from app.papers.flow import Flow, Page, Placed
from app.papers.intake_customer_half import MARGIN_LEFT, MARGIN_RIGHT, Half, customer_half
from app.papers.intake_shop_half import shop_half
from app.papers.intake_ticket_facts import IntakeTicketFacts
from app.papers.pen import HAIRLINE, Pen
from app.papers.sheet import FORMATS, Format, made, page_of
from app.papers.text import CENTRE, FINE_GREY, FIRST, RIGHT, Text, set_text
from app.trade.wording import Wording


def intake_ticket(facts: IntakeTicketFacts, wording: Wording) -> bytes:
    """The PDF of an intake ticket, A4 or Letter. What a half cannot hold stands in full on further pages."""
    paper = FORMATS[facts.sheet.size]
    upper = _half(facts, paper, 2, wording, customer=True)
    further = _further(upper.cut, facts, paper, wording("your half"), wording)
    lower = _half(facts, paper, 2 + len(further), wording, customer=False)
    further += _further(lower.cut, facts, paper, wording("shop half"), wording)
    first = Page([*upper.placed, *lower.placed])
    cut = wording("fold, then cut here")

    def dress(pen: Pen, page: int, pages: int) -> None:
        if page == 1:
            _cut_line(pen, paper, cut)
        if pages > 1:
            number = set_text(page_of(wording, page, pages), FINE_GREY, 60, CENTRE if page == 1 else RIGHT)
            left = paper.width / 2 - 30 if page == 1 else paper.width - MARGIN_RIGHT - 60
            number.draw(pen, left, paper.height - 5.7 - 3.3)

    title = wording("Intake ticket {job}", job=str(facts.job))
    return made([first, *further], paper, title, facts.sheet, wording, dress)


def _half(facts: IntakeTicketFacts, paper: Format, page: int, wording: Wording, *, customer: bool) -> Half:
    pointer = wording("in full on page {page}", page=page)
    if customer:
        return customer_half(facts, paper, pointer, wording("half 1 of 2"), wording)
    return shop_half(facts, paper, pointer, wording("half 2 of 2"), wording)


def _further(
    cut: Sequence[Part], facts: IntakeTicketFacts, paper: Format, half: str, wording: Wording
) -> list[Page]:
    """Pages with the cut sections in full."""
    if not cut:
        return []
    width = paper.width - MARGIN_LEFT - MARGIN_RIGHT
    flow = Flow(MARGIN_LEFT, width, 30.0, 30.0, paper.height - 15.0)
    for part in cut:
        blocks = [*([part.head] if part.head else [])]
        body = []
        for at, block in enumerate(part.bodies):
            body += [Gap(part.between), block] if at and part.between else [block]
        flow.run(Stack((*blocks, *body)), 4.2)
    title: Text = wording("Intake ticket {job} · {half}, continued", job=str(facts.job), half=half)
    for page in flow.pages:
        page.placed.insert(0, Placed(MARGIN_LEFT, 15.0, set_text(title, FIRST, width)))
    return flow.pages


def _cut_line(pen: Pen, paper: Format, words: str) -> None:
    at = paper.height / 2
    label = set_text(words, FINE_GREY, 60, CENTRE)
    free = max(22.0, label.widest / 2 + 5)
    middle = paper.width / 2
    pen.line(0, at, middle - free, at, 0.8, HAIRLINE, (1.3, 1.0))
    pen.line(middle + free, at, paper.width, at, 0.8, HAIRLINE, (1.3, 1.0))
    label.draw(pen, middle - 30, at - 2.1)
