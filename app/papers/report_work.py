"""What was tried and fitted, how large a change is, the photos chosen and the safety test: parts of the report."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from app.papers.blocks import Beside, Block, Gap, Stack, Whole, section, section_head
from app.papers.facts import Sign
from app.papers.flow import Flow, stack
from app.papers.labelled_rows import labelled_rows
from app.papers.line_breaks import Run
from app.papers.pen import HAIRLINE, INK, LABEL, Pen
from app.papers.said import opening, shown, worded
from app.papers.service_report_facts import PartRow, Photo, RatioRow, SafetyRecord, TrialReading, TrialRow
from app.papers.signs import draw_sign
from app.papers.tables import Column, Head, pour_rows, table
from app.papers.text import BODY, FINE, FINE_GREY, LEFT, RIGHT, TABLE, TextBlock, natural, set_text
from app.trade.wording import Wording

PAD = 0.85
ARROW = 9.0
HALF = 77.5  # one of two columns of 165
BETWEEN = 10.0
RULE, RULE_LEFT = 100.0, 44.0
PHOTO_HIGH, IN_A_ROW, PHOTOS_APART = 40.0, 3, 4.0


# what was tried


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


# parts


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


# how large the change is


@dataclass(frozen=True)
class RatioRule(Whole):
    """A logarithmic rule from half to double with the shop's lines; an arrow head beyond its ends."""

    name: TextBlock
    figure: TextBlock
    row: RatioRow
    lines: tuple[tuple[float, TextBlock], ...]  # words over the shop's lines

    @property
    def height(self) -> float:
        """With the words above where there are any."""
        return max(self.name.height, 5.6) + (FINE.leading if self.lines else 0.0)

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Rule, lines, bar from the maker's value to the one now."""
        if self.lines:
            for at, words in self.lines:
                left = x + RULE_LEFT + at * RULE - words.width / 2
                words.draw(pen, left, top)
            top += FINE.leading
        self.name.draw(pen, x, top)
        y = top + 2.8
        left = x + RULE_LEFT
        pen.line(left, y, left + RULE, y, 0.5, HAIRLINE)
        for line in (self.row.caution, self.row.owner):
            if line is not None and 0 <= log_place(line) <= 1:
                at = left + log_place(line) * RULE
                pen.line(at, y - 2.6, at, y + 2.6, 0.5, INK, (0.5, 0.5))
        middle, now = left + RULE / 2, left + min(max(log_place(self.row.ratio), 0.0), 1.0) * RULE
        pen.line(middle, y - 1.9, middle, y + 1.9, 0.9, INK)
        pen.block(min(middle, now), y - 0.75, abs(now - middle), 1.5)
        if 0 <= log_place(self.row.ratio) <= 1:
            pen.disc(now, y, 1.15)
        else:
            way = 2.2 if now > middle else -2.2
            pen.shape([(now + way, y), (now, y - 1.5), (now, y + 1.5)])
        self.figure.draw(pen, x + RULE_LEFT + RULE + 4.0, top)


def log_place(ratio: Decimal) -> float:
    """Where a ratio stands on the rule: half at 0, the maker's value at 0.5, double at 1."""
    return 0.5 + math.log2(float(ratio)) / 2


def ratios_section(ratios: Sequence[RatioRow], width: float, wording: Wording) -> Stack:
    """Each ratio on its rule; the shop's lines are named once over the first that has them."""
    rules: list[Block] = []
    figure_room = width - RULE_LEFT - RULE - 4.0
    for number, row in enumerate(ratios):
        lines: list[tuple[float, TextBlock]] = []
        if not number:
            for word, ratio in ((wording("caution"), row.caution), (wording("owner"), row.owner)):
                if ratio is not None:
                    words = f"{word}\u00a0×\u00a0{wording.number(ratio)}"
                    block = set_text(words, FINE_GREY, natural(words, FINE_GREY) + 0.1)
                    lines.append((log_place(ratio), block))
        figure = Run(f"×\u00a0{wording.number(row.ratio)}", bold=True)
        rules.append(
            RatioRule(
                set_text(opening(row.name, wording), TABLE, RULE_LEFT - 2),
                set_text(figure, TABLE, figure_room, RIGHT),
                row,
                _apart(lines),
            )
        )
    ends = Beside(
        tuple(
            (RULE_LEFT + at * RULE - 6.0, set_text(word, FINE_GREY, 12.0, 0.5))
            for at, word in ((0.0, "×\u00a0½"), (0.5, "×\u00a01"), (1.0, "×\u00a02"))
        )
    )
    note = wording("against the maker’s value, scale from half to double")
    return section(wording("How large the change is"), width, stack(rules, 0.8), Gap(0.6), ends, note=note)


