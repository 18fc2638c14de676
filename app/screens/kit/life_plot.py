"""The plot under the bands of a transport's life: readings, limits, trend, and where they meet (pyqtgraph)."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QPainterPath, QPen
from PySide6.QtWidgets import QWidget

from app.screens.kit import measure
from app.screens.kit.boxes import Column
from app.screens.kit.life import LifeFacts, LifeLimit, LifeReading
from app.screens.kit.life_axes import Axes
from app.screens.kit.measure import fx, px
from app.screens.kit.palette import ink
from app.screens.kit.shapes import octagon
from app.screens.kit.shapes import pen as drawing_pen
from app.screens.kit.strokes import path_of

HATCH = 17  # px from one slanted tick of a limit to the next
EDGE = 12  # px above and below the axes, for the upper half of the topmost word and the lower of the last
BEHIND, BAND, LINES, MARKS, WORDS = -20, -10, 0, 10, 20  # what lies over what


def fetch_parts() -> None:
    """Import what the plot is drawn with. It takes a third of a second, so pages ask for it on a look-up thread."""
    import pyqtgraph  # noqa: F401


class LifePlot(QWidget):
    """Draws into the room that its axes name; keys and mouse are the life line's, so it takes neither.

    The plot is drawn anew whenever its facts, room, colours or text size change; there are a few dozen things.
    """

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.view: Any = None  # pyqtgraph's, once something was plotted
        self.box: Any = None
        self.values: Any = None
        self.rows: Any = None
        self._column = Column(self)

    def show_facts(self, facts: LifeFacts, axes: Axes) -> None:
        """Draw everything between the axes; the widget takes the place that they name in its parent."""
        top = round(axes.top)
        self.setGeometry(0, top - px(EDGE), round(axes.right), round(axes.bottom) - top + 2 * px(EDGE))
        if self.view is None:
            self._make()
        plot = self.box
        plot.clear()
        self._lay_axes(axes)
        _trend(plot, facts, axes)
        _reference(plot, facts)
        for limit in facts.limits:
            _limit(plot, limit, axes)
        _reaches(plot, facts, axes)
        _readings(plot, facts, axes)

    def _make(self) -> None:
        """A bare view: pyqtgraph's own PlotItem brings menus and buttons that nobody here can press."""
        import pyqtgraph as pg

        view = self.view = pg.GraphicsView(self, background=None)  # what stands behind, the life line paints
        view.setCacheMode(view.CacheModeFlag.CacheNone)
        view.viewport().setAutoFillBackground(False)
        view.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        view.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        layout = self.rows = pg.GraphicsLayout(border=None)
        layout.setSpacing(0)
        self.box = pg.ViewBox(enableMenu=False, enableMouse=False, defaultPadding=0)
        self.values = pg.AxisItem("left", linkView=self.box)
        layout.addItem(self.values, 0, 0)
        layout.addItem(self.box, 0, 1)
        view.setCentralItem(layout)
        self._column.addWidget(view)

    def _lay_axes(self, axes: Axes) -> None:
        left = self.values
        self.rows.setContentsMargins(0, px(EDGE), 0, px(EDGE))
        left.setWidth(axes.left)
        left.setTicks([axes.values()])
        left.setTickFont(measure.body())
        left.setStyle(tickLength=-px(5), tickTextOffset=px(5), autoExpandTextSpace=False)
        left.setPen(pen("edge", 1))
        left.setTextPen(ink("soft"))
        self.box.setRange(
            xRange=(0, axes.days), yRange=(axes.low, axes.high), padding=0, disableAutoRange=True
        )


def pen(role: str, width: float) -> QPen:
    """A pen whose width stays in px, however the plot stretches days and values."""
    made = drawing_pen(role, width)
    made.setCosmetic(True)
    return made


def _curve(plot: Any, xs: list[float], ys: list[float], drawn: QPen, z: int = LINES) -> Any:
    import pyqtgraph as pg

    item = pg.PlotCurveItem(xs, ys, pen=drawn, antialias=True)
    item.setZValue(z)
    plot.addItem(item)
    return item


def _dashed(role: str, width: float, dashes: tuple[float, ...]) -> QPen:
    made = pen(role, width)
    made.setDashPattern(dashes)
    return made


def _trend(plot: Any, facts: LifeFacts, axes: Axes) -> None:
    import pyqtgraph as pg

    if len(facts.trend) < 2:
        return
    days: list[float] = [axes.at(day) for day, *_ in facts.trend]
    edges = [
        _curve(plot, days, [three[i] for _, *three in facts.trend], pen("accent", 1), BAND) for i in (0, 2)
    ]
    band = pg.FillBetweenItem(*edges, brush=ink("accent", 0.15))
    band.setZValue(BEHIND)
    plot.addItem(band)
    middle = [three[1] for _, *three in facts.trend]
    _curve(plot, days, middle, _dashed("accent", fx(1.7), (6, 3)))


def _reference(plot: Any, facts: LifeFacts) -> None:
    import pyqtgraph as pg

    if facts.reference is not None:
        line = pg.InfiniteLine(facts.reference[0], angle=0, pen=_dashed("soft", 1, (2, 2)))
        line.setZValue(BEHIND)
        plot.addItem(line)


