"""One file of a job as a tile: its picture small, its name, who put it in."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QEvent, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QEnterEvent, QImage, QKeyEvent, QMouseEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit import measure
from app.screens.kit.measure import px
from app.screens.kit.palette import ink
from app.screens.kit.strokes import CENTRE, box, hline, words
from app.screens.kit.tips import plain_tip

WIDE, PICTURE, TALL = 168, 104, 152


class FileTile(QWidget):
    """Enter or a click marks it."""

    opened = Signal(object)

    def __init__(self, key: Any, name: str, second: str, kind: str, *, struck: bool = False) -> None:
        super().__init__()
        self.key, self._name, self._second, self._kind, self._struck = key, name, second, kind, struck
        self._image: QImage | None = None
        self.marked = False
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(f"{name}, {second}")
        self.setToolTip(plain_tip(name))

    def set_image(self, image: QImage | None) -> None:
        """The small picture, once it was read."""
        self._image = image
        self.update()

    def set_marked(self, marked: bool) -> None:
        """Mark it with the accent bar."""
        self.marked = marked
        self.update()

    def refit(self) -> None:
        """Take the measures anew."""
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        return QSize(px(WIDE), px(TALL))

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space):
            self.opened.emit(self.key)
        elif event.key() in (Qt.Key.Key_Right, Qt.Key.Key_Left):
            self.focusNextPrevChild(event.key() == Qt.Key.Key_Right)
        else:
            super().keyPressEvent(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        if event.button() == Qt.MouseButton.LeftButton and self.rect().contains(event.position().toPoint()):
            self.opened.emit(self.key)

    def enterEvent(self, event: QEnterEvent) -> None:
        self.update()
        super().enterEvent(event)

    def leaveEvent(self, event: QEvent) -> None:
        self.update()
        super().leaveEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        border = "accent" if self.hasFocus() or self.marked else "edge" if self.underMouse() else "line"
        width = 2 if self.hasFocus() or self.marked else 1
        fill = "tint" if self.marked else "alternate"
        box(p, self.rect(), fill=fill, border=border, width=width, radius=0)
        picture = QRectF(px(6), px(6), self.width() - px(12), px(PICTURE) - px(6))
        if self._image is not None:
            p.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
            size = self._image.size().scaled(picture.size().toSize(), Qt.AspectRatioMode.KeepAspectRatio)
            p.setOpacity(0.5 if self._struck else 1.0)
            left = picture.center().x() - size.width() / 2
            top = picture.center().y() - size.height() / 2
            p.drawImage(QRectF(left, top, size.width(), size.height()), self._image)
            p.setOpacity(1.0)
        else:
            p.fillRect(picture, ink("base"))
            words(p, picture, self._kind, font=measure.strong(), of="soft", align=CENTRE)
        line = QRectF(px(9), px(PICTURE) + px(4), self.width() - px(18), measure.line())
        role = "soft" if self._struck else "text"
        taken = words(p, line, self._name, font=measure.body(), of=role)
        if self._struck:
            hline(p, line.left(), line.left() + taken, line.center().y(), "soft", 1.3)
        words(p, line.translated(0, measure.line()), self._second, font=measure.body(), of="soft")
