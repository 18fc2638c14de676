"""The plot of a life: what pyqtgraph is given to draw, and where it stands."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.screens.kit import measure
from app.screens.kit.life import LifeFacts, LifeLimit, LifeReading
from app.screens.kit.life_line import LifeLine
from app.screens.kit.life_plot import fetch_parts
from app.screens.kit.palette import DARK, LIGHT, Scheme, apply
from tests.screens.kit.test_life_line import FACTS

VERDICTS = replace(
    FACTS,
    readings=(
        LifeReading(date(2019, 3, 4), 47.6, 0.6, "47.6", 0, "within"),
        LifeReading(date(2022, 5, 17), 57.4, 0.6, "57.4", 0, "close"),
        LifeReading(date(2026, 11, 20), 61.0, 0.6, "61.0", 0, "outside"),
    ),
)


@pytest.fixture
def line(qtbot: QtBot) -> LifeLine:
    fetch_parts()
    made = LifeLine(FACTS)
    qtbot.addWidget(made)
    made.resize(1186, 470)
    made.show()
    return made


def items(line: LifeLine, kind: str) -> list[Any]:
    return [item for item in line.plot.box.addedItems if type(item).__name__ == kind]


def test_a_day_and_a_value_stand_where_the_axes_say(line: LifeLine) -> None:
    """Bands and plot share one time axis, though two hands draw them."""
    box, axes = line.plot.box, line._axes()
    for day, value in ((date(2020, 6, 1), 50.0), (date(2029, 1, 1), 58.0)):
        from PySide6.QtCore import QPointF

        scene = box.mapViewToScene(QPointF(axes.at(day), value))
        seen = line.plot.view.mapFromScene(scene)
        assert seen.x() == pytest.approx(axes.x(day), abs=1.5)
        assert seen.y() + line.plot.y() == pytest.approx(axes.y(value), abs=1.5)


def test_verdicts_differ_in_shape_and_not_in_colour_alone(line: LifeLine) -> None:
    line.set_facts(VERDICTS)
    shapes = [(str(item.opts["symbol"]), item.opts["size"]) for item in items(line, "ScatterPlotItem")]
    assert len(set(shapes)) == len(shapes) - 1  # the open and the filled dot share their outline
    close = next(
        item for item in items(line, "ScatterPlotItem") if item.opts["brush"].color() == QColor(LIGHT.base)
    )
    assert close.opts["pen"].color() == QColor(LIGHT.caution)


def test_the_words_of_values_are_drawn_in_the_size_of_the_text(line: LifeLine, qapp: QApplication) -> None:
    words = [item.textItem.toPlainText() for item in items(line, "TextItem")]
    assert words == ["reaches limit", "47.6", "50.6", "50.5", "56.0"]
    before = items(line, "TextItem")[0].textItem.font().pointSizeF()
    try:
        measure.set_text_size(qapp, 150)
        line.resize(1900, 800)
        after = items(line, "TextItem")[0].textItem.font().pointSizeF()
        assert after == pytest.approx(before * 1.5, rel=0.01)
    finally:
        measure.set_text_size(qapp, 100)


def test_in_the_dark_the_plot_takes_the_dark_inks(line: LifeLine, qapp: QApplication) -> None:
    try:
        apply(qapp, Scheme.DARK)
        qapp.processEvents()
        assert items(line, "TextItem")[1].color == QColor(DARK.text)
    finally:
        apply(qapp, Scheme.LIGHT)
        qapp.processEvents()
    assert items(line, "TextItem")[1].color == QColor(LIGHT.text)


def test_a_limit_that_was_changed_is_drawn_in_steps(line: LifeLine) -> None:
    steps = ((date(2019, 3, 4), 55.0), (date(2022, 10, 3), 57.6))
    line.set_facts(
        replace(FACTS, limits=(LifeLimit(57.6, ("at most 57.6",), steps=steps),), trend=(), reaches=None)
    )
    drawn = [item.getData() for item in items(line, "PlotCurveItem")]
    assert any(list(ys) == [55.0, 55.0, 57.6, 57.6] for _, ys in drawn)


def test_both_limits_and_a_falling_trend_are_drawn(line: LifeLine) -> None:
    falling = ((date(2019, 3, 4), 58.0, 59.0, 60.0), (date(2030, 12, 31), 48.0, 49.0, 50.0))
    limits = (LifeLimit(62.0, ("at most 62",)), LifeLimit(50.0, ("at least 50",), upper=False))
    line.set_facts(replace(FACTS, limits=limits, trend=falling, reference=None))
    dropped = [
        list(ys) for _, ys in (item.getData() for item in items(line, "PlotCurveItem")) if len(ys) == 2
    ]
    assert any(ys[0] == 50.0 and ys[1] < 50.0 for ys in dropped)  # the bracket hangs from the lower one


def test_nothing_is_plotted_before_there_is_something_to_see(qtbot: QtBot) -> None:
    empty = LifeLine(LifeFacts(date(2026, 1, 1), date(2026, 2, 1), date(2026, 2, 1)))
    qtbot.addWidget(empty)
    empty.resize(1186, 470)
    empty.show()
    assert empty.plot.view is None


def test_a_late_end_that_is_not_known_leaves_the_bracket_open(line: LifeLine) -> None:
    closed = len(items(line, "PlotCurveItem"))
    line.set_facts(replace(FACTS, reaches=(date(2027, 7, 5), None, "reaches limit")))
    assert len(items(line, "PlotCurveItem")) == closed - 2  # its drop and its end tick


def test_lines_keep_their_width_however_the_axes_stretch(line: LifeLine) -> None:
    pens = [item.opts["pen"] for item in items(line, "PlotCurveItem")]
    assert pens
    assert all(pen.isCosmetic() for pen in pens)
