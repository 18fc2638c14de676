"""The start-up ladder before and after, drawn small, with the names of its rungs once between the two."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.papers.blocks import Beside, Block, Gap, Stack, Whole
from app.papers.facts import Clause
from app.papers.flow import stack
from app.papers.line_breaks import Run
from app.papers.modification import clause_runs
from app.papers.pen import HAIRLINE, INK, LABEL, WHITE, Pen
from app.papers.said import worded
from app.papers.service_report_facts import Climb, LadderFacts
from app.papers.text import BODY, FINE, FINE_GREY, RIGHT, TABLE, TextBlock, fitted, natural, set_text
from app.trade.wording import Wording

PITCH = 4.7
BAR = 1.9
RAILS = 15.0  # from rail to rail
NUMBER = 7.5  # room of a rung's number, right of the rail
LEAST_NAME, MOST_NAME = 28.0, 46.0
BETWEEN = 9.0  # from the second ladder to the text


@dataclass(frozen=True)
class Rails(Whole):
    """One ladder. Rungs up to ``rung`` are solid, the next is half, those above are open."""

    rung: int
    count: int

    @property
    def height(self) -> float:
        """Of all rungs."""
        return self.count * PITCH

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Rungs from the top down, then the rails."""
        for number in range(self.count, 0, -1):
            y = top + (self.count - number) * PITCH + (PITCH - BAR) / 2
            draw_rung(pen, x, y, RAILS, self.rung - number)
        for rail in (x, x + RAILS):
            pen.line(rail, top - 0.4, rail, top + self.height + 0.4, 1.1, INK)


def draw_rung(pen: Pen, x: float, y: float, width: float, above: int) -> None:
    """A rung: solid when reached (``above`` 0 or more), half when it stopped there (-1), else open."""
    if above >= 0:
        pen.block(x, y, width, BAR)
    else:
        pen.block(x, y, width, BAR, WHITE)
        pen.frame(x, y, width, BAR, 0.5, INK if above == -1 else HAIRLINE)
        if above == -1:
            pen.block(x, y, width / 2, BAR)


@dataclass(frozen=True)
class Names(Whole):
    """Numbers and names of the rungs; the one where it stopped in Semibold."""

    rows: tuple[tuple[TextBlock, TextBlock], ...]  # from the top down

    @property
    def height(self) -> float:
        """Of all rungs."""
        return len(self.rows) * PITCH

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """One line a rung."""
        for number, name in self.rows:
            number.draw(pen, x, top)
            name.draw(pen, x + NUMBER, top + (TABLE.size - name.style.size) * 0.17)
            top += PITCH


@dataclass(frozen=True)
class Legend(Whole):
    """What the three kinds of rung mean."""

    words: tuple[tuple[int, TextBlock], ...]

    height: float = FINE.leading

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Small rungs with their words."""
        for above, words in self.words:
            draw_rung(pen, x, top + 1.2, 5.4, above)
            words.draw(pen, x + 6.6, top)
            x += 6.6 + words.widest + 3.2


def ladder_pair(facts: LadderFacts, finding: Sequence[Clause], width: float, wording: Wording) -> Block:
    """Ladder on arrival, names, ladder at the end; beside them what is known, done and not known."""
    names = [worded(name, wording) for name in facts.rungs]
    stopped = facts.arrival.rung + 1 if facts.arrival else facts.final.rung + 1 if facts.final else 0
    widest = max((natural(Run(name, bold=True), TABLE) for name in names), default=0.0)
    room = min(max(widest + 0.2, LEAST_NAME), MOST_NAME)
    columns: list[tuple[float, Block]] = []
    across = 0.0
    first, last = facts.arrival, facts.final
    heads = [_head(wording("On arrival"), first, RAILS + room, wording)] if first else []
    heads += [_head(wording("Final"), last, RAILS + BETWEEN - 1.5, wording)] if last else []
    tallest = max((head.height for head in heads), default=0.0)
    count = len(names)
    if first:
        columns.append((across, _below(heads[0], tallest, Rails(first.rung, count))))
        across += RAILS + 1.0
    columns.append((across, Stack((Gap(tallest + 1.2), _names(names, stopped, room)))))
    across += NUMBER + room + 2.0
    if last:
        columns.append((across, _below(heads[-1], tallest, Rails(last.rung, count))))
        across += RAILS
    across += BETWEEN
    columns.append((across, _beside(finding, tallest + 1.2 + count * PITCH, width - across, wording)))
    return Beside(tuple(columns))


def _below(head: Stack, tallest: float, rails: Rails) -> Stack:
    return Stack((head, Gap(tallest - head.height + 1.2), rails))


def _head(word: str, climb: Climb, width: float, wording: Wording) -> Stack:
    day = wording.day(climb.day, "d MMM")
    parts: list[Block] = [set_text(Run(word, bold=True), TABLE, width), set_text(day, FINE_GREY, width)]
    if climb.tries:
        parts.append(set_text(worded(climb.tries, wording), FINE_GREY, width))
    return Stack(tuple(parts))


def _names(names: Sequence[str], stopped: int, room: float) -> Names:
    rows = []
    for number in range(len(names), 0, -1):
        figure = set_text(Run(str(number), ink=LABEL), TABLE, NUMBER - 2.5, RIGHT)
        name = fitted(Run(names[number - 1], bold=number == stopped), TABLE, room)
        rows.append((figure, name if len(name.lines) == 1 else name.shorter()))
    return Names(tuple(rows))


def _beside(finding: Sequence[Clause], height: float, width: float, wording: Wording) -> Stack:
    words = stack([set_text(clause_runs(clause, wording), BODY, width) for clause in finding], 1.6)
    kinds = ((0, wording("reached")), (-1, wording("stopped here")), (-2, wording("not reached")))
    blocks = [(above, set_text(word, FINE, width)) for above, word in kinds]
    lines: list[Block] = []
    line: list[tuple[int, TextBlock]] = []
    used = 0.0
    for above, block in blocks:
        if line and used + 6.6 + block.widest > width:
            lines.append(Legend(tuple(line)))
            line, used = [], 0.0
        line.append((above, block))
        used += 6.6 + block.widest + 3.2
    lines.append(Legend(tuple(line)))
    legend = Stack(tuple(lines))
    return Stack((words, Gap(max(2.0, height - words.height - legend.height)), legend))
