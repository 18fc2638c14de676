"""A list on paper: the table of a page, upright or across, its heads on every sheet, nothing cut."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import replace

from app.papers.facts import SheetFacts
from app.papers.flow import Flow
from app.papers.line_breaks import Run
from app.papers.list_facts import ListColumn, ListFacts, ListLine
from app.papers.page_foot import FOOT, page_foot
from app.papers.pen import LABEL
from app.papers.sheet import FORMATS, Format, made
from app.papers.tables import BESIDE, Column, Row, Table, after_mark, table
from app.papers.text import BODY, FINE_GREY, SECTION, TABLE, TITLE, fitted, natural, set_text
from app.trade.wording import Wording

LEFT, RIGHT_MARGIN = 20.0, 15.0
TOP, LATER = 15.0, 21.0
ACROSS_FROM = 6  # columns for which the sheet is turned
_GROUPS = re.compile(
    r"(?<=[0-9]) (?=[0-9]{2,}(?![\w:]))"
)  # between groups of figures; before a time it may break
WIDEST_WORD = 45.0  # mm; a longer word is broken before its column takes more


def list_paper(facts: ListFacts, sheet: SheetFacts, wording: Wording) -> bytes:
    """The PDF of a list."""
    paper = _format(facts, sheet)
    width = paper.width - LEFT - RIGHT_MARGIN
    flow = Flow(LEFT, width, TOP, LATER, paper.height - FOOT - 2.0)
    _head(facts, sheet, flow, wording)
    content = _table(facts, width)
    if content.rows:
        _pour(flow, content, facts.lines)
    _end(facts, flow, wording)
    running = " · ".join((facts.title, *facts.about))
    foot = page_foot(paper, sheet, wording, facts.day, running, LEFT, width)
    return made(flow.pages, paper, facts.title, sheet, wording, foot)


def _format(facts: ListFacts, sheet: SheetFacts) -> Format:
    upright = FORMATS[sheet.size]
    if len(facts.columns) < ACROSS_FROM:
        return upright
    return replace(upright, width=upright.height, height=upright.width)


def _head(facts: ListFacts, sheet: SheetFacts, flow: Flow, wording: Wording) -> None:
    flow.put(fitted(facts.title, TITLE, flow.width, 2))
    count = sum(not line.over for line in facts.lines)
    counted = wording("1 row") if count == 1 else wording("{n} rows", n=count)
    about = " · ".join((*facts.about, counted if count else wording("nothing stands in it")))
    flow.put(set_text(about, BODY.but(ink=LABEL), flow.width), 1.0)
    flow.top += 4.0


def _end(facts: ListFacts, flow: Flow, wording: Wording) -> None:
    """What is not printed is said, so that nobody takes the paper for the whole."""
    if not facts.more:
        return
    if facts.more < 0:
        said = wording("There are more that are not printed here. Narrow the list down to print them.")
    elif facts.more == 1:
        said = wording("1 more row is not printed here. Narrow the list down to print it.")
    else:
        said = wording(
            "{n} more rows are not printed here. Narrow the list down to print them.", n=facts.more
        )
    flow.put(set_text(Run(said, bold=True), TABLE, flow.width), 2.5)


def _table(facts: ListFacts, width: float) -> Table:
    """The rows set in columns that share the width by what stands in them."""
    plain = [_whole(line, len(facts.columns)) for line in facts.lines if not line.over]
    widths = shares(facts.columns, plain, width)
    columns = [Column(column.head, decimal=column.number) for column in facts.columns]
    content = table(columns, plain, width, widths)
    left = iter(content.rows)
    rows = [_over(line, width) if line.over else next(left) for line in facts.lines]
    return Table(content.head, tuple(rows))


def _whole(line: ListLine, count: int) -> tuple[str, ...]:
    """The cells of a row; groups of figures, as a serial or telephone number has, stay on one line."""
    cells = (_GROUPS.sub("\u00a0", cell) for cell in line.cells)
    return (*cells, *[""] * (count - len(line.cells)))


def _over(line: ListLine, width: float) -> Row:
    """A heavier word with what is counted behind it."""
    word, *rest = line.cells
    runs = [Run(word, bold=True), *(Run(f"   {text}", ink=LABEL) for text in rest if text)]
    return Row(((0.0, set_text(runs, SECTION.but(bold=False), width)),), width)


def shares(columns: Sequence[ListColumn], rows: Sequence[Sequence[str]], width: float) -> list[float]:
    """Widths that fill ``width``: each column what it asks for, or where that is too much, its longest word and
    a share of the rest. A figure is never broken while there is room for it."""
    wanted, least = [], []
    for at, column in enumerate(columns):
        keep = BESIDE if at < len(columns) - 1 else 0.0
        texts = {row[at] for row in rows}
        words = {word for text in texts for word in text.split(" ")}  # a no-break space keeps them together
        head = max((natural(word, FINE_GREY) for word in column.head.split()), default=0.0)
        whole = _mostly([natural(row[at], TABLE) for row in rows if row[at]])
        if column.number:
            behind = max((after_mark(text) for text in texts), default=0.0)
            whole = max((natural(text, TABLE) - after_mark(text) for text in texts), default=0.0) + behind
        word = whole if column.number else max((natural(word, TABLE) for word in words), default=0.0)
        least.append(max(head, min(word, WIDEST_WORD)) + keep + 0.3)
        wanted.append(max(natural(column.head, FINE_GREY), whole) + keep + 0.3)
    spare = width - sum(least)
    if spare < 0:  # even single words have no room: all give way alike
        return [one * width / sum(least) for one in least]
    more = [max(want - one, 0.0) for want, one in zip(wanted, least, strict=True)]
    if sum(more) <= spare:
        widest = max(range(len(columns)), key=lambda at: more[at])
        return [
            one + extra + (spare - sum(more) if at == widest else 0.0)
            for at, (one, extra) in enumerate(zip(least, more, strict=True))
        ]
    return [one + extra for one, extra in zip(least, _given(more, spare), strict=True)]


def _mostly(widths: Sequence[float]) -> float:
    """Room for all but the longest twentieth, so that one odd text does not squeeze the columns of all others."""
    return sorted(widths)[math.ceil(len(widths) * 0.95) - 1] if widths else 0.0


def _given(more: Sequence[float], spare: float) -> list[float]:
    """``spare`` dealt out evenly, to nobody more than is asked: short texts stay whole, the long ones wrap."""
    given = [0.0] * len(more)
    for place, at in enumerate(sorted(range(len(more)), key=lambda at: more[at])):
        given[at] = min(more[at], spare / (len(more) - place))
        spare -= given[at]
    return given


def _pour(flow: Flow, content: Table, lines: Sequence[ListLine]) -> None:
    """Rows on pages, the heads above them on each; a heading stays with its first row."""
    flow.put(content.head)
    for at, (row, line) in enumerate(zip(content.rows, lines, strict=True)):
        needed = row.height
        if line.over and at + 1 < len(content.rows):
            needed += content.rows[at + 1].height
        if needed > flow.room + 0.01 and flow.top > flow.later + content.head.height + 0.01:
            flow.turn()
            flow.put(content.head)
        rest = row
        while rest.height > flow.room + 0.01 and (parts := rest.split(flow.room)) is not None:
            first, then = parts
            assert isinstance(then, Row)
            flow.put(first)
            flow.turn()
            flow.put(content.head)
            rest = then
        flow.put(rest)
