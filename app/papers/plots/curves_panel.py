"""Step curves on paper: bands, or intervals at the marks where there are more, and the numbers at risk below."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from app.papers.blocks import Whole
from app.papers.pen import INK, LABEL, POINT, TINT, Pen
from app.papers.plots.legend import SAMPLE, Draw, Legend, legend
from app.papers.plots.looks import LineLook, draw_marker, line_look
from app.papers.plots.plot_frame import UNDER, Frame, words_at_left
from app.papers.plots.ruler import Ruler, ruler
from app.papers.text import CENTRE, FINE, FINE_GREY, TextBlock, cut, natural, one_line, set_text
from app.trade.statistics.picture import Curve, Curves, Ink
from app.trade.wording import Wording

MOST_BANDS = 2  # with more they hide each other; then intervals stand at the marks
PLOT = 62.0
NAMES = 0.27  # of the width, at most
DODGE = 1.1  # mm between intervals at one mark
THICK, THIN = 1.3 * POINT, 0.8 * POINT

Places = list[tuple[float, float]]


@dataclass(frozen=True)
class CurvesPanel(Whole):
    """The panel, set. ``risks`` are a row for each curve: name, and a number under each mark."""

    curves: tuple[Curve, ...]
    x: Ruler
    y: Ruler
    y_name: TextBlock
    x_name: TextBlock
    guide: tuple[float, TextBlock] | None
    risk_name: TextBlock | None
    risks: tuple[tuple[TextBlock, tuple[TextBlock, ...]], ...]
    legend: Legend
    width: float
    left: float
    plot: float  # height of the plot

    @property
    def height(self) -> float:
        """Words, plot, axis, numbers at risk or legend."""
        under = self.legend.height + 1.4
        if self.risk_name:
            under += self.risk_name.height + sum(self._row(name) for name, _ in self.risks) + 1.0
        return self._above + self.plot + UNDER + self.x_name.height + under

    @property
    def _above(self) -> float:
        return self.y_name.height + 2.4

    @staticmethod
    def _row(name: TextBlock) -> float:
        return name.height + 0.5

    def frame(self, x: float, top: float) -> Frame:
        """Where values stand."""
        right = natural(self.x.marks[-1][1], FINE_GREY) / 2
        return Frame(
            self.x, self.y, x + self.left, top + self._above, self.width - self.left - right, self.plot
        )

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Bands first, then the grid, then curves over both."""
        frame = self.frame(x, top)
        banded = len([curve for curve in self.curves if curve.low]) <= MOST_BANDS
        if banded:
            for curve in self.curves:
                _band(pen, frame, curve)
        self.y_name.draw(pen, frame.left - words_at_left(self.y), top)
        frame.draw_grid(pen)
        if self.guide:
            at = frame.across(self.guide[0])
            pen.line(at, frame.top, at, frame.top + frame.height, 0.7, LABEL, (1.0, 0.9))
            aside = (
                1.2
                if at + 1.2 + self.guide[1].width < frame.left + frame.width
                else -1.2 - self.guide[1].width
            )
            self.guide[1].draw(pen, at + aside, frame.top + frame.height - FINE.leading - 0.8)
        for at, curve in enumerate(self.curves):
            look = line_look(at)
            if not banded:
                self._intervals(pen, frame, curve, look, (at - (len(self.curves) - 1) / 2) * DODGE)
            thick = THIN if curve.ink is Ink.FAINT else THICK
            pen.polyline(_steps(frame, curve, curve.y), thick, look.grey, dash=look.dash)
            for value, _ in self.x.marks:
                if curve.x[0] <= value <= curve.until:
                    height = curve.y[bisect_right(curve.x, value) - 1]
                    draw_marker(pen, frame.across(value), frame.down(height), look.marker, look.grey, 0.75)
        under = frame.top + frame.height + UNDER
        self.x_name.draw(pen, frame.left, under)
        under += self.x_name.height + 1.2
        if self.risk_name:
            under = self._risks(pen, frame, x, under) + 1.0
        self.legend.draw(pen, x, under)

    def _intervals(self, pen: Pen, frame: Frame, curve: Curve, look: LineLook, aside: float) -> None:
        """An upright interval at each mark, set aside a little from those of the other curves."""
        for value, _ in self.x.marks[1:]:
            if curve.low and value <= curve.until:
                step = bisect_right(curve.x, value) - 1
                at = frame.across(value) + aside
                if frame.left <= at <= frame.left + frame.width:
                    ends = (frame.down(curve.low[step]), frame.down(curve.high[step]))
                    pen.line(at, ends[0], at, ends[1], 0.5, look.grey)
                    for y in ends:
                        pen.line(at - 0.45, y, at + 0.45, y, 0.5, look.grey)

    def _risks(self, pen: Pen, frame: Frame, x: float, top: float) -> float:
        """The rows of numbers; where they end."""
        assert self.risk_name is not None
        self.risk_name.draw(pen, x, top)
        top += self.risk_name.height
        for at, (name, numbers) in enumerate(self.risks):
            _line_sample(line_look(at))(pen, x, top + FINE.leading / 2)
            name.draw(pen, x + SAMPLE + 1.4, top)
            for (value, _), number in zip(self.x.marks, numbers, strict=True):
                number.draw(pen, frame.across(value) - number.width / 2, top)
            top += self._row(name)
        return top


