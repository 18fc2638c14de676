"""A whole picture on a page: its panels one below the other, each with a line that tells its marked mark."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QFontMetricsF, QImage, QPainter
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit import measure
from app.screens.kit.boxes import Column, set_shown
from app.screens.kit.measure import px
from app.screens.kit.palette import LIGHT, drawn_in, ink
from app.screens.kit.plots.kinds import view_of
from app.screens.kit.plots.marks import Mark, worded
from app.screens.kit.plots.panel import LEAST_WIDTH, PanelView
from app.screens.kit.plots.told_line import ToldLine
from app.screens.language import say
from app.trade.statistics.picture import Picture

GAP = 18  # px from one panel to the next


class PictureView(QWidget):
    """The arrows go from mark to mark, Tab from panel to panel; Enter or a double click opens the jobs behind a mark.

    ``marked`` and ``opened`` hand on the `Mark`; nothing is opened that has no jobs. The height follows the width:
    the page scrolls, not the picture.
    """

    marked = Signal(object)
    opened = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.picture: Picture | None = None
        self.panels: list[PanelView] = []
        self.told: list[ToldLine] = []
        self._last: Mark | None = None
        self._column = Column(self)
        self._stack = QWidget(self)
        self._column.addWidget(self._stack)
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def show_picture(self, picture: Picture | None) -> None:
        """Show another picture; a mark of the same panel and key stays marked. None shows nothing."""
        last, held = self._last, next((i for i, panel in enumerate(self.panels) if panel.hasFocus()), -1)
        before, self._stack = self._stack, QWidget(self)
        for old in self.panels:
            old.blockSignals(True)  # what it loses on its way out marks nothing
        column = Column(self._stack)
        self._column.addWidget(self._stack)
        self.picture, self._last = picture, None
        self.panels, self.told = [], []
        for place, panel in enumerate(picture.panels if picture is not None else ()):
            self._add(column, view_of(panel, place, self._stack), first=place == 0)
        column.addStretch(1)
        self.setAccessibleName(worded(picture.title) if picture is not None else "")
        self.setAccessibleDescription(self.text)
        if last is not None:
            self.mark(last.key, last.panel)
        self.setFocusProxy(self.panels[0] if self.panels else None)  # type: ignore[arg-type]  # Qt takes none
        if self.isVisible():
            self._stack.show()
        if 0 <= held < len(self.panels):
            self.panels[held].setFocus(Qt.FocusReason.OtherFocusReason)
        self._column.removeWidget(before)
        before.hide()
        before.deleteLater()
        self.updateGeometry()

    def _add(self, column: Column, view: PanelView, *, first: bool) -> None:
        hint = say("The arrow keys go from mark to mark, Enter shows the jobs behind one.") if first else ""
        line = ToldLine(hint)
        line.set_longest([mark.told for mark in view.marks()])
        set_shown(line, first)  # the others open with their first mark
        view.marked.connect(partial(self._marked, line))
        view.opened.connect(self.opened)
        self.panels.append(view)
        self.told.append(line)
        if not first:
            column.add(GAP)
        column.add(view, line)

    def _marked(self, line: ToldLine, mark: Mark) -> None:
        self._last = mark
        set_shown(line, True)
        line.set_soft(False)
        line.setText(mark.told)
        self.marked.emit(mark)

    def mark(self, key: str, panel: int = 0) -> bool:
        """Mark by key in a panel; whether it was found."""
        if 0 <= panel < len(self.panels):
            view = self.panels[panel]
            for i, mark in enumerate(view.marks()):
                if mark.key == key:
                    view.mark(i, aloud=False)
                    return True
        return False

    def marked_mark(self) -> Mark | None:
        """What was marked last."""
        return self._last

    @property
    def text(self) -> str:
        """The picture in words: the title and every mark of each panel, one a line."""
        lines: list[str] = []
        for view in self.panels:
            lines += [view.title, *(mark.told for mark in view.marks())]
        return "\n".join(line for line in lines if line)

    # to take away

    def image(self, scale: float = 2.0) -> QImage:
        """The picture with its title, as wide as it is shown, ``scale`` px to each; in the light inks, as it goes into
        letters and on paper."""
        with drawn_in(LIGHT):
            return self._image(scale)

    def _image(self, scale: float) -> QImage:
        wide, edge = max(self.width(), px(LEAST_WIDTH)), px(18)
        title = worded(self.picture.title) if self.picture is not None else ""
        wraps, room = int(Qt.TextFlag.TextWordWrap), QRectF(px(9), edge, wide - 2 * px(9), 10_000)
        top = QFontMetricsF(measure.large()).boundingRect(room, wraps, title).height() + 2 * edge
        top = float(round(top))
        tall = top + sum(view.height() + px(GAP) for view in self.panels)
        image = QImage(round(wide * scale), round(tall * scale), QImage.Format.Format_RGB32)
        image.setDevicePixelRatio(scale)
        image.fill(ink("base"))
        p = QPainter(image)
        p.setFont(measure.large())
        p.setPen(ink("text"))
        p.drawText(room, wraps, title)
        for view in self.panels:
            p.save()
            p.translate(QPointF(0, top))
            view.paint_plain(p)
            p.restore()
            top += view.height() + px(GAP)
        p.end()
        return image
