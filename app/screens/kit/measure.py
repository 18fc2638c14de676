"""Every size on a screen comes from the line height of the body font, so that larger text fits."""

from __future__ import annotations

import math
from typing import Any, Protocol, runtime_checkable

from PySide6.QtCore import QObject
from PySide6.QtGui import QFont, QFontDatabase, QFontMetricsF
from PySide6.QtWidgets import QApplication, QLayout, QWidget

REFERENCE = 18  # the line height for which the measures in the code are written
SMALLEST = 10.0  # points; platforms without a font setting answer 9, too small at arm's length
TEXT_SIZES = (100, 150, 200)

_percent = 100
# Found once for each text size, as one page asks for them thousands of times.
_fonts: dict[tuple[float, QFont.Weight], QFont] = {}
_line = 0
_px: dict[float, int] = {}


@runtime_checkable
class Refits(Protocol):
    """Something that takes its measures anew after the text size has changed."""

    def refit(self) -> None: ...


def text_size() -> int:
    """The text size in per cent of the system's."""
    return _percent


def set_text_size(app: QApplication, percent: int) -> None:
    """Give the program the platform's font at ``percent``, with tabular figures; then refit what is open."""
    global _percent, _line
    _percent = percent
    font = QFontDatabase.systemFont(QFontDatabase.SystemFont.GeneralFont)
    points = max(font.pointSizeF(), SMALLEST)
    font.setPointSizeF(points * percent / 100)
    font.setFeature(QFont.Tag("tnum"), 1)
    app.setFont(font)
    _fonts.clear()
    _px.clear()
    _line = 0
    for window in app.topLevelWidgets():
        refit(window)


def refit(root: QWidget) -> None:
    """Take all measures under ``root`` anew, innermost first."""
    found: list[QObject] = list(root.findChildren(QObject))
    for item in [*reversed(found), root]:
        _reapply(item)
        if isinstance(item, Refits):
            item.refit()
        if isinstance(item, QWidget):
            item.updateGeometry()
            item.update()
        elif isinstance(item, QLayout):
            item.invalidate()


def line() -> int:
    """L: the line height of the body font in px."""
    global _line
    if not _line:
        _line = round(QFontMetricsF(QApplication.font()).height())
    return _line


def u(steps: float = 1) -> int:
    """``steps`` of u, half a line height, in px."""
    return round(steps * line() / 2)


def px(nominal: float) -> int:
    """A measure written for a line height of 18 px, in px of the text size in use; never 0 for more than 0."""
    if (made := _px.get(nominal)) is None:
        scaled = nominal * line() / REFERENCE
        made = round(scaled) if abs(scaled) >= 1 or nominal == 0 else int(math.copysign(1, nominal))
        _px[nominal] = made
    return made


def fx(nominal: float) -> float:
    """As `px`, not rounded, for drawings."""
    return nominal * line() / REFERENCE


def _font(size: float, weight: QFont.Weight) -> QFont:
    if (size, weight) not in _fonts:
        font = QFont(QApplication.font())
        if size != 1:
            font.setPointSizeF(font.pointSizeF() * size)
        if weight is not QFont.Weight.Normal:
            font.setWeight(weight)
        _fonts[size, weight] = font
    return QFont(_fonts[size, weight])  # whoever asked may alter it


def body() -> QFont:
    """The body font."""
    return _font(1, QFont.Weight.Normal)


def strong() -> QFont:
    """Body size, one weight more."""
    return _font(1, QFont.Weight.DemiBold)


def large() -> QFont:
    """One and a half times the body size."""
    return _font(1.5, QFont.Weight.Normal)


def large_strong() -> QFont:
    """The large size, one weight more: numbers of jobs and transports."""
    return _font(1.5, QFont.Weight.DemiBold)


def width(text: str, font: QFont | None = None) -> int:
    """Px that ``text`` takes in ``font`` (the body font when none is given)."""
    return math.ceil(QFontMetricsF(font if font is not None else body()).horizontalAdvance(text))


_FIX = "fixed_measures"


def fix(
    widget: QWidget,
    *,
    width: float | None = None,
    height: float | None = None,
    min_width: float | None = None,
    max_width: float | None = None,
    min_height: float | None = None,
) -> None:
    """Fix sizes of ``widget`` in measures for L = 18; they follow the text size."""
    given = dict(width=width, height=height, min_width=min_width, max_width=max_width, min_height=min_height)
    kept: dict[str, Any] = dict(widget.property(_FIX) or {})
    kept.update({name: value for name, value in given.items() if value is not None})
    widget.setProperty(_FIX, kept)
    _reapply(widget)


def _reapply(item: QObject) -> None:
    kept = item.property(_FIX)
    if not kept or not isinstance(item, QWidget):
        return
    setters = {
        "width": item.setFixedWidth,
        "height": item.setFixedHeight,
        "min_width": item.setMinimumWidth,
        "max_width": item.setMaximumWidth,
        "min_height": item.setMinimumHeight,
    }
    for name, value in kept.items():
        setters[name](px(value))