def _steps(frame: Frame, curve: Curve, heights: Sequence[float]) -> Places:
    """Corners of a step line, to where it ends; steps closer than a hair are one."""
    places = [(frame.across(curve.x[0]), frame.down(heights[0]))]
    for value, height in zip(curve.x[1:], heights[1:], strict=True):
        at, down = frame.across(value), frame.down(height)
        places += [(at, places[-1][1]), (at, down)]
    return [*places, (frame.across(curve.until), places[-1][1])]


def _band(pen: Pen, frame: Frame, curve: Curve) -> None:
    if curve.low:
        low, high = _steps(frame, curve, curve.low), _steps(frame, curve, curve.high)
        pen.shape([*high, *reversed(low)], TINT)
        for edge in (low, high):
            pen.polyline(edge, 0.3 * POINT, 0.55)


def _line_sample(look: LineLook) -> Draw:
    def draw(pen: Pen, x: float, y: float) -> None:
        pen.polyline(((x, y), (x + SAMPLE, y)), THICK, look.grey, dash=look.dash)
        draw_marker(pen, x + SAMPLE / 2, y, look.marker, look.grey, 0.75)

    return draw


def curves_panel(panel: Curves, width: float, wording: Wording, shrink: float = 1.0) -> CurvesPanel:
    """The curves set in ``width`` mm."""
    numbers = [n for curve in panel.curves for n in (*curve.y, *curve.low, *curve.high)]
    y = ruler(panel.y, _sane(panel.curves) if panel.y.most is None else numbers, wording)
    ends = [end for curve in panel.curves for end in (curve.x[0], curve.until)]
    x = ruler(panel.x, ends, wording, 6 if width > 100 else 4, panel.marks)
    at_risk = bool(panel.marks and panel.risk_name)
    names = [cut(wording.value(curve.name), FINE, width * NAMES, 2) for curve in panel.curves]
    left = words_at_left(y)
    if at_risk:
        left = max(left, SAMPLE + 1.4 + max((name.widest for name in names), default=0.0) + 7.0)
    inside = set(x.marks)
    kept = [at for at, mark in enumerate(panel.marks) if any(mark == value for value, _ in inside)]
    risks = tuple(
        (name, tuple(_number(curve.at_risk[at], wording) for at in kept))
        for name, curve in zip(names, panel.curves, strict=True)
        if at_risk
    )
    guide = None
    if panel.guide is not None and panel.guide_name is not None:
        words = wording(panel.guide_name)
        guide = (panel.guide, one_line(words, FINE_GREY, natural(words, FINE_GREY) + 0.1))
    samples = [
        (_line_sample(line_look(at)), wording.value(curve.name)) for at, curve in enumerate(panel.curves)
    ]
    return CurvesPanel(
        panel.curves,
        x,
        y,
        one_line(wording(panel.y.name), FINE_GREY, width * 0.5),
        cut(wording(panel.x.name), FINE_GREY, width - left, 1),
        guide,
        one_line(wording(panel.risk_name), FINE_GREY, left - 2) if at_risk and panel.risk_name else None,
        risks,
        legend([*([] if at_risk else samples), *_spread(panel.curves, wording)], width),
        width,
        left,
        PLOT * shrink,
    )


def _spread(curves: Sequence[Curve], wording: Wording) -> list[tuple[Draw, str]]:
    """What the bands, or the upright intervals, are."""
    banded = sum(bool(curve.low) for curve in curves)
    if not banded:
        return []
    return [(_band_sample if banded <= MOST_BANDS else _interval_sample, wording("95 % interval"))]


def _band_sample(pen: Pen, x: float, y: float) -> None:
    pen.block(x, y - 1.5, SAMPLE, 3.0, TINT)
    for edge in (y - 1.5, y + 1.5):
        pen.line(x, edge, x + SAMPLE, edge, 0.3, 0.55)


def _interval_sample(pen: Pen, x: float, y: float) -> None:
    middle = x + SAMPLE / 2
    pen.line(middle, y - 1.7, middle, y + 1.7, 0.5, INK)
    for end in (y - 1.7, y + 1.7):
        pen.line(middle - 0.45, end, middle + 0.45, end, 0.5, INK)


def _sane(curves: Sequence[Curve]) -> list[float]:
    """What the axis must hold: the curves, and their bands as far as they do not press the curves flat."""
    top = max((max(curve.y) for curve in curves), default=0.0)
    bands = [value for curve in curves for value in curve.high]
    return [*(value for curve in curves for value in curve.y), *(min(value, 3 * top) for value in bands)]


def _number(count: int, wording: Wording) -> TextBlock:
    words = wording.number(Decimal(count), grouped=True)
    return set_text(words, FINE, natural(words, FINE) + 1, CENTRE)
