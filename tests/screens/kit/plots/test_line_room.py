"""Lines by pyqtgraph: in the numbers of the axes, as thick on every screen, and quiet."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QRectF, Qt, QTimer
from PySide6.QtGui import QColor, QImage, QPen
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from app.screens.kit.plots.line_room import Band, LineRoom, Stroke

ROOM = QRectF(0, 0, 200, 100)
PEN = QPen(QColor("#000000"), 4)
PEN.setCapStyle(Qt.PenCapStyle.FlatCap)


@pytest.fixture
def lines(qtbot: QtBot) -> LineRoom:
    owner = QWidget()
    qtbot.addWidget(owner)
    owner.show()
    return LineRoom(owner)


def black(image: QImage, x: int) -> list[int]:
    """The rows that are black at a place, in device px."""
    return [y for y in range(image.height()) if image.pixelColor(x, y).alpha() > 200]


@pytest.mark.parametrize("scale", [1.0, 2.0])
def test_a_level_line_lies_at_its_value_and_is_as_thick_on_a_finer_screen(
    lines: LineRoom, scale: float
) -> None:
    image = lines.image(ROOM, scale, (1000, 2000), (0, 10), [Stroke([1000, 2000], [5, 5], PEN)])
    assert (image.width(), image.height()) == (200 * scale, 100 * scale)
    rows = black(image, round(100 * scale))
    assert sum(rows) / len(rows) == pytest.approx(50 * scale, abs=1)
    assert len(rows) == pytest.approx(4 * scale, abs=1)


def test_a_band_fills_between_its_ends_and_nothing_else(lines: LineRoom) -> None:
    band = Band([0, 100], [2, 2], [8, 8], QColor(0, 0, 255, 128))
    image = lines.image(ROOM, 1.0, (0, 200), (0, 10), [band])
    assert image.pixelColor(50, 50).alpha() == pytest.approx(128, abs=2)
    assert image.pixelColor(50, 10).alpha() == 0  # above its upper end
    assert image.pixelColor(150, 50).alpha() == 0  # beyond its last place


def test_the_view_is_never_shown_and_leaves_no_timer_running(lines: LineRoom) -> None:
    for _ in range(2):
        lines.image(ROOM, 1.0, (0, 1), (0, 1), [Stroke([0, 1], [0, 1], PEN)])
    assert not lines.view.isVisible()
    assert [timer for timer in lines.view.findChildren(QTimer) if timer.isActive()] == []


def test_what_was_drawn_before_is_gone(lines: LineRoom) -> None:
    band = Band([0, 100], [2, 2], [8, 8], QColor(0, 0, 255, 128))
    lines.image(ROOM, 1.0, (0, 200), (0, 100), [band, Stroke([0, 200], [50, 50], PEN)])
    before = len(lines.view.scene().items())
    empty = lines.image(ROOM, 1.0, (0, 200), (0, 100), [])
    assert len(lines.view.scene().items()) == before - 2
    assert black(empty, 50) == []
