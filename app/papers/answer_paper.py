"""An answer on one page: its headline, what was asked, the picture and the table as far as they have room, and why."""

from __future__ import annotations

from app.papers.answer_facts import AnswerFacts
from app.papers.answer_rows import FEWEST_ROWS, AnswerRows, answer_rows
from app.papers.blocks import Block, Gap, Stack, section_head
from app.papers.facts import SheetFacts
from app.papers.flow import Flow
from app.papers.line_breaks import Run
from app.papers.page_foot import FOOT, page_foot
from app.papers.pen import LABEL
from app.papers.plots.picture_blocks import picture_blocks
from app.papers.sheet import FORMATS, Format, made
from app.papers.text import BODY, FINE, FINE_GREY, TITLE, fitted, set_text
from app.trade.wording import Wording

LEFT, RIGHT = 20.0, 15.0
TOP, LATER = 15.0, 21.0
APART = 4.5  # between the parts of the page
SHRINKS = (1.0, 0.85, 0.7, 0.6)  # of plots, tried in turn so that more of them have room
TIGHT = 0.4  # where nothing else has room
WORD = 1.4 + FINE.leading  # of rows or of pictures that are not printed


def answer_paper(facts: AnswerFacts, sheet: SheetFacts, wording: Wording) -> bytes:
    """The PDF of an answer."""
    paper = FORMATS[sheet.size]
    width = paper.width - LEFT - RIGHT
    laid = [_laid(facts, paper, width, wording, shrink) for shrink in SHRINKS]
    if min(len(flow.pages) for flow, _ in laid) > 1:  # many bars and long names
        tries = (
            (SHRINKS[-1], False),
            (TIGHT, True),
            (TIGHT, False),
        )  # names whole before the table, if it can be
        laid += [_laid(facts, paper, width, wording, shrink, tabled=tabled) for shrink, tabled in tries]
    flow, _ = min(laid, key=lambda one: (len(one[0].pages), one[1]))  # the first of the best
    running = " · ".join((facts.question, *facts.asked))
    foot = page_foot(paper, sheet, wording, facts.day, running, LEFT, width)
    return made(flow.pages, paper, facts.headline, sheet, wording, foot)


def _laid(
    facts: AnswerFacts, paper: Format, width: float, wording: Wording, shrink: float, *, tabled: bool = True
) -> tuple[Flow, int]:
    """Everything in its place, with plots of a share of their usual height, and for how many there is no room."""
    flow = Flow(LEFT, width, TOP, LATER, paper.height - FOOT - 2.0)
    flow.put(set_text(facts.question, BODY.but(ink=LABEL), width))
    flow.put(fitted(facts.headline, TITLE, width, 3), 0.5)
    if facts.asked:
        flow.put(set_text(" · ".join(facts.asked), BODY.but(ink=LABEL), width), 1.0)
    why = _why(facts, width, wording)
    lines = facts.table.lines if facts.table is not None else ()
    rows = answer_rows(facts.table, width) if facts.table is not None and lines and tabled else None
    below = APART + why.height + (APART + rows.height(FEWEST_ROWS) + WORD if rows else 0.0)
    left = 0
    for at, block in enumerate(picture_blocks(facts.picture, width, wording, shrink)):
        if at and APART + block.height + WORD + below > flow.room:
            left += 1
        else:
            flow.put(block, APART)
    if left:
        said = wording("Further pictures of this answer are not printed here.")
        flow.put(set_text(Run(said, ink=LABEL), FINE, width), WORD - FINE.leading)
    if lines and not tabled:
        said = wording("The table of {n} rows is not printed here.", n=len(lines))
        flow.put(set_text(Run(said, ink=LABEL), FINE, width), WORD - FINE.leading)
    if rows:
        _put_rows(flow, rows, APART + why.height, wording)
    flow.run(why, APART)
    return flow, left


def _why(facts: AnswerFacts, width: float, wording: Wording) -> Stack:
    """What the answer rests on, then what has to be said beside it."""
    parts: list[Block] = [section_head(wording("Why this number"), width)]
    parts += [set_text(text, FINE, width) for text in (*facts.why, *facts.said)]
    if facts.sources:
        sources = "; ".join(facts.sources)
        parts += [Gap(1.0), set_text(wording("Source: {source}.", source=sources), FINE_GREY, width)]
    return Stack(tuple(parts))


def _put_rows(flow: Flow, rows: AnswerRows, below: float, wording: Wording) -> None:
    """As many rows as leave room for what stands ``below``, at least a few, and a word on the others."""
    count = rows.most
    while count > FEWEST_ROWS and APART + rows.height(count) + WORD + below > flow.room:
        count -= 1
    flow.put(rows.first(count), APART)
    left = rows.there - min(count, rows.most)
    if left:
        said = wording("{n} more rows are not printed here.", n=left)
        if left == 1:
            said = wording("1 more row is not printed here.")
        flow.put(set_text(Run(said, ink=LABEL), FINE, flow.width), WORD - FINE.leading)
