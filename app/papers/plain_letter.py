"""A letter in words: a heading, who is spoken to, paragraphs, and who wrote it. Reminders and notices."""

from __future__ import annotations

from app.papers.blocks import Block, Gap, Stack
from app.papers.facts import Said
from app.papers.flow import Flow
from app.papers.letter import Letter
from app.papers.line_breaks import Run
from app.papers.said import worded
from app.papers.text import BODY, FINE_GREY, FIRST, set_text
from app.trade.wording import Wording


def begun(letter: Letter, heading: Said, text: Said, wording: Wording) -> Flow:
    """The flow of a letter with its heading, the greeting and the words of the shop on it."""
    flow = letter.flow(wording)
    flow.put(set_text(worded(heading, wording), FIRST, flow.width))
    flow.put(set_text(wording("Good day {name},", name=letter.customer.name), BODY, flow.width), 4.2)
    for number, paragraph in enumerate(worded(text, wording).split("\n")):
        if paragraph.strip():
            flow.run(set_text(paragraph, BODY, flow.width), 2.4 if number else 2.8)
    return flow


def closed(flow: Flow, writer: str, shop: str, wording: Wording) -> None:
    """With kind regards, by name; kept whole."""
    parts: list[Block] = [
        set_text(wording("With kind regards"), BODY, flow.width),
        Gap(1.6),
        set_text(Run(writer, bold=True), BODY, flow.width),
    ]
    if shop:
        parts.append(set_text(shop, FINE_GREY, flow.width))
    flow.put(Stack(tuple(parts)), 5.6)
