"""What happened when, on paper: dots over time, joined, between stepped limits and around a centre line."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

from app.papers.blocks import Whole
from app.papers.pen import INK, LABEL, POINT, Pen
from app.papers.plots.legend import SAMPLE, Draw, Legend, legend
from app.papers.plots.looks import LineLook, Marker, draw_marker, line_look
from app.papers.plots.plot_frame import UNDER, Frame, words_at_left
from app.papers.plots.ruler import Ruler, ruler
from app.papers.text import FINE_GREY, TextBlock, cut, natural, one_line
from app.trade.statistics.picture import Course, Ink, Point, Series
from app.trade.wording import Wording

PLOT = 52.0
CROWDED = 60  # points; with more the dots would run into one another
LIMIT = (1.6, 0.9)


@dataclass(frozen=True)
class CoursePanel(Whole):
    """The panel, set."""

    series: tuple[Series, ...]
    x: Ruler
    y: Ruler
    y_name: TextBlock
    x_name: TextBlock
    centre: float | None
    legend: Legend
    width: float
    left: float
    plot: float

    @property
    def height(self) -> float:
        """Words, plot, axis, legend."""
        key = self.legend.height + 1.4 if self.legend.entries else 0.0
        return self._above + self.plot + UNDER + self.x_name.height + key

    @property
    def _above(self) -> float:
        return self.y_name.height + 2.4

    def frame(self, x: float, top: float) -> Frame:
        """Where values stand; half a word of the last mark has room at the right."""
        right = max((natural(words, FINE_GREY) / 2 for _, words in self.x.marks[-1:]), default=0.0)
        across = self.width - self.left - right - 1.5
        return Frame(self.x, self.y, x + self.left + 1.5, top + self._above, across, self.plot)

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Grid, limits, centre, then the series over them."""
        frame = self.frame(x, top)
        self.y_name.draw(pen, x, top)
        frame.draw_grid(pen)
        for series in self.series:
            _limits(pen, frame, series.points)
        if self.centre is not None:
            y = frame.down(self.centre)
            pen.line(frame.left, y, frame.left + frame.width, y, 0.7, LABEL)
        for at, series in enumerate(self.series):
            _series(pen, frame, series, line_look(at))
        under = frame.top + frame.height + UNDER
        self.x_name.draw(pen, frame.left, under)
        self.legend.draw(pen, x, under + self.x_name.height + 1.4)


def _series(pen: Pen, frame: Frame, series: Series, look: LineLook) -> None:
    places = [(frame.across(point.x), frame.down(point.y)) for point in series.points]
    if series.joined and len(places) > 1:
        pen.polyline(places, 0.9 * POINT, look.grey, dash=look.dash)
    crowded = len(places) > CROWDED
    for (x, y), point in zip(places, series.points, strict=True):
        marker, radius = _marker(point.ink, look), 0.85
        if crowded and series.joined and point.ink is Ink.PLAIN:
            continue
        draw_marker(pen, x, y, marker, look.grey, radius)


def _marker(ink: Ink, look: LineLook) -> Marker:
    return {Ink.MORE: Marker.UP, Ink.LESS: Marker.DOWN, Ink.FAINT: Marker.RING}.get(ink, look.marker)


def _limits(pen: Pen, frame: Frame, points: Sequence[Point]) -> None:
    """Two stepped lines, each step from half way to the one before to half way to the next."""
    known = [point for point in points if point.low is not None and point.high is not None]
    if not known:
        return
    middles = [(one.x + two.x) / 2 for one, two in itertools.pairwise(known)]
    starts, ends = [frame.x.least, *middles], [*middles, frame.x.most]
    for side in ("low", "high"):
        places = []
        for begin, end, point in zip(starts, ends, known, strict=True):
            y = frame.down(getattr(point, side))
            places += [(frame.across(begin), y), (frame.across(end), y)]
        pen.polyline(places, 0.7 * POINT, LABEL, dash=LIMIT)


def course_panel(panel: Course, width: float, wording: Wording, shrink: float = 1.0) -> CoursePanel:
    """The course set in ``width`` mm."""
    points = [point for series in panel.series for point in series.points]
    heights = [n for point in points for n in (point.y, point.low, point.high)]
    y = ruler(panel.y, [*heights, panel.centre], wording)
    x = ruler(panel.x, [point.x for point in points], wording, 8 if width > 100 else 4)
    left = words_at_left(y)
    return CoursePanel(
        panel.series,
        x,
        y,
        one_line(wording(panel.y.name), FINE_GREY, width),
        cut(wording(panel.x.name), FINE_GREY, width - left, 1),
        panel.centre,
        legend(_entries(panel, wording), width),
        width,
        left,
        PLOT * shrink,
    )


def _entries(panel: Course, wording: Wording) -> list[tuple[Draw, str]]:
    entries: list[tuple[Draw, str]] = []
    known = f"{wording(panel.title)} {wording(panel.y.name)}"
    if len(panel.series) > 1 or any(wording.value(series.name) not in known for series in panel.series):
        for at, series in enumerate(panel.series):
            crowded = len(series.points) > CROWDED and series.joined
            entries.append((_sample(line_look(at), series.joined, not crowded), wording.value(series.name)))
    points = [point for series in panel.series for point in series.points]
    if any(point.low is not None for point in points):
        entries.append((_limit_sample, wording("limits within which chance alone moves it")))
    if panel.centre_name is not None:
        entries.append((_centre_sample, wording(panel.centre_name)))
    words = (
        (Ink.MORE, Marker.UP, wording("above the limits")),
        (Ink.LESS, Marker.DOWN, wording("below the limits")),
        (Ink.FAINT, Marker.RING, wording("rests on few")),
    )
    inks = {point.ink for point in points}
    entries += [(_dot_sample(marker), word) for ink, marker, word in words if ink in inks]
    return entries


def _sample(look: LineLook, joined: bool, dotted: bool) -> Draw:
    def draw(pen: Pen, x: float, y: float) -> None:
        if joined:
            pen.polyline(((x, y), (x + SAMPLE, y)), 0.9 * POINT, look.grey, dash=look.dash)
        if dotted:
            draw_marker(pen, x + SAMPLE / 2, y, look.marker, look.grey, 0.85)

    return draw


def _dot_sample(marker: Marker) -> Draw:
    return lambda pen, x, y: draw_marker(pen, x + SAMPLE / 2, y, marker, INK, 0.85)


def _limit_sample(pen: Pen, x: float, y: float) -> None:
    for aside in (-0.9, 0.9):
        pen.polyline(((x, y + aside), (x + SAMPLE, y + aside)), 0.7 * POINT, LABEL, dash=LIMIT)


def _centre_sample(pen: Pen, x: float, y: float) -> None:
    pen.line(x, y, x + SAMPLE, y, 0.7, LABEL)
