"""Our own line drawings from assets/icons, tinted to the ink of the word beside them."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

from PySide6.QtCore import QByteArray, QRectF, Qt
from PySide6.QtGui import QIcon, QPainter, QPixmap

from app.screens.kit.measure import px
from app.screens.kit.palette import ink

ICONS = Path(__file__).resolve().parents[3] / "assets" / "icons"


@lru_cache(maxsize=256)
def _pixmap(name: str, side: int, colour: str, ratio: float) -> QPixmap:
    from PySide6.QtSvg import QSvgRenderer

    drawing = (ICONS / f"{name}.svg").read_text(encoding="utf-8").replace("currentColor", colour)
    renderer = QSvgRenderer(QByteArray(drawing.encode()))
    pixmap = QPixmap(round(side * ratio), round(side * ratio))
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    renderer.render(painter, QRectF(0, 0, pixmap.width(), pixmap.height()))
    painter.end()
    pixmap.setDevicePixelRatio(ratio)
    return pixmap


def icon_pixmap(name: str, side: int, role: str = "text", ratio: float = 1.0) -> QPixmap:
    """The drawing ``name`` in a square of ``side`` px, in a role's ink, sharp at ``ratio`` device pixels a px."""
    return _pixmap(name, side, ink(role).name(), ratio)


def icon(name: str, role: str = "text") -> QIcon:
    """The drawing as an icon for menus, at the usual scales."""
    made = QIcon()
    for ratio in (1.0, 1.5, 2.0, 3.0):
        made.addPixmap(icon_pixmap(name, px(20), role, ratio))
    return made


def forget() -> None:
    """The inks have changed: drawings are tinted anew when asked for."""
    _pixmap.cache_clear()
