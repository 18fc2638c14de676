"""Readings before and after: values with their uncertainty, limits, a small picture in the row, the verdict in words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from app.papers.blocks import Block, Whole
from app.papers.line_breaks import Run
from app.papers.pen import BAND, HAIRLINE, INK, LABEL, WHITE, Pen
from app.papers.said import opening, worded
from app.papers.service_report_facts import ReadingRow, Value
from app.papers.tables import BESIDE, Head, Row, after_mark
from app.papers.text import FINE_GREY, LEFT, RIGHT, TABLE, TextBlock, natural, set_text
from app.trade.bench.scale import HIGH_AT, LOW_AT, on_scale
from app.trade.wording import Wording

AXIS, BAND_HIGH, DOT = 23.0, 3.4, 1.15
LEAST_NAME, MOST_NAME = 30.0, 44.0
# Name, arrival, its uncertainty, final, its uncertainty, limit, picture, verdict: the least and most of each.
LEAST = (LEAST_NAME, 9.0, 9.0, 9.0, 9.0, 14.0, AXIS, 24.0)
MOST = (LEAST_NAME, 17.0, 12.0, 17.0, 12.0, 21.0, AXIS, 44.0)


@dataclass(frozen=True)
class Gauge(Whole):
    """Axis, band of the limits, open dot for arrival, solid dot for the final value with a bar of twice its
    uncertainty; an arrow head where a value is off the scale."""

    low: float | None
    high: float | None
    arrival: float | None
    final: float | None
    spread: float = 0.0
    height: float = TABLE.leading

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draws it in the middle of the line."""
        y = top + self.height / 2
        pen.line(x, y, x + AXIS, y, 0.5, HAIRLINE)
        if self.low is not None or self.high is not None:
            begin = LOW_AT if self.low is not None else 0.0
            end = HIGH_AT if self.high is not None else 1.0
            pen.block(x + begin * AXIS, y - BAND_HIGH / 2, (end - begin) * AXIS, BAND_HIGH, BAND)
            pen.line(x, y, x + AXIS, y, 0.5, HAIRLINE)
            for limit, at in ((self.low, begin), (self.high, end)):
                if limit is not None:
                    pen.line(x + at * AXIS, y - 2.1, x + at * AXIS, y + 2.1, 0.9, INK)
        if self.arrival is not None:
            self._mark(pen, x, y, self.arrival, solid=False)
        if self.final is not None:
            self._mark(pen, x, y, self.final, solid=True)

    def _mark(self, pen: Pen, x: float, y: float, value: float, *, solid: bool) -> None:
        at = on_scale(value, self.low, self.high)
        if not 0.0 <= at <= 1.0:
            tip, back = (x + AXIS, -2.2) if at > 1 else (x, 2.2)
            head = [(tip, y), (tip + back, y - 1.3), (tip + back, y + 1.3)]
            pen.shape(head, INK if solid else WHITE, INK, 0.3)
            return
        if solid and self.spread:
            ends = [on_scale(value + side * self.spread, self.low, self.high) for side in (-1, 1)]
            left, right = (min(max(end, 0.0), 1.0) for end in ends)
            pen.line(x + left * AXIS, y, x + right * AXIS, y, 1.3, INK)
        pen.disc(x + at * AXIS, y, DOT, INK if solid else WHITE)
        pen.ring(x + at * AXIS, y, DOT, 0.9, INK)


@dataclass(frozen=True)
class ReadingLine(Whole):
    """A row of the table with its picture."""

    row: Row
    gauge: Gauge | None
    across: float

    PAD = 0.85  # records stand closer than an invoice's lines

    @property
    def height(self) -> float:
        """Of the tallest cell."""
        return max(block.height for _, block in self.row.cells) + 2 * self.PAD

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Cells, picture, hairline."""
        for across, block in self.row.cells:
            block.draw(pen, x + across, top + self.PAD)
        if self.gauge:
            self.gauge.draw(pen, x + self.across, top + self.PAD)
        pen.rule(x, top + self.height, self.row.width, 0.35, HAIRLINE)


@dataclass(frozen=True)
class Key(Whole):
    """The head over the pictures: open dot arrival, solid dot final."""

    arrival: TextBlock
    final: TextBlock

    @property
    def width(self) -> float:
        """Of dots and words."""
        return 8.0 + self.arrival.widest + self.final.widest

    @property
    def height(self) -> float:
        """One line."""
        return FINE_GREY.leading

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Dots and words."""
        middle = top + self.height / 2 + 0.1
        pen.ring(x + DOT, middle, DOT, 0.9, INK)
        self.arrival.draw(pen, x + 3.2, top)
        x += 3.2 + self.arrival.widest + 1.6
        pen.disc(x + DOT, middle, DOT + 0.15, INK)
        self.final.draw(pen, x + 3.2, top)


