"""The block of a modification: in words at the left, in numbers at the right, its caution below."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

from app.papers.blocks import Beside, Block, Gap, Stack, Whole, section_head
from app.papers.facts import Clause
from app.papers.flags import flag_blocks
from app.papers.flow import stack
from app.papers.line_breaks import Run
from app.papers.modification_facts import Measured, ModificationFacts
from app.papers.pen import INK, TINT, Pen
from app.papers.said import opening, shown, together, worded
from app.papers.text import BODY, FINE, FINE_GREY, RIGHT, TABLE, Style, TextBlock, natural, set_text
from app.trade.joining import is_closed
from app.trade.sentence import Measure
from app.trade.wording import GLUE, Wording

PANEL = 84.0
BETWEEN = 5.0
INSIDE = 4.0
PITCH = 4.9
APART = 2.4  # between the columns of the panel

Cells: TypeAlias = "tuple[str, str, str]"
Widths: TypeAlias = "tuple[float, float, float]"


@dataclass(frozen=True)
class PanelRow(Whole):
    """Name, and two figures; a head is fine, grey and ruled."""

    name: TextBlock
    middle: TextBlock
    now: TextBlock
    head: bool = False

    @property
    def height(self) -> float:
        """Of the cell with most lines; a head with its rule."""
        tallest = max(self.name.height, self.middle.height, self.now.height)
        return tallest + (2.0 if self.head else PITCH - TABLE.leading)

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Cells and rule."""
        right = x + PANEL - 2 * INSIDE
        self.name.draw(pen, x, top)
        self.now.draw(pen, right - self.now.width, top)
        self.middle.draw(pen, right - self.now.width - APART - self.middle.width, top)
        if self.head:
            pen.rule(x, top + self.height - 1.0, PANEL - 2 * INSIDE, 0.5, INK)


@dataclass(frozen=True)
class Panel:
    """The tinted panel with its rows."""

    rows: Stack

    @property
    def height(self) -> float:
        """Rows with the room above and below."""
        return self.rows.height + 2.6

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Tint and rows."""
        pen.block(x, top, PANEL, self.height, TINT)
        self.rows.draw(pen, x + INSIDE, top + 1.3)

    def split(self, room: float) -> tuple[Block, Block] | None:
        """Between rows."""
        parts = self.rows.split(room - 2.6)
        if parts is None or not isinstance(parts[0], Stack) or not isinstance(parts[1], Stack):
            return None
        return Panel(parts[0]), Panel(parts[1])


def clause_runs(clause: Clause, wording: Wording) -> list[Run]:
    """Lead in Semibold, text, and the Semibold end where there is one. Behind a lead that ends as a sentence does
    the text begins one; behind another it goes on: Your data are kept."""
    lead = worded(clause.lead, wording)
    said = opening if is_closed(lead) else worded
    runs = [Run(lead, bold=True), Run(" " + said(clause.text, wording))]
    if clause.strong_end:
        runs.append(Run(" " + worded(clause.strong_end, wording), bold=True))
    return runs


def modification_block(facts: ModificationFacts, width: float, wording: Wording, title: str = "") -> Stack:
    """The whole block across ``width``."""
    figures = bool(facts.worked_out or facts.measured or facts.fine_print)
    room = width - PANEL - BETWEEN if figures else width
    words = stack([set_text(clause_runs(clause, wording), BODY, room) for clause in facts.paragraphs], 1.1)
    columns: list[tuple[float, Block]] = [(0.0, words)]
    if figures:
        columns.append((width - PANEL, _panel(facts, wording)))
    head = section_head(title or wording("Modification: this player differs from its maker’s design"), width)
    parts: list[Block] = [head, Beside(tuple(columns))]
    if facts.flags:
        parts += [Gap(2.0), flag_blocks(facts.flags, width, wording)]
    return Stack(tuple(parts))


def _panel(facts: ModificationFacts, wording: Wording) -> Panel:
    inside = PANEL - 2 * INSIDE
    worked = [
        (opening(row.name, wording), shown(row.maker, wording), shown(row.now, wording))
        for row in facts.worked_out
    ]
    measured = [
        (_tail_kept(opening(row.name, wording)), shown(row.limit, wording), measured_text(row, wording))
        for row in facts.measured
    ]
    heads: list[tuple[str, str, str]] = []
    if worked:
        heads.append((wording("Worked out"), wording("maker"), wording("now")))
    if measured:
        when = worded(facts.measured_when, wording) or wording("Measured")
        heads.append((when, wording("limit"), wording("now")))
    style, widths = _columns(heads, worked + measured, inside)
    rows: list[Block] = []
    if worked:
        rows.append(_head(heads[0], widths))
        rows += [_row(row, style, widths) for row in worked]
    if measured:
        if rows:
            rows.append(Gap(1.6))
        rows.append(_head(heads[-1], widths))
        rows += [_row(row, style, widths) for row in measured]
    if facts.fine_print:
        rows += [Gap(0.6), set_text(worded(facts.fine_print, wording), FINE_GREY, inside)]
    return Panel(Stack(tuple(rows)))


def measured_text(row: Measured, wording: Wording) -> str:
    """ "48 ±1.5 °C": value, standard uncertainty, unit, held together."""
    if row.plus_minus is None:
        return wording.measure(row.now)
    value = wording.measure(Measure(row.now.value, "", row.now.signed))
    unit = f"{GLUE}{row.now.unit}" if row.now.unit else ""
    return f"{value}{GLUE}±{wording.number(row.plus_minus)}{unit}"


def _tail_kept(name: str) -> str:
    """ "Dropout passed, 30 min warm": what tells it from its like goes whole into the next line."""
    begin, comma, tail = name.rpartition(", ")
    return f"{begin}{comma}{together(tail)}" if begin else name


def _bold(text: str) -> Run:
    return Run(text, bold=True)


def _columns(heads: list[Cells], rows: list[Cells], inside: float) -> tuple[Style, Widths]:
    """Style and widths of name and two figures: smaller where a word of a name would break inside."""
    widths = _widths(heads, rows, inside, TABLE)
    words = [word for row in rows for word in row[0].split()]
    if any(natural(word, TABLE) > widths[0] for word in words):
        return FINE, _widths(heads, rows, inside, FINE)
    return TABLE, widths


def _widths(heads: list[Cells], rows: list[Cells], inside: float, style: Style) -> Widths:
    now = max([10.0, *(natural(_bold(row[2]), style) for row in rows), *_across(heads, 2)]) + 0.2
    middle = max([10.0, *(natural(row[1], style) for row in rows), *_across(heads, 1)]) + 0.2
    now, middle = min(now, inside * 0.4), min(middle, inside * 0.3)
    return inside - now - middle - 2 * APART, middle, now


def _across(heads: list[Cells], at: int) -> list[float]:
    return [natural(head[at], FINE_GREY) for head in heads]


def _head(head: Cells, widths: Widths) -> PanelRow:
    return PanelRow(
        set_text(head[0], FINE_GREY, widths[0] + APART),
        set_text(head[1], FINE_GREY, widths[1], RIGHT),
        set_text(head[2], FINE_GREY, widths[2], RIGHT),
        head=True,
    )


def _row(row: Cells, style: Style, widths: Widths) -> PanelRow:
    return PanelRow(
        set_text(row[0], style, widths[0]),
        set_text(row[1], style, widths[1], RIGHT),
        set_text(_bold(row[2]), style, widths[2], RIGHT),
    )
