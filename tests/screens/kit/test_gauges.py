"""Small pictures: a value between its limits, a share with its interval, a ratio."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QImage, QPainter

from app.screens.kit.cells import Drawing
from app.screens.kit.gauges import (
    GaugeFacts,
    RatioFacts,
    ShareFacts,
    _log_place,
    gauge,
    gauge_key,
    place,
    ratio,
    ratio_scale,
    share,
)
from app.screens.kit.palette import LIGHT


def painted(paint: Callable[[QPainter, QRectF], None], width: int = 120) -> QImage:
    image = QImage(width, 27, QImage.Format.Format_RGB32)
    image.fill(QColor(LIGHT.base))
    painter = QPainter(image)
    paint(painter, QRectF(0, 0, width, 27))
    painter.end()
    return image


def has(image: QImage, ink: str) -> bool:
    wanted = QColor(ink)
    return any(image.pixelColor(x, y) == wanted for x in range(image.width()) for y in range(image.height()))


def test_limits_stand_at_26_and_74_per_cent() -> None:
    facts = GaugeFacts(1.08, 0.02, 0.8, 1.4)
    assert place(facts, 0.8) == pytest.approx(0.26)
    assert place(facts, 1.4) == pytest.approx(0.74)
    assert place(GaugeFacts(1, high=57.6), 57.6) == pytest.approx(0.74)
    assert place(GaugeFacts(1, low=0.5), 0.5) == pytest.approx(0.26)
    assert place(GaugeFacts(1), 1) == 0.5


def test_far_off_values_are_pinned_at_the_end() -> None:
    assert place(GaugeFacts(4.8, high=1.5), 4.8) == 1.0
    assert place(GaugeFacts(-500, low=-50, high=50), -500) == 0.0


FLOATS = st.floats(-1e6, 1e6, allow_nan=False)


@given(FLOATS, FLOATS, st.none() | FLOATS, st.none() | FLOATS)
def test_a_larger_value_never_stands_further_left(
    a: float, b: float, low: float | None, high: float | None
) -> None:
    facts = GaugeFacts(a, low=low, high=high)
    small, large = sorted((a, b))
    assert 0 <= place(facts, small) <= place(facts, large) <= 1


def test_the_verdict_is_told_by_ink_and_shape() -> None:
    within = painted(gauge(GaugeFacts(1.08, 0.02, 0.8, 1.4), "within").paint)
    outside = painted(gauge(GaugeFacts(4.8, 0.2, None, 1.5, "outside"), "outside").paint)
    close = painted(gauge(GaugeFacts(30.4, 6, None, 30, "close", last=20), "too close to call").paint)
    assert has(outside, LIGHT.stop)
    assert not has(within, LIGHT.stop)
    assert has(close, LIGHT.caution)
    assert not has(within, LIGHT.caution)


def test_a_share_that_rests_on_few_is_open() -> None:
    many = painted(share(ShareFacts(0.44, 0.19, 0.73), "44 %").paint)
    few = painted(share(ShareFacts(0.44, 0.19, 0.73, few=True), "44 %").paint)
    assert many != few
    assert has(many, LIGHT.accent)
    at = 2 + round(0.44 * 114)
    assert few.pixelColor(at, 13) == QColor(LIGHT.base)


@pytest.mark.parametrize(("value", "at"), [(0.5, 0), (1, 0.5), (2, 1), (0.1, 0), (9, 1), (0, 0)])
def test_the_ratio_rule_is_logarithmic_from_half_to_double(value: float, at: float) -> None:
    assert _log_place(value) == pytest.approx(at)


def test_a_ratio_beyond_its_caution_warns() -> None:
    assert RatioFacts(1.214, 1.10).warns
    assert not RatioFacts(1.05, 1.10).warns
    assert not RatioFacts(1.5).warns
    assert has(painted(ratio(RatioFacts(1.214, 1.10), "×1.214").paint), LIGHT.caution)
    assert not has(painted(ratio(RatioFacts(0.824), "×0.824").paint), LIGHT.caution)


def test_pictures_say_the_same_in_words() -> None:
    cell = gauge(GaugeFacts(1), "51.2 mA, at most 57.6: within", "tip")
    assert isinstance(cell, Drawing)
    assert cell.plain == "51.2 mA, at most 57.6: within"
    assert cell.tip == "tip"


def test_headers_carry_their_key() -> None:
    blank = painted(lambda p, r: None, 200)
    assert painted(gauge_key("now", "last"), 200) != blank
    assert painted(ratio_scale, 200) != blank
