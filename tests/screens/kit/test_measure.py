"""Sizes come from the line height: larger text makes everything larger, and it all fits."""

from __future__ import annotations

import pytest
from PySide6.QtGui import QFont, QFontMetricsF
from PySide6.QtWidgets import QApplication, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from app.screens.kit import measure
from app.screens.kit.boxes import Column
from app.screens.kit.label import Label
from app.screens.kit.measure import fix, px, set_text_size, u


def test_one_line_is_two_u() -> None:
    assert u(2) == measure.line()
    assert px(18) == measure.line()


@pytest.mark.parametrize("percent", measure.TEXT_SIZES)
def test_measures_follow_the_text_size(qapp: QApplication, percent: int) -> None:
    set_text_size(qapp, 100)
    before = px(126)
    set_text_size(qapp, percent)
    assert px(126) == pytest.approx(before * percent / 100, rel=0.03)
    assert measure.text_size() == percent


def test_a_thin_measure_never_vanishes() -> None:
    assert px(0.3) == 1
    assert px(-0.3) == -1
    assert px(0) == 0


def test_two_sizes_and_one_weight_more() -> None:
    body = measure.body().pointSizeF()
    assert measure.large().pointSizeF() == pytest.approx(body * 1.5)
    assert measure.strong().pointSizeF() == body
    assert measure.strong().weight() == QFont.Weight.DemiBold
    assert measure.large_strong().weight() == QFont.Weight.DemiBold


def test_figures_are_tabular() -> None:
    tnum = QFont.Tag("tnum")
    for font in (measure.body(), measure.strong(), measure.large()):
        assert font.featureValue(tnum) == 1
        metrics = QFontMetricsF(font)
        assert len({round(metrics.horizontalAdvance(d * 10)) for d in "0123456789"}) == 1


def test_fixed_sizes_and_layouts_of_an_open_page_grow_with_the_text(qapp: QApplication, qtbot: QtBot) -> None:
    page = QWidget()
    qtbot.addWidget(page)
    column = Column(page, gap=18, margins=(27, 18, 27, 18))
    label = Label("Large words", "large")
    fixed = QWidget()
    fix(fixed, width=100, height=32)
    column.add(label, fixed)
    set_text_size(qapp, 200)
    assert fixed.width() == px(100) > 180
    assert fixed.height() == px(32)
    assert column.spacing() == px(18)
    assert column.contentsMargins().left() == px(27)
    assert label.font().pointSizeF() == pytest.approx(measure.body().pointSizeF() * 1.5)


def test_limits_are_kept_apart(qtbot: QtBot) -> None:
    widget = QWidget()
    qtbot.addWidget(widget)
    fix(widget, min_width=50, max_width=90)
    fix(widget, min_height=20)
    assert (widget.minimumWidth(), widget.maximumWidth(), widget.minimumHeight()) == (px(50), px(90), px(20))


def test_plain_layouts_are_left_alone(qtbot: QtBot) -> None:
    widget = QWidget()
    qtbot.addWidget(widget)
    layout = QVBoxLayout(widget)
    layout.setSpacing(3)
    measure.refit(widget)
    assert layout.spacing() == 3
