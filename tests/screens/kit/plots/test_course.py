"""Courses: limits in steps, what lies outside them, series and dense ones."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.screens.kit.plots import course
from app.screens.kit.plots.course import CourseView, limit_strokes
from app.trade.sentence import Sentence
from app.trade.statistics.picture import Axis, Course, Ink, Point, Scale, Series
from tests.screens.kit.plots.conftest import COURSE, Shown


def weeks(name: str, n: int, late: int = 0) -> Series:
    first = date(2025, 1, 6).toordinal()
    points = tuple(
        Point(key=f"{name}{i}", x=float(first + 7 * i), y=float(i % 7), told=Sentence("week"))
        for i in range(n - late)
    )
    return Series(key=name, name=name, points=points)


WEEKS = Course(
    title=Sentence("Jobs in and out"),
    x=Axis(name=Sentence("week"), scale=Scale.DATE),
    y=Axis(name=Sentence("jobs"), scale=Scale.COUNT),
    series=(weeks("taken in", 100), weeks("handed back", 100)),
)


def drawn(shown: Shown, panel: Course = COURSE, width: int = 838) -> CourseView:
    view = shown(panel, width)
    assert isinstance(view, CourseView)
    return view


def test_the_limits_of_a_point_reach_half_way_to_its_neighbours(shown: Shown) -> None:
    view = drawn(shown)
    (series,) = COURSE.series
    low, high = limit_strokes(series, view.frame())
    assert len(high.xs) == 2 * len(series.points)
    assert high.xs[1] == (series.points[0].x + series.points[1].x) / 2
    assert high.ys[:4] == pytest.approx([0.2, 0.2, 0.21, 0.21])
    assert set(low.ys) == {0.02}


def test_a_lower_limit_of_nothing_limits_nothing(shown: Shown) -> None:
    points = tuple(replace(point, low=0.0) for point in COURSE.series[0].points)
    bare = replace(COURSE, series=(replace(COURSE.series[0], points=points),))
    view = drawn(shown, bare)
    assert len(limit_strokes(bare.series[0], view.frame())) == 1
    assert [word.text for word in view.edge_words(view.frame(), True)] == ["all together", "upper limit"]


def test_a_limit_that_is_missing_for_a_while_leaves_a_gap(shown: Shown) -> None:
    points = tuple(
        replace(point, low=None, high=None if i == 2 else point.high)
        for i, point in enumerate(COURSE.series[0].points)
    )
    series = replace(COURSE.series[0], points=points)
    view = drawn(shown, replace(COURSE, series=(series,)))
    assert [len(stroke.xs) for stroke in limit_strokes(series, view.frame())] == [4, 4]


def test_what_lies_outside_has_its_word_and_stays_in_the_plot(
    shown: Shown, monkeypatch: pytest.MonkeyPatch
) -> None:
    said: list[tuple[str, bool]] = []
    view = drawn(shown)

    def note(p: object, rect: object, text: str, of: str, *, fill: str) -> None:
        said.append((text, view.frame().room.contains(rect)))  # type: ignore[call-overload]

    monkeypatch.setattr(course, "halo_words", note)
    view.grab()
    assert said == [("above", True), ("below", True)]


def test_a_word_at_the_edge_turns_to_the_other_side(shown: Shown, monkeypatch: pytest.MonkeyPatch) -> None:
    points = (*COURSE.series[0].points[:4], replace(COURSE.series[0].points[4], y=0.0, ink=Ink.LESS))
    panel = replace(COURSE, series=(replace(COURSE.series[0], points=points),))
    rects: list[float] = []
    monkeypatch.setattr(course, "halo_words", lambda p, rect, *a, **k: rects.append(rect.right()))
    view = drawn(shown, panel)
    view.grab()
    assert max(rects) <= view.frame().room.right()


def test_level_lines_are_named_at_the_edge(shown: Shown) -> None:
    view = drawn(shown)
    words = [word.text for word in view.edge_words(view.frame(), True)]
    assert words == ["all together", "upper limit", "lower limit"]  # the lone series is named by the axis


def test_series_that_stop_early_are_named_in_a_key(shown: Shown) -> None:
    assert drawn(shown, WEEKS).direct_for(838)
    early = replace(WEEKS, series=(weeks("taken in", 100), weeks("handed back", 100, late=60)))
    assert not drawn(shown, early).direct_for(838)
    assert not drawn(shown, replace(WEEKS, series=())).direct_for(838)


def test_the_nearest_dot_answers_to_the_pointer(qtbot: QtBot, shown: Shown) -> None:
    view = drawn(shown)
    at = view.spots()[1].at
    spot = view.spot_near(at)
    assert spot is not None
    assert spot.mark.told == "Quarter 1 is told."
    assert spot.mark.jobs == (1,)
    view.over = spot
    view.grab()


def test_dots_that_crowd_each_other_are_a_line_but_can_be_marked(shown: Shown) -> None:
    view = drawn(shown, WEEKS)
    assert len(view.spots()) == 200
    dense = view.grab().toImage()
    view.mark(50)
    assert view.grab().toImage() != dense


def test_a_dot_beyond_the_axis_is_not_drawn_at_its_edge(shown: Shown) -> None:
    late = COURSE.series[0].points[3].x
    view = drawn(shown, replace(COURSE, x=replace(COURSE.x, most=late)))
    assert [mark.key for mark in view.marks()] == ["q0", "q1", "q2", "q3"]


def test_first_and_last_dot_stand_clear_of_the_edges(shown: Shown) -> None:
    view = drawn(shown)
    room = view.frame().room
    assert view.spots()[0].at.x() > room.left() + 5
    assert view.spots()[-1].at.x() < room.right() - 5


def test_readings_at_numbers_are_drawn_without_joining(shown: Shown, qapp: QApplication) -> None:
    points = tuple(Point(key=str(i), x=float(i), y=50.0 + i, told=Sentence("r")) for i in range(3))
    panel = Course(
        title=Sentence("Readings"),
        x=Axis(name=Sentence("job"), scale=Scale.NUMBER),
        y=Axis(name=Sentence("mA"), scale=Scale.NUMBER),
        series=(Series(key="a", name="55 120", points=points, joined=False),),
    )
    view = drawn(shown, panel)
    assert list(view.strokes(view.frame(), None)) == []
    assert view.frame().y.least > 0
    view.grab()
