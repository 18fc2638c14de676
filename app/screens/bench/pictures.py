"""Pictures of a job, read away from the window and never larger than they are shown."""

from __future__ import annotations

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QRectF, QSize, Qt
from PySide6.QtGui import QImage, QImageReader, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit.measure import px
from app.screens.kit.strokes import box
from app.work.bench.files import kept_file
from app.work.shop_book import Book

MOST_PIXELS = 200_000_000  # a larger picture is no photo of a player; it is not decoded
LARGE = 1600


def read_picture(book: Book, file_id: int, side: int) -> QImage | None:
    """The picture in a kept file, at most ``side`` px wide and high; None when it is none that can be read."""
    content = QByteArray(kept_file(book, file_id).content)
    buffer = QBuffer(content)
    buffer.open(QIODevice.OpenModeFlag.ReadOnly)
    reader = QImageReader(buffer)
    reader.setAutoTransform(True)
    reader.setDecideFormatFromContent(True)
    size = reader.size()
    if not reader.canRead() or not size.isValid() or size.width() * size.height() > MOST_PIXELS:
        return None
    if max(size.width(), size.height()) > side:
        reader.setScaledSize(size.scaled(QSize(side, side), Qt.AspectRatioMode.KeepAspectRatio))
    image = reader.read()
    return None if image.isNull() else image


class PictureView(QWidget):
    """One picture in a thin frame, as large as there is room up to ``tall`` (for L = 18), or in ``full``."""

    def __init__(self, tall: float = 520) -> None:
        super().__init__()
        self._tall = tall
        self.full = False
        self._image: QImage | None = None
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setSizePolicy(policy)

    def set_image(self, image: QImage | None, name: str) -> None:
        """Show another; None shows nothing."""
        self._image = image
        self.setAccessibleName(name)
        self.updateGeometry()
        self.update()

    def set_full(self, full: bool) -> None:
        """As tall as it was read, or as there is usually room for."""
        self.full = full
        self.updateGeometry()
        self.update()

    def refit(self) -> None:
        """Take the measures anew."""
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        if self._image is None:
            return QSize(px(100), 0)
        tall = self._image.height() if self.full else min(px(self._tall), self._image.height())
        return QSize(px(400), tall)

    def paintEvent(self, event: QPaintEvent) -> None:
        if self._image is None:
            return
        p = QPainter(self)
        p.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        size = self._image.size().scaled(self.size(), Qt.AspectRatioMode.KeepAspectRatio)
        rect = QRectF(0, 0, size.width(), size.height())
        p.drawImage(rect, self._image)
        box(p, rect, border="line", radius=0)
