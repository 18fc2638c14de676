"""The editor of the shop's logo: choose a picture, see it, take it away."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QImage, QPainter, QPaintEvent
from PySide6.QtWidgets import QFileDialog, QSizePolicy, QWidget

from app.screens.desk import Desk
from app.screens.kit.boxes import Row
from app.screens.kit.buttons import Button
from app.screens.kit.measure import px
from app.screens.kit.strokes import box
from app.screens.language import say
from app.screens.office.setting_editors import Editor
from app.trade.refusal import Refusal
from app.work.office.logo import logo_bytes, store_logo


class _Picture(QWidget):
    """The picture on white, as papers print it."""

    def __init__(self) -> None:
        super().__init__()
        self.image = QImage()
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def refit(self) -> None:
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        return QSize(px(180), px(72))

    def set_image(self, image: QImage) -> None:
        """Show it; a null image shows the empty frame."""
        self.image = image
        self.setAccessibleName(say("Logo") if not image.isNull() else say("No logo"))
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        if self.image.isNull():
            box(p, self.rect(), border="edge", dashed=True)
            return
        p.fillRect(self.rect(), Qt.GlobalColor.white)
        room = QRectF(self.rect()).adjusted(px(6), px(6), -px(6), -px(6))
        size = self.image.size().scaled(room.size().toSize(), Qt.AspectRatioMode.KeepAspectRatio)
        target = QRectF(room.left(), room.top(), size.width(), size.height())
        p.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        p.drawImage(target, self.image)
        box(p, self.rect(), border="edge")


class LogoEditor(Editor):
    """Its value is the SHA-256 of the picture beside the book; the picture is stored when it is chosen."""

    def __init__(self, desk: Desk) -> None:
        self._box = QWidget()
        super().__init__(self._box)
        self._desk = desk
        self._sha256 = ""
        self.picture = _Picture()
        self.choose = Button(say("Choose a picture…"), self._ask)
        self.remove = Button(say("No logo"), partial(self._put, "", tell=True), kind="quiet")
        row = Row(self._box, gap=14)
        row.add(self.picture, self.choose, self.remove)
        row.addStretch(1)
        self.setFocusProxy(self.choose)
        self._show()

    def set_name(self, name: str) -> None:
        self.setAccessibleName(name)

    def set_fixed(self, fixed: bool) -> None:
        self.choose.setVisible(not fixed)
        self.remove.setVisible(not fixed and bool(self._sha256))

    def value(self) -> Any:
        return self._sha256

    def set_value(self, value: Any) -> None:
        self._put(str(value), tell=False)

    def draft(self) -> Any:
        return self._sha256

    def put_draft(self, plain: Any) -> None:
        self._put(str(plain), tell=False)

    def take(self, path: Path) -> None:
        """Store the picture of a file and show it."""
        self._desk.doors.change(
            self, partial(store_logo, self._desk.book, path), partial(self._put, tell=True), self._failed
        )

    def _ask(self) -> None:
        name, _ = QFileDialog.getOpenFileName(
            self, say("Choose the logo"), "", say("Pictures (*.png *.jpg *.jpeg)")
        )
        if name:
            self.take(Path(name))

    def _put(self, sha256: str, *, tell: bool) -> None:
        self._sha256 = sha256
        self.set_error("")
        self._show()
        if sha256:
            self._desk.doors.look_up(
                self, partial(logo_bytes, self._desk.book, sha256), self._shown, self._failed
            )
        if tell:
            self.changed.emit()

    def _show(self) -> None:
        self.remove.setVisible(bool(self._sha256))
        if not self._sha256:
            self.picture.set_image(QImage())

    def _shown(self, content: bytes) -> None:
        self.picture.set_image(QImage.fromData(content))

    def _failed(self, error: Exception) -> None:
        if isinstance(error, Refusal):
            step = say(error.next_step) if error.next_step is not None else ""
            self.set_error(f"{say(error.sentence)} {step}".strip())
        else:
            self._desk.doors.unhandled.emit(error)