def _limit(plot: Any, limit: LifeLimit, axes: Axes) -> None:
    """A line in the ink of a stop with slanted ticks on its forbidden side; steps where it changed."""
    import pyqtgraph as pg

    steps = [(axes.at(day), value) for day, value in limit.steps] or [(0, limit.value)]
    xs, ys = [0.0], [steps[0][1]]
    for (at, value), (_, before) in zip(steps[1:], steps, strict=False):
        xs += [at, at]
        ys += [before, value]
    _curve(plot, [*xs, axes.days], [*ys, steps[-1][1]], pen("stop", fx(1.5)))
    side = -1.0 if limit.upper else 1.0  # a symbol's y runs downward
    slant = path_of((0.0, 0.0), (0.8, side), closed=False)
    a_px = axes.days / (axes.right - axes.left)
    ticks = [a_px * px(8) + i * a_px * px(HATCH) for i in range(int((axes.right - axes.left) / px(HATCH)))]
    heights = [next(v for at, v in reversed([(0, ys[0]), *steps[1:]]) if at <= x) for x in ticks]
    plot.addItem(_symbols(pg, ticks, heights, slant, fx(6), pen("stop", fx(1.2)), None))


def _reaches(plot: Any, facts: LifeFacts, axes: Axes) -> None:
    """A bracket on the time axis from the one day to the other, hung from the limit by dots."""
    if facts.reaches is None or not facts.limits:
        return
    import pyqtgraph as pg

    first, last, text = facts.reaches
    ends: list[float] = [axes.at(max(first, axes.start)), axes.at(min(last or axes.end, axes.end))]
    a_px = (axes.high - axes.low) / (axes.bottom - axes.top)
    y = axes.low + a_px * px(12)
    limit = next((one.value for one in facts.limits if one.upper == _rises(facts)), facts.limits[0].value)
    for x in ends if last is not None else ends[:1]:
        _curve(plot, [x, x], [limit, y], _dashed("stop", 1, (1.5, 2.5)))
        _curve(plot, [x, x], [y - a_px * fx(5), y + a_px * fx(5)], pen("stop", fx(1.5)))
    _curve(plot, ends, [y, y], pen("stop", fx(1.5)))
    _text(plot, pg, text, sum(ends) / 2, y, (0.5, 1.15), "stop", fill="alternate")


def _rises(facts: LifeFacts) -> bool:
    return bool(facts.trend) and facts.trend[-1][2] > facts.trend[0][2]


def _readings(plot: Any, facts: LifeFacts, axes: Axes) -> None:
    import pyqtgraph as pg

    runs: list[list[LifeReading]] = []
    for reading in facts.readings:
        if not runs or runs[-1][-1].fitting != reading.fitting:
            runs.append([])
        runs[-1].append(reading)
    for run in runs:
        _curve(plot, [axes.at(r.day) for r in run], [r.value for r in run], pen("text", fx(1.7)), MARKS)
    for reading in facts.readings:
        x, half = float(axes.at(reading.day)), reading.spread
        if (axes.y(reading.value) - axes.y(reading.value + half)) > fx(4):
            _curve(plot, [x, x], [reading.value - half, reading.value + half], pen("text", fx(1.5)), MARKS)
    for verdict, (path, size, drawn, fill) in _shapes().items():
        those = [r for r in facts.readings if (r.verdict or "within") == verdict]
        if those:
            xs, ys = [float(axes.at(r.day)) for r in those], [r.value for r in those]
            plot.addItem(_symbols(pg, xs, ys, path, size, drawn, fill))
    for i, reading in enumerate(facts.readings):
        if reading.label:
            # Above the curve where a stay ends, below it where the next one begins; never over the edge.
            begins = i > 0 and facts.readings[i - 1].fitting != reading.fitting
            last = i == len(facts.readings) - 1
            anchor = (-0.2, -0.15) if last else (-0.15, -0.2) if begins else (0.7, 1.35)
            x, room = axes.x(reading.day), measure.width(reading.label, measure.strong()) + px(12)
            if x - axes.left < room:
                anchor = (-0.15, anchor[1])
            elif axes.right - x < room:
                anchor = (1.15, anchor[1])
            fill = (
                "alternate" if last and x + room > axes.x(facts.today) and facts.end > facts.today else "base"
            )
            _text(
                plot,
                pg,
                reading.label,
                axes.at(reading.day),
                reading.value,
                anchor,
                "text",
                fill=fill,
                strong=last,
            )


def _shapes() -> dict[str, tuple[QPainterPath | str, float, QPen, str | None]]:
    """A verdict's shape, size, outline and ink: told apart without colour."""
    none = QPen(Qt.PenStyle.NoPen)
    return {
        "within": ("o", fx(8), none, "text"),
        "close": ("o", fx(8), pen("caution", fx(1.7)), "base"),
        "outside": (octagon(QPointF(0, 0), 1.0), fx(11), none, "stop"),
    }


def _symbols(
    pg: Any,
    xs: list[float],
    ys: list[float],
    path: QPainterPath | str,
    size: float,
    drawn: QPen,
    fill: str | None,
) -> Any:
    brush = ink(fill) if fill is not None else None
    item = pg.ScatterPlotItem(
        x=xs,
        y=ys,
        symbol=path,
        size=size,
        pen=drawn,
        brush=brush,
        pxMode=True,
        antialias=True,
        useCache=False,
    )
    item.setZValue(MARKS if fill is not None else LINES)
    return item


def _text(
    plot: Any,
    pg: Any,
    text: str,
    x: float,
    y: float,
    anchor: tuple[float, float],
    role: str,
    *,
    fill: str = "base",
    strong: bool = False,
) -> None:
    """Words with a halo of what is behind them, so that lines do not cut them."""
    item = pg.TextItem(text, color=ink(role), anchor=anchor, fill=ink(fill, 0.85))
    item.setFont(measure.strong() if strong else measure.body())
    item.textItem.document().setDocumentMargin(1)
    item.setPos(x, y)
    item.setZValue(WORDS)
    plot.addItem(item)
