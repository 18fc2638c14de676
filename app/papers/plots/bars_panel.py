"""Lying bars on paper, with intervals, diamonds at the share of all others, and the line of what they reach."""

from __future__ import annotations

from dataclasses import dataclass

from app.papers.blocks import Whole
from app.papers.pen import INK, Pen
from app.papers.plots.legend import SAMPLE, Draw, Legend, legend
from app.papers.plots.looks import Marker, draw_bar, draw_diamond, draw_interval, draw_marker
from app.papers.plots.plot_frame import GRID, UNDER
from app.papers.plots.ruler import Ruler, ruler
from app.papers.text import CENTRE, FINE, FINE_GREY, TextBlock, cut, natural, set_text
from app.trade.statistics.picture import Axis, Bar, Bars, Ink, Scale
from app.trade.wording import Wording

BAR = 3.4
NAMES, BESIDE = 0.30, 0.27  # of the width, at most
NARROW = 100.0  # mm; below, names take more of the width and more lines
GAP = 2.5


@dataclass(frozen=True)
class _Line:
    bar: Bar
    name: TextBlock
    beside: TextBlock | None
    height: float


@dataclass(frozen=True)
class BarsPanel(Whole):
    """The panel, set."""

    lines: tuple[_Line, ...]
    ruler: Ruler
    reached: Ruler | None
    reached_name: TextBlock | None
    axis_name: TextBlock
    legend: Legend
    width: float
    left: float  # of the plot
    plot: float  # width of the plot

    @property
    def height(self) -> float:
        """Rows, axes, legend."""
        rows = sum(line.height for line in self.lines)
        return self._above + rows + UNDER + self.axis_name.height + self._key

    @property
    def _above(self) -> float:
        return 9.6 if self.reached else 0.0

    @property
    def _key(self) -> float:
        return self.legend.height + 1.6 if self.legend.entries else 0.0

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Grid, then a row for each bar, then the line over all."""
        begin, left = top + self._above, x + self.left
        foot = begin + sum(line.height for line in self.lines)
        for value, words in self.ruler.marks:
            at = left + self.ruler.share(value) * self.plot
            pen.line(at, begin, at, foot, 0.4, GRID)
            half = natural(words, FINE_GREY) / 2
            set_text(words, FINE_GREY, 2 * half + 1, CENTRE).draw(pen, at - half - 0.5, foot + 1.1)
        if self.reached and self.reached_name:
            self.reached_name.draw(pen, left, top)
            for value, words in self.reached.marks:
                at, half = left + self.reached.share(value) * self.plot, natural(words, FINE_GREY) / 2
                set_text(words, FINE_GREY, 2 * half + 1, CENTRE).draw(pen, at - half - 0.5, begin - 5.0)
                pen.line(at, begin - 0.9, at, begin, 0.6, INK)
            pen.line(left, begin, left + self.plot, begin, 0.6, INK)
        at = begin
        for line in self.lines:
            self._row(pen, line, x, left, at)
            at += line.height
        pen.line(left, begin, left, foot, 0.8, INK)
        self._climb(pen, left, begin)
        self.axis_name.draw(pen, left, foot + UNDER)
        self.legend.draw(pen, x, foot + UNDER + self.axis_name.height + 1.6)

    def _row(self, pen: Pen, line: _Line, x: float, left: float, top: float) -> None:
        bar, middle = line.bar, top + line.height / 2
        line.name.draw(pen, x, middle - line.name.height / 2)
        if line.beside:
            line.beside.draw(pen, left + self.plot + GAP, middle - line.beside.height / 2)
        if bar.value is None:
            return
        zero = left + self.ruler.share(0.0) * self.plot
        end = left + self.ruler.share(bar.value) * self.plot
        draw_bar(pen, min(zero, end), middle - BAR / 2, abs(end - zero), BAR, bar.ink)
        if bar.low is not None and bar.high is not None:
            low, high = (left + self.ruler.share(value) * self.plot for value in (bar.low, bar.high))
            draw_interval(pen, low, high, middle)
        if bar.other is not None:
            draw_diamond(pen, left + self.ruler.share(bar.other) * self.plot, middle + BAR / 2 + 0.9)

    def _climb(self, pen: Pen, left: float, top: float) -> None:
        """The line through what the bars reach together."""
        places = []
        for line in self.lines:
            if self.reached and line.bar.reached is not None:
                at = left + self.reached.share(line.bar.reached) * self.plot
                places.append((at, top + line.height / 2))
            top += line.height
        if len(places) > 1:
            pen.polyline(places, 0.25, INK)
        for at, middle in places:
            draw_marker(pen, at, middle, Marker.DOT, INK, 0.65)


def bars_panel(panel: Bars, width: float, wording: Wording, shrink: float = 1.0) -> BarsPanel:
    """The bars set in ``width`` mm. Names take two lines, one where plots shrink to less than a half; then they are cut."""
    share, most = (NAMES, 2) if width > NARROW else (NAMES + 0.06, 3)
    most = 1 if shrink < 0.5 else most
    names = [cut(wording.value(bar.name), FINE, width * share, most) for bar in panel.bars]
    besides = [
        None if bar.beside is None else cut(wording(bar.beside), FINE, width * BESIDE, 2)
        for bar in panel.bars
    ]
    left = max((name.widest for name in names), default=0.0) + GAP
    right = max((text.widest for text in besides if text), default=0.0)
    numbers = [n for bar in panel.bars for n in (bar.value, bar.low, bar.high, bar.other)]
    own = ruler(panel.axis, numbers, wording, 5 if width > NARROW else 3)
    right = max(right + GAP if right else 0.0, natural(own.marks[-1][1], FINE_GREY) / 2 + 0.5)
    plot = width - left - right
    climbs = any(bar.reached is not None for bar in panel.bars)
    shares = Axis(name=panel.axis.name, scale=Scale.SHARE, least=0.0, most=1.0)
    pitch = (7.0 if any(bar.other is not None for bar in panel.bars) else 5.4) - 1.5 * (1.0 - shrink)
    lines = tuple(
        _Line(bar, name, beside, max(pitch, name.height + 0.6, beside.height + 0.6 if beside else 0.0))
        for bar, name, beside in zip(panel.bars, names, besides, strict=True)
    )
    return BarsPanel(
        lines,
        own,
        ruler(shares, (), wording, 4 if width > NARROW else 2) if climbs else None,
        cut(wording("cumulated share"), FINE_GREY, plot, 1) if climbs else None,
        cut(wording(panel.axis.name), FINE_GREY, plot + right, 2),
        legend(_entries(panel, wording), width),
        width,
        left,
        plot,
    )


def _entries(panel: Bars, wording: Wording) -> list[tuple[Draw, str]]:
    entries: list[tuple[Draw, str]] = []
    if any(bar.low is not None for bar in panel.bars):
        entries.append((lambda pen, x, y: draw_interval(pen, x, x + SAMPLE, y), wording("95 % interval")))
    if any(bar.other is not None for bar in panel.bars):
        entries.append(
            (lambda pen, x, y: draw_diamond(pen, x + SAMPLE / 2, y), wording("all the others together"))
        )
    inks = {bar.ink for bar in panel.bars if bar.value is not None}
    words = (
        (Ink.MORE, wording("more than the others")),
        (Ink.LESS, wording("less than the others")),
        (
            Ink.FAINT,
            wording("rests on few") if not any(b.reached for b in panel.bars) else wording("not known"),
        ),
    )
    entries += [(_sample(ink), word) for ink, word in words if ink in inks]
    return entries


def _sample(ink: Ink) -> Draw:
    return lambda pen, x, y: draw_bar(pen, x, y - BAR / 2, SAMPLE, BAR, ink)
