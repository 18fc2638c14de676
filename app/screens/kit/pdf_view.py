"""Shows the very PDF that is filed, page by page; prints it and saves it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QRectF, QSize, QSizeF, Qt, Signal
from PySide6.QtGui import QImage, QPageSize, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.papers.pdfium import PDFIUM
from app.screens.kit.boxes import Column
from app.screens.kit.measure import px
from app.screens.kit.palette import ink
from app.screens.kit.scrolling import Scroller
from app.screens.kit.strokes import box
from app.screens.language import say

if TYPE_CHECKING:
    from PySide6.QtPrintSupport import QPrinter

PRINT_DPI = 300
BANDS = 8  # a page at 300 dpi is drawn in bands of about 4 MB
POINT = 72.0


def open_pdf(pdf: bytes) -> Any:
    """The document of some PDF bytes (pypdfium2); ValueError when they are none."""
    import pypdfium2

    try:
        with PDFIUM:
            return pypdfium2.PdfDocument(pdf)
    except pypdfium2.PdfiumError as error:
        raise ValueError("not a readable PDF") from error


def render(page: Any, scale: float, crop: tuple[float, float, float, float] = (0, 0, 0, 0)) -> QImage:
    """An image of a page at ``scale`` px a point; ``crop`` cuts points off left, bottom, right, top."""
    with PDFIUM:
        bitmap = page.render(scale=scale, crop=crop, rev_byteorder=False, prefer_bgrx=True)
        image = QImage(
            bitmap.buffer, bitmap.width, bitmap.height, bitmap.stride, QImage.Format.Format_RGB32
        ).copy()
        bitmap.close()
    return image


def page_images(pdf: bytes, scale: float) -> Iterator[QImage]:
    """Every page as an image of ``scale`` px a point, in order."""
    document = open_pdf(pdf)
    try:
        for number in range(len(document)):
            yield render(document[number], scale)
    finally:
        close(document)


def close(document: Any) -> None:
    """Let a document go."""
    with PDFIUM:
        document.close()


class PdfPage(QWidget):
    """One page; its image is made when it is first seen and anew when its width changes."""

    def __init__(self, page: Any, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._page = page
        self._size = page.get_size()
        self._image: QImage | None = None
        self.setAccessibleName(name)
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        return round(width * float(self._size[1]) / float(self._size[0]))

    def sizeHint(self) -> QSize:
        return QSize(px(200), self.heightForWidth(px(200)))

    def resizeEvent(self, event: QResizeEvent) -> None:
        self._image = None
        super().resizeEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        ratio = self.devicePixelRatioF()
        if self._image is None:
            self._image = render(self._page, self.width() * ratio / self._size[0])
            self._image.setDevicePixelRatio(ratio)
        p = QPainter(self)
        p.drawImage(0, 0, self._image)
        box(p, self.rect(), border="line", radius=0)


class PdfView(QWidget):
    """A paper on the bench, as wide as there is room up to ``widest`` (for L = 18)."""

    printed = Signal()

    def __init__(
        self, pdf: bytes = b"", name: str = "", *, widest: float = 860, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._widest = widest
        self._document: Any = None
        self.pdf = b""
        self.pages: list[PdfPage] = []
        self._inside = QWidget()
        self._column = Column(self._inside, gap=18, margins=(27, 18, 27, 18))
        self._scroller = Scroller(self._inside)
        self._scroller.setParent(self)
        self._scroller.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        Column(self).add(self._scroller, stretch=1)
        if pdf:
            self.set_pdf(pdf, name)

    def set_pdf(self, pdf: bytes, name: str = "") -> None:
        """Show another paper; ValueError when the bytes are no PDF."""
        document = open_pdf(pdf)
        self.close_pdf()
        self._document, self.pdf = document, pdf
        self._scroller.setAccessibleName(name)
        count = len(document)
        for i in range(count):
            page = PdfPage(
                document[i], say("{name}, page {page} of {pages}", name=name, page=i + 1, pages=count)
            )
            page.setMaximumWidth(px(self._widest))
            self._column.addWidget(page, 0)
            self.pages.append(page)
        self._column.addStretch(1)
        self._scroller.verticalScrollBar().setValue(0)

    def close_pdf(self) -> None:
        """Let the paper go."""
        while (item := self._column.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.setParent(None)
                widget.deleteLater()
        self.pages = []
        if self._document is not None:
            close(self._document)
            self._document = None

    def refit(self) -> None:
        for page in self.pages:
            page.setMaximumWidth(px(self._widest))

    def paintEvent(self, event: QPaintEvent) -> None:
        QPainter(self).fillRect(self.rect(), ink("window"))

    def save_as(self, path: Path) -> None:
        """Write the very bytes to a file; OSError when that fails."""
        path.write_bytes(self.pdf)


def page_size_of(pdf: bytes) -> QPageSize:
    """The size of the first page, e.g. A4, Letter or a label."""
    with PDFIUM:
        document = open_pdf(pdf)
        try:
            width, height = document[0].get_size()
        finally:
            document.close()
    return QPageSize(QSizeF(width, height), QPageSize.Unit.Point, "", QPageSize.SizeMatchPolicy.FuzzyMatch)


def same_sheet(one: QPageSize, other: QPageSize) -> bool:
    """Whether two sizes are one sheet, upright or lying, but for 2 mm."""
    sides = [sorted((size.width(), size.height())) for size in map(_in_mm, (one, other))]
    return all(abs(a - b) <= 2.0 for a, b in zip(*sides, strict=True))


def sheet_words(size: QPageSize) -> str:
    """A4, Letter; a label by its sides."""
    if size.id() != QPageSize.PageSizeId.Custom:
        return size.name()
    sides = _in_mm(size)
    return say("{width} × {height} mm", width=round(sides.width()), height=round(sides.height()))


def _in_mm(size: QPageSize) -> QSizeF:
    return size.size(QPageSize.Unit.Millimeter)


def prepare(printer: QPrinter, pdf: bytes) -> None:
    """Lay our own page on the printer: size of the paper, no margins, 300 dpi. Call it again after a print
    dialog, which may have put the driver's own page in its place."""
    from PySide6.QtCore import QMarginsF
    from PySide6.QtGui import QPageLayout

    printer.setResolution(PRINT_DPI)
    printer.setFullPage(True)
    size, way = page_size_of(pdf), QPageLayout.Orientation.Portrait
    lying, unit = size.size(QPageSize.Unit.Point), QPageSize.Unit.Point
    turned = QPageSize(lying.transposed(), unit, "", QPageSize.SizeMatchPolicy.FuzzyMatch)
    # A printer knows its sheets upright; a label lies as it is stuck.
    if size.id() == QPageSize.PageSizeId.Custom != turned.id():
        size, way = turned, QPageLayout.Orientation.Landscape
    layout = QPageLayout(size, way, QMarginsF(0, 0, 0, 0))
    layout.setMode(QPageLayout.Mode.FullPageMode)
    printer.setPageLayout(layout)


def print_pdf(pdf: bytes, printer: QPrinter) -> int:
    """Print all pages of ``pdf`` at 300 dpi, each in bands; the number of pages printed.

    The printer's page should be ours (`prepare`). RuntimeError when the printer does not take the job.
    """
    document = open_pdf(pdf)
    painter = QPainter(printer)
    if not painter.isActive():
        close(document)
        raise RuntimeError("the printer does not take the job")
    try:
        for number in range(len(document)):
            if number:
                printer.newPage()
            _print_page(document[number], painter, printer)
        return len(document)
    finally:
        painter.end()
        close(document)


def _print_page(page: Any, painter: QPainter, printer: QPrinter) -> None:
    width, height = page.get_size()
    scale = PRINT_DPI / POINT
    dots = printer.resolution() / POINT
    for band in range(BANDS):
        top, bottom = height * band / BANDS, height * (band + 1) / BANDS
        image = render(page, scale, crop=(0, height - bottom, 0, top))
        painter.drawImage(QRectF(0, top * dots, width * dots, (bottom - top) * dots), image)
