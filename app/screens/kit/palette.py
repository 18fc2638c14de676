"""The only module with colours: a light and a dark set of inks by role, and the palette made of them."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QGuiApplication, QPalette
from PySide6.QtWidgets import QApplication


class Scheme(StrEnum):
    """Which set of inks is wanted."""

    SYSTEM = "system"
    LIGHT = "light"
    DARK = "dark"


class Mark(NamedTuple):
    """One entry of the picture cycle: never told by its colour alone."""

    ink: str
    shape: str  # dot, square, triangle or open dot
    dash: tuple[float, ...]  # empty for a solid line


@dataclass(frozen=True)
class Inks:
    """Every colour of one scheme, named for its use."""

    window: str  # the bench around the sheet
    base: str  # sheet, fields, tables
    alternate: str  # margin, tiles, the future in a plot, closed dividers
    text: str
    soft: str  # labels, units, second words, headers
    line: str  # hairlines between rows
    edge: str  # borders of fields and buttons, header rule, open shapes
    button: str
    tint: str  # marked row, cured tile, selected text
    accent: str  # main button, focus, links, marked edge
    on_accent: str
    stop: str
    caution: str
    note: str
    cycle: tuple[Mark, ...]

    def colour(self, role: str, alpha: float = 1.0) -> QColor:
        """The colour of a role by its name, see-through by ``alpha`` (0 to 1)."""
        made = QColor(getattr(self, role))
        made.setAlphaF(alpha)
        return made


_SHAPES: tuple[tuple[str, tuple[float, ...]], ...] = (
    ("dot", ()),
    ("square", (6.0, 4.0)),
    ("triangle", (1.5, 3.0)),
    ("open dot", ()),
)


def _cycle(*inks: str) -> tuple[Mark, ...]:
    return tuple(Mark(ink, shape, dash) for ink, (shape, dash) in zip(inks, _SHAPES, strict=True))


LIGHT = Inks(
    window="#E4E1D8",
    base="#FDFCF9",
    alternate="#F4F2EB",
    text="#23211D",
    soft="#635E54",
    line="#DAD5C9",
    edge="#857E70",
    button="#F6F4EE",
    tint="#DCE9EA",
    accent="#15596A",
    on_accent="#FFFFFF",
    stop="#961522",
    caution="#7E5E00",
    note="#4B5C66",
    cycle=_cycle("#15596A", "#A06A00", "#6A4C93", "#7A7467"),
)

DARK = Inks(
    window="#171817",
    base="#222321",
    alternate="#2A2B28",
    text="#E8E4DA",
    soft="#ABA699",
    line="#42423D",
    edge="#827D72",
    button="#2E2F2C",
    tint="#273D43",
    accent="#7CC5D2",
    on_accent="#0D2126",
    stop="#F4917F",
    caution="#E2B35B",
    note="#A9BAC4",
    cycle=_cycle("#7CC5D2", "#E2B35B", "#B79FE0", "#9A958A"),
)

_R = QPalette.ColorRole
_ROLES: tuple[tuple[QPalette.ColorRole, str], ...] = (
    (_R.Window, "window"),
    (_R.Base, "base"),
    (_R.AlternateBase, "alternate"),
    (_R.Text, "text"),
    (_R.WindowText, "text"),
    (_R.ButtonText, "text"),
    (_R.HighlightedText, "text"),
    (_R.BrightText, "text"),
    (_R.ToolTipBase, "alternate"),
    (_R.ToolTipText, "text"),
    (_R.PlaceholderText, "soft"),
    (_R.Mid, "line"),
    (_R.Midlight, "line"),
    (_R.Light, "base"),
    (_R.Dark, "edge"),
    (_R.Shadow, "edge"),
    (_R.Button, "button"),
    (_R.Highlight, "tint"),
    (_R.Accent, "accent"),
    (_R.Link, "accent"),
    (_R.LinkVisited, "accent"),
)

_inks = LIGHT
_wanted = Scheme.SYSTEM


def inks() -> Inks:
    """The inks in use now."""
    return _inks


def wanted() -> Scheme:
    """The scheme that was asked for, which may be to follow the system."""
    return _wanted


def ink(role: str, alpha: float = 1.0) -> QColor:
    """The colour of a role in the scheme in use, e.g. ``ink("accent")`` or ``ink("caution")``."""
    return _inks.colour(role, alpha)


@contextmanager
def drawn_in(of: Inks) -> Iterator[None]:
    """While it lasts, `ink` answers from this set: for a picture that leaves the window and goes on paper."""
    global _inks
    before, _inks = _inks, of
    try:
        yield
    finally:
        _inks = before


def palette(of: Inks) -> QPalette:
    """The Qt palette of a set of inks; all three colour groups are the same."""
    made = QPalette()
    for group in (
        QPalette.ColorGroup.Active,
        QPalette.ColorGroup.Inactive,
        QPalette.ColorGroup.Disabled,
    ):
        for role, name in _ROLES:
            made.setColor(group, role, QColor(getattr(of, name)))
    return made


def apply(app: QApplication, scheme: Scheme | str = Scheme.SYSTEM) -> None:
    """Lay our style and the inks of ``scheme`` on the program; ``system`` follows the desktop from then on."""
    global _wanted
    from app.screens.kit.style import SheetStyle

    if not isinstance(app.style(), SheetStyle):
        app.setStyle(SheetStyle())
        app.styleHints().colorSchemeChanged.connect(_system_changed)
    _wanted = Scheme(scheme)
    hints = app.styleHints()
    if _wanted is Scheme.SYSTEM:
        hints.unsetColorScheme()
    else:
        dark = _wanted is Scheme.DARK
        hints.setColorScheme(Qt.ColorScheme.Dark if dark else Qt.ColorScheme.Light)
    _lay(app)


def _system_changed() -> None:
    app = QApplication.instance()
    if isinstance(app, QApplication):
        _lay(app)


def _lay(app: QApplication) -> None:
    global _inks
    dark = _wanted is Scheme.DARK or (
        _wanted is Scheme.SYSTEM and QGuiApplication.styleHints().colorScheme() == Qt.ColorScheme.Dark
    )
    _inks = DARK if dark else LIGHT
    app.setPalette(palette(_inks))
