"""Inks by role: contrast in both schemes, three colour groups alike, following the system or not."""

from __future__ import annotations

import pytest
from PySide6.QtGui import QColor, QPalette
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from app.screens.kit import palette
from app.screens.kit.palette import DARK, LIGHT, Inks, Scheme, apply, ink, inks, wanted


def luminance(colour: str) -> float:
    """Relative luminance. Source: WCAG 2.1, definition of relative luminance (threshold 0.04045 of IEC 61966-2-1)."""
    c = QColor(colour)

    def linear(v: float) -> float:
        return v / 12.92 if v <= 0.04045 else ((v + 0.055) / 1.055) ** 2.4

    return 0.2126 * linear(c.redF()) + 0.7152 * linear(c.greenF()) + 0.0722 * linear(c.blueF())


def contrast(a: str, b: str) -> float:
    """Contrast ratio. Source: WCAG 2.1, definition of contrast ratio."""
    high, low = sorted((luminance(a), luminance(b)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_the_formula_gives_the_known_extremes() -> None:
    # Source: WCAG 2.1: white on black is 21:1, a colour on itself 1:1.
    assert contrast("#FFFFFF", "#000000") == pytest.approx(21)
    assert contrast("#777777", "#777777") == pytest.approx(1)


BOTH = pytest.mark.parametrize("of", [LIGHT, DARK], ids=["light", "dark"])
GROUNDS = ("base", "alternate", "window", "tint")


@BOTH
@pytest.mark.parametrize("role", ["text", "soft", "accent", "stop", "caution", "note"])
@pytest.mark.parametrize("ground", GROUNDS)
def test_words_can_be_read_on_every_ground(of: Inks, role: str, ground: str) -> None:
    # 4.5:1 is WCAG 2.1 success criterion 1.4.3 for text of body size.
    assert contrast(getattr(of, role), getattr(of, ground)) >= 4.5


@BOTH
def test_words_on_buttons_can_be_read(of: Inks) -> None:
    assert contrast(of.on_accent, of.accent) >= 4.5
    assert contrast(of.text, of.button) >= 4.5
    assert contrast(of.soft, of.button) >= 4.5
    hint = blended(of.on_accent, of.accent, 0.8)
    assert contrast(hint, of.accent) >= 4.5


@BOTH
def test_borders_can_be_seen(of: Inks) -> None:
    # 3:1 is WCAG 2.1 success criterion 1.4.11; on a marked row in dark it is 2.8, where borders are drawn soft.
    for ground in ("base", "alternate", "window"):
        assert contrast(of.edge, getattr(of, ground)) >= 3


def blended(over: str, under: str, alpha: float) -> str:
    a, b = QColor(over), QColor(under)
    mixed = [round(x * alpha + y * (1 - alpha)) for x, y in
             zip(a.getRgb()[:3], b.getRgb()[:3], strict=True)]  # type: ignore[index]  # fmt: skip
    return QColor(*mixed).name()


@BOTH
def test_a_disabled_thing_is_told_by_outline_and_words_not_by_paler_ink(of: Inks) -> None:
    made = palette.palette(of)
    groups = [QPalette.ColorGroup.Active, QPalette.ColorGroup.Inactive, QPalette.ColorGroup.Disabled]
    for role in QPalette.ColorRole:
        if role in (QPalette.ColorRole.NoRole, QPalette.ColorRole.NColorRoles):
            continue
        assert len({made.color(group, role).rgba() for group in groups}) == 1, role


@BOTH
def test_the_picture_cycle_never_relies_on_colour(of: Inks) -> None:
    assert len({mark.ink for mark in of.cycle}) == 4
    assert len({(mark.shape, mark.dash) for mark in of.cycle}) == 4
    assert of.cycle[0].ink == of.accent


def test_the_window_can_be_set_light_or_dark_and_follows_at_once(qapp: QApplication, qtbot: QtBot) -> None:
    widget = QWidget()
    qtbot.addWidget(widget)
    widget.show()
    apply(qapp, "dark")
    qapp.processEvents()
    assert inks() is DARK
    assert wanted() is Scheme.DARK
    assert widget.palette().color(QPalette.ColorRole.Base) == QColor(DARK.base)
    apply(qapp, Scheme.LIGHT)
    qapp.processEvents()
    assert widget.palette().color(QPalette.ColorRole.Base) == QColor(LIGHT.base)


def test_a_desktop_that_says_nothing_is_taken_for_light(qapp: QApplication) -> None:
    apply(qapp, "dark")
    apply(qapp, "system")
    assert wanted() is Scheme.SYSTEM
    assert inks() is LIGHT


def test_a_change_of_the_desktop_lays_the_inks_anew(qapp: QApplication) -> None:
    apply(qapp, "system")
    qapp.setPalette(QPalette(QColor("#00FF00")))
    qapp.styleHints().colorSchemeChanged.emit(qapp.styleHints().colorScheme())
    assert qapp.palette().color(QPalette.ColorRole.Base) == QColor(LIGHT.base)


def test_an_ink_can_be_see_through() -> None:
    assert ink("edge", 0.37).alphaF() == pytest.approx(0.37, abs=0.01)
    assert ink("edge").name().upper() == LIGHT.edge
