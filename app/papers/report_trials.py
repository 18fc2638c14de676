"""What was tried, one change at a time, and which parts were fitted: sections of the service report."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from app.papers.blocks import Beside, Block, Stack, Whole, section, section_head
from app.papers.flow import Flow
from app.papers.labelled_rows import labelled_rows
from app.papers.line_breaks import Run
from app.papers.pen import HAIRLINE, INK, LABEL, Pen
from app.papers.said import opening, worded
from app.papers.service_report_facts import PartRow, TrialReading, TrialRow
from app.papers.tables import Head, pour_rows
from app.papers.text import FINE_GREY, LEFT, RIGHT, TABLE, natural, set_text
from app.trade.wording import Wording

PAD = 0.85  # records stand closer than an invoice's lines
ARROW = 9.0
BETWEEN = 10.0  # between two columns of the report


@dataclass(frozen=True)
class Arrow(Whole):
    """An arrow from before to after, in the middle of a line of the table."""

    height: float = TABLE.leading

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Shaft and head."""
        y = top + self.height / 2 + 0.2
        pen.line(x + 1.5, y, x + 5.5, y, 0.8, INK)
        pen.shape([(x + 7.5, y), (x + 5.1, y - 1.0), (x + 5.1, y + 1.0)])


@dataclass(frozen=True)
class WorkRow:
    """A row whose cells are blocks, closed by a hairline."""

    inside: Beside
    width: float
    last: bool = True

    @property
    def height(self) -> float:
        """Of the tallest cell."""
        return self.inside.height + 2 * PAD

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Cells and hairline."""
        self.inside.draw(pen, x, top + PAD)
        if self.last:
            pen.rule(x, top + self.height, self.width, 0.35, HAIRLINE)

    def split(self, room: float) -> tuple[Block, Block] | None:
        """Between lines: a row higher than a whole page."""
        parts = self.inside.split(room - 2 * PAD)
        if parts is None or not isinstance(parts[0], Beside) or not isinstance(parts[1], Beside):
            return None
        return replace(self, inside=parts[0], last=False), replace(self, inside=parts[1])


@dataclass(frozen=True)
class _TrialColumns:
    """Where the columns of the trials begin; the values stand as wide as the widest of them, 0 for none."""

    change: float
    measured: float
    before: float
    value: float
    rung: float
    effect: float
    width: float

    @property
    def after(self) -> float:
        return self.before + self.value + ARROW


def pour_trials(flow: Flow, trials: Sequence[TrialRow], fine_print: Sequence[str], wording: Wording) -> None:
    """The trials as a table, one change a row, and below it what to know of them."""
    columns = _columns(trials, flow.width, wording)
    read: tuple[tuple[float, str, float, float], ...] = ()
    if columns.value:
        read = (
            (columns.measured, wording("measured"), LEFT, columns.before - columns.measured - 1),
            (columns.before - 6, wording("before"), RIGHT, columns.value + 6),
            (columns.after - 6, wording("after"), RIGHT, columns.value + 6),
        )
    texts = (
        (columns.change, wording("What was changed"), LEFT, columns.measured - columns.change - 2),
        *read,
        (columns.rung, wording("rung"), LEFT, 20.0),
        (columns.effect, wording("effect"), LEFT, flow.width - columns.effect),
    )
    head = Head(
        tuple((x, set_text(word, FINE_GREY, room, align)) for x, word, align, room in texts),
        flow.width,
    )
    rows = [_trial(trial, columns, wording) for trial in trials]
    title = section_head(wording("What was tried, one change at a time"), flow.width, text_from=6.6)
    pour_rows(flow, head, rows, opening=title, above=3.0)
    if fine_print:
        flow.run(set_text(" ".join(fine_print), FINE_GREY, flow.width), 0.6)


def _columns(trials: Sequence[TrialRow], width: float, wording: Wording) -> _TrialColumns:
    values = [_figure(value, wording) for t in trials for r in t.readings for value in (r.before, r.after)]
    value = min(max([9.0, *(natural(text, TABLE) for text in values)]), 18.0) + 0.3
    effect = width - 34.0
    rung = effect - 22.0
    if not values:
        return _TrialColumns(6.0, rung, rung, 0.0, rung, effect, width)
    before = rung - 4.0 - 2 * value - ARROW
    names = [natural(_measured(reading, wording), TABLE) for trial in trials for reading in trial.readings]
    name = min(max([16.0, *names]) + 0.3, 34.0)
    return _TrialColumns(6.0, before - 2.0 - name, before, value, rung, effect, width)


def _figure(value: Decimal | None, wording: Wording) -> str:
    return "" if value is None else wording.number(value)


def _measured(reading: TrialReading, wording: Wording) -> str:
    name = worded(reading.name, wording)
    return f"{name}, {reading.unit}" if reading.unit else name


def _trial(trial: TrialRow, columns: _TrialColumns, wording: Wording) -> WorkRow:
    effect = [Run(worded(trial.effect, wording), bold=True), Run(worded(trial.rest, wording))]
    lines: list[Block] = []
    for reading in trial.readings:
        name = set_text(_measured(reading, wording), TABLE, columns.before - columns.measured - 2)
        start = columns.before - columns.measured
        cells: list[tuple[float, Block]] = [
            (0.0, name),
            (start, set_text(_figure(reading.before, wording), TABLE, columns.value, RIGHT)),
            (
                start + columns.value + ARROW,
                set_text(_figure(reading.after, wording), TABLE, columns.value, RIGHT),
            ),
        ]
        if reading.before is not None and reading.after is not None:
            cells.append((start + columns.value, Arrow()))
        lines.append(Beside(tuple(cells)))
    inside: list[tuple[float, Block]] = [
        (0.0, set_text(str(trial.number), TABLE, columns.change - 1)),
        (
            columns.change,
            set_text(worded(trial.change, wording), TABLE, columns.measured - columns.change - 2),
        ),
        (columns.measured, Stack(tuple(lines))),
        (columns.effect, set_text(effect, TABLE, columns.width - columns.effect)),
    ]
    for at, number in ((0.0, trial.rung_before), (ARROW + 5.0, trial.rung_after)):
        if number is not None:
            inside.append((columns.rung + at, set_text(str(number), TABLE, 5.0, RIGHT)))
    if trial.rung_before is not None and trial.rung_after is not None:
        inside.append((columns.rung + 5.0, Arrow()))
    return WorkRow(Beside(tuple(inside)), columns.width)


def parts_section(parts: Sequence[PartRow], width: float, wording: Wording) -> Stack:
    """Parts in two columns, each with what became of it; in one column where words are long."""
    rows = [(opening(part.what, wording), Run(worded(part.became, wording), ink=LABEL)) for part in parts]
    half = (width - BETWEEN) / 2
    if len(rows) > 1 and all(
        natural(what, TABLE) + natural(became, TABLE) + 4 <= half for what, became in rows
    ):
        middle = (len(rows) + 1) // 2
        left, right = (
            labelled_rows(some, half, TABLE, TABLE, 5.4) for some in (rows[:middle], rows[middle:])
        )
        return section(wording("Parts"), width, Beside(((0.0, left), (half + BETWEEN, right))))
    return section(wording("Parts"), width, labelled_rows(rows, width, TABLE, TABLE, 5.4))