@dataclass(frozen=True)
class ReadingsHead(Head):
    """Heads of the columns, and the key of the pictures among them."""

    key: Key | None = None
    across: float = 0.0

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Heads and key stand on the rule."""
        super().draw(pen, x, top)
        if self.key:
            self.key.draw(pen, x + self.across, top + self.height - 1.5 - self.key.height)


def readings_table(
    rows: Sequence[ReadingRow], width: float, wording: Wording
) -> tuple[ReadingsHead, list[Block]]:
    """Head and rows of the table."""
    texts = [_texts(row, wording) for row in rows]
    heads = (
        wording("Quantity"), wording("before"), "", wording("after"), "", wording("limit"), "",
        wording("verdict (before)"),
    )  # fmt: skip
    key = Key(set_text(wording("before"), FINE_GREY, 30), set_text(wording("after"), FINE_GREY, 30))
    widths = _widths(heads, texts, width, key.width)
    starts = [sum(widths[:at]) for at in range(len(widths))]
    fractions = [max((after_mark(text[at]) for text in texts), default=0.0) for at in range(len(heads))]
    cells = []
    for at, head in enumerate(heads):
        room = widths[at] - (BESIDE if at < len(heads) - 1 else 0.0)
        align = RIGHT if at in (1, 3, 5) else LEFT
        cells.append((starts[at], set_text(head, FINE_GREY, room, align)))
    return (
        ReadingsHead(tuple(cells), width, key, starts[6]),
        [
            _line(row, text, starts, widths, fractions, width, wording)
            for row, text in zip(rows, texts, strict=True)
        ],
    )


def _widths(heads: Sequence[str], texts: Sequence[Sequence[str]], width: float, key: float) -> list[float]:
    widths = []
    for at, (least, most) in enumerate(zip(LEAST, MOST, strict=True)):
        cells = [text[at] for text in texts]
        wide = max([natural(cell, TABLE) for cell in cells] + [natural(heads[at], FINE_GREY)], default=0.0)
        if at in (1, 3):  # numbers stand under each other by their decimal mark
            marks = [after_mark(cell) for cell in cells]
            whole = [natural(cell, TABLE) - mark for cell, mark in zip(cells, marks, strict=True)]
            wide = max(max(whole, default=0.0) + max(marks, default=0.0), natural(heads[at], FINE_GREY))
        keep = BESIDE if at < len(LEAST) - 1 else 0.0
        widths.append(min(max(least, wide), most) + keep)
    widths[6] = max(widths[6], key + BESIDE)
    name = max([LEAST_NAME, *(min(natural(text[0], TABLE), MOST_NAME) + BESIDE for text in texts)])
    short = name + sum(widths[1:]) - width
    widths[7] -= min(max(short, 0.0), max(0.0, widths[7] - LEAST[7]))
    widths[0] = width - sum(widths[1:])
    return widths


def _texts(row: ReadingRow, wording: Wording) -> tuple[str, ...]:
    name = opening(row.name, wording)
    name = f"{name}, {row.unit}" if row.unit else name
    verdict = worded(row.verdict, wording)
    if row.was:
        verdict = f"{verdict} ({worded(row.was, wording)})"
    arrival = "" if row.not_readable else _number(row.arrival, wording)
    return (
        name, arrival, _u(row.arrival, wording), _number(row.final, wording), _u(row.final, wording),
        limit_text(row.low, row.high, wording), "", verdict,
    )  # fmt: skip


def _number(value: Value | None, wording: Wording) -> str:
    if value is None:
        return ""
    if value.value is None:
        return wording("open")
    text = wording.number(value.value)
    return f"{value.bound}\u202f{text}" if value.bound else text


def _u(value: Value | None, wording: Wording) -> str:
    return f"±{wording.number(value.u)}" if value and value.u else ""


def limit_text(low: Decimal | None, high: Decimal | None, wording: Wording) -> str:
    """≤ 57.6; ≥ 0.5; 0.80–1.40; −50…50, where a dash beside a minus would be read as one."""
    if low is not None and high is not None:
        between = "…" if low < 0 or high < 0 else "–"
        return f"{wording.number(low)}{between}{wording.number(high)}"
    if high is not None:
        return f"≤\u00a0{wording.number(high)}"
    return f"≥\u00a0{wording.number(low)}" if low is not None else ""


def _line(
    row: ReadingRow,
    text: Sequence[str],
    starts: Sequence[float],
    widths: Sequence[float],
    fractions: Sequence[float],
    width: float,
    wording: Wording,
) -> ReadingLine:
    cells: list[tuple[float, TextBlock]] = []
    for at, cell in enumerate(text):
        room = widths[at] - (BESIDE if at < len(text) - 1 else 0.0)
        if at in (1, 3):
            cells.append((starts[at], set_text(cell, TABLE, room - fractions[at] + after_mark(cell), RIGHT)))
        elif at in (2, 4):
            cells.append((starts[at], set_text(Run(cell, ink=LABEL), TABLE, room)))
        elif at == 7 and row.strong:
            said = worded(row.verdict, wording)
            cells.append((starts[at], set_text([Run(said, bold=True), Run(cell[len(said) :])], TABLE, room)))
        else:
            cells.append((starts[at], set_text(cell, TABLE, room, RIGHT if at == 5 else LEFT)))
    if row.not_readable:
        room = starts[3] - starts[1] - BESIDE
        cells[1] = (starts[1], set_text(Run(wording("not readable"), ink=LABEL), TABLE, room))
        cells[2] = (starts[2], replace(cells[2][1], lines=()))
    return ReadingLine(Row(tuple(cells), width), _gauge(row), starts[6])


def _gauge(row: ReadingRow) -> Gauge | None:
    if row.low is None and row.high is None:
        return None
    arrival, final = (value.value if value else None for value in (row.arrival, row.final))
    u = row.final.u if row.final and row.final.u else Decimal(0)
    low, high = (None if limit is None else float(limit) for limit in (row.low, row.high))
    return Gauge(
        low,
        high,
        None if arrival is None else float(arrival),
        None if final is None else float(final),
        float(2 * u),
    )