def _apart(lines: list[tuple[float, TextBlock]]) -> tuple[tuple[float, TextBlock], ...]:
    """Words that would touch are moved away from each other."""
    if len(lines) == 2:
        (first, left), (second, right) = lines
        short = (left.width + right.width) / 2 + 2.0 - (second - first) * RULE
        if short > 0:
            return ((first - short / 2 / RULE, left), (second + short / 2 / RULE, right))
    return tuple(lines)


# photos


@dataclass(frozen=True)
class Picture(Whole):
    """One photo in the room it has, at its left; as high as it comes out."""

    data: str
    width: float
    height: float

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draws it."""
        pen.picture(self.data, x, top, self.width, self.height)


def photo_rows(photos: Sequence[Photo], width: float) -> list[Block]:
    """Photos three in a row, each with its words below; a picture stays with them."""
    room = (width - (IN_A_ROW - 1) * PHOTOS_APART) / IN_A_ROW
    blocks = [_photo(photo, room) for photo in photos]
    return [
        _Kept(
            Beside(
                tuple(
                    (i * (room + PHOTOS_APART), block) for i, block in enumerate(blocks[at : at + IN_A_ROW])
                )
            )
        )
        for at in range(0, len(blocks), IN_A_ROW)
    ]


@dataclass(frozen=True)
class _Kept(Whole):
    """Blocks that are never split."""

    inside: Beside

    @property
    def height(self) -> float:
        return self.inside.height

    def draw(self, pen: Pen, x: float, top: float) -> None:
        self.inside.draw(pen, x, top)


def _photo(photo: Photo, width: float) -> Stack:
    across, down = Pen.size_of(photo.picture)
    scale = min(width / across, PHOTO_HIGH / down)
    parts: list[Block] = [Picture(photo.picture, across * scale, down * scale)]
    if photo.caption:
        parts += [Gap(0.8), set_text(photo.caption, FINE, width)]
    return Stack(tuple(parts))


# the safety test


@dataclass(frozen=True)
class ClassSign(Whole):
    """Square in square, behind the head of the safety test of a class II player."""

    width: float
    height: float = 0.0

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """At the right, in the line of the head."""
        draw_sign(pen, Sign.CLASS_II, x + self.width - 4.4, top - 5.6, 4.4)


def pour_safety(
    flow: Flow, record: SafetyRecord | None, missing: str, *, class_ii: bool, wording: Wording
) -> None:
    """The steps as a table, then the verdict; or that there is no test, and why."""
    title = wording("Electrical safety test after repair")
    if record is None:
        flow.put(section(title, flow.width, set_text(missing, BODY, flow.width)), 3.0)
        return
    columns = (
        Column(wording("Step, in this order")),
        Column(wording("measured"), 24.0, RIGHT, most=38.0),
        Column(wording("limit"), 20.0, RIGHT, most=34.0),
        Column("", 2.0),
        Column(wording("meets the limit"), 24.0, most=30.0),
        Column(wording("shop’s verdict"), 22.0, most=30.0),
    )
    cells = [
        (
            opening(step.name, wording), shown(step.measured, wording), shown(step.limit, wording), "",
            worded(step.meets, wording), worded(step.verdict, wording),
        )
        for step in record.steps
    ]  # fmt: skip
    content = table(columns, cells, flow.width)
    sign = ClassSign(flow.width) if class_ii else Gap(0.0)
    note = worded(record.edition, wording)
    head = section_head(title, flow.width, note + "\u00a0" * 9 if class_ii else note, text_from=6.6)
    result = [Run(worded(record.result, wording), bold=True), Run(" " + worded(record.about, wording))]
    said: list[Block] = [set_text(result, BODY, flow.width)]
    if record.fine_print:
        said += [Gap(0.6), set_text(worded(record.fine_print, wording), FINE_GREY, flow.width)]
    below = stack(said)
    pour_rows(
        flow, content.head, content.rows, opening=Stack((head, sign)), above=3.0, tail=below.height + 1.0
    )
    flow.put(below, 1.0)
