"""Shapes that carry meaning are told apart without colour."""

from __future__ import annotations

import itertools
from collections.abc import Callable

import pytest
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QImage, QPainter

from app.screens.kit.shapes import marker, open_box, outcome_arrow, stage_boxes, stage_width, ticked_box


def grey(paint: Callable[[QPainter], None]) -> QImage:
    image = QImage(60, 24, QImage.Format.Format_RGB32)
    image.fill(0xFFFFFFFF)
    painter = QPainter(image)
    paint(painter)
    painter.end()
    return image.convertToFormat(QImage.Format.Format_Grayscale8)


def test_the_four_outcomes_of_a_trial_look_different() -> None:
    pictures = [
        grey(lambda p, o=outcome: outcome_arrow(p, QRectF(2, 2, 20, 20), o, "text"))  # type: ignore[misc]
        for outcome in ("cured", "better", "none", "worse")
    ]
    for a, b in itertools.combinations(pictures, 2):
        assert a != b


def test_the_five_stages_look_different() -> None:
    pictures = [grey(lambda p, s=stage: stage_boxes(p, 2, 12, s)) for stage in range(5)]  # type: ignore[misc]
    for a, b in itertools.combinations(pictures, 2):
        assert a != b
    assert stage_width() > 5 * 5


@pytest.mark.parametrize("shape", ["dot", "open dot", "square", "triangle", "diamond"])
def test_every_marker_is_drawn(shape: str) -> None:
    assert grey(lambda p: marker(p, QPointF(20, 12), shape, "text", 10)) != grey(lambda p: None)


def test_a_gate_that_is_done_has_a_tick() -> None:
    rect = QRectF(4, 4, 12, 12)
    assert grey(lambda p: open_box(p, rect)) != grey(lambda p: ticked_box(p, rect))
