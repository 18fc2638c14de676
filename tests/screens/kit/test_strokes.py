"""Lines are crisp at every scale of the screen."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QImage, QPainter

from app.screens.kit.measure import width as words_width
from app.screens.kit.palette import LIGHT
from app.screens.kit.strokes import box, chevron, colour, dotted, fold_mark, hline, vline, words

SCALES = pytest.mark.parametrize("scale", [1.0, 1.25, 1.5, 2.0, 3.0])


def canvas(scale: float) -> QImage:
    image = QImage(round(60 * scale), round(40 * scale), QImage.Format.Format_ARGB32_Premultiplied)
    image.setDevicePixelRatio(scale)
    image.fill(Qt.GlobalColor.white)
    return image


def inks_of(image: QImage) -> set[str]:
    return {
        image.pixelColor(x, y).name().upper() for x in range(image.width()) for y in range(image.height())
    }


@SCALES
@pytest.mark.parametrize("at", [7, 7.3, 11.5])
def test_lines_have_one_ink_and_no_grey_edges(scale: float, at: float) -> None:
    image = canvas(scale)
    painter = QPainter(image)
    painter.translate(3, 5)
    hline(painter, 0, 40 if scale == int(scale) else 40 / scale * scale, at, "edge")
    painter.end()
    column = [image.pixelColor(round(20 * scale), y).name().upper() for y in range(image.height())]
    assert set(column) == {"#FFFFFF", LIGHT.edge}
    assert column.count(LIGHT.edge) == max(1, round(scale))


@SCALES
def test_upright_lines_too(scale: float) -> None:
    image = canvas(scale)
    painter = QPainter(image)
    vline(painter, 10.4, 0, 40, "edge", 2)
    painter.end()
    row = [image.pixelColor(x, round(10 * scale)).name().upper() for x in range(image.width())]
    assert set(row) == {"#FFFFFF", LIGHT.edge}


@SCALES
def test_a_square_box_has_one_ink(scale: float) -> None:
    image = canvas(scale)
    painter = QPainter(image)
    box(painter, QRectF(4.2, 4.2, 30, 20), border="edge", radius=0)
    painter.end()
    assert inks_of(image) == {"#FFFFFF", LIGHT.edge}


def test_words_too_long_are_elided_and_the_width_taken_comes_back() -> None:
    image = canvas(1)
    painter = QPainter(image)
    assert words(painter, QRectF(0, 0, 40, 20), "an absurdly long name") <= 40
    assert words(painter, QRectF(0, 0, 400, 20), "short") == pytest.approx(words_width("short"), abs=1)
    assert words(painter, QRectF(0, 0, 5, 20), "12345", elide=False) > 5
    painter.end()


def test_the_rest_draws_without_complaint() -> None:
    image = canvas(1)
    painter = QPainter(image)
    dotted(painter, QPointF(0, 1), QPointF(30, 1), "edge")
    chevron(painter, QPointF(20, 20), up=True)
    fold_mark(painter, QRectF(0, 0, 10, 10), True)
    fold_mark(painter, QRectF(0, 20, 10, 10), False)
    box(painter, QRectF(5, 5, 20, 20), fill="button", border="accent", width=2, dashed=True)
    box(painter, QRectF(5, 5, 20, 20), fill=colour(QColor("red")), border=None)
    painter.end()
    assert len(inks_of(image)) > 3
