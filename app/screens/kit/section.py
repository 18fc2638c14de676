"""A part of a sheet that folds: its word, what it holds in soft, a link at the right, its things below."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QEnterEvent, QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QAbstractButton, QBoxLayout, QSizePolicy, QWidget

from app.screens.kit import measure
from app.screens.kit.boxes import Column, Flow, Row
from app.screens.kit.buttons import Button
from app.screens.kit.measure import px
from app.screens.kit.shapes import flag_shape
from app.screens.kit.strokes import box, fold_mark, words


class FoldHead(QAbstractButton):
    """The line that folds: mark, heavier word, soft summary, shapes and words of flags."""

    def __init__(self, word: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.opened = True
        self._summary = ""
        self._flags: tuple[tuple[str, str], ...] = ()
        self.setText(word)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self._name()

    def set_summary(self, summary: str, flags: tuple[tuple[str, str], ...] = ()) -> None:
        """What it holds, and flags as pairs of level and word."""
        self._summary, self._flags = summary, flags
        self._name()
        self.update()

    def set_opened(self, opened: bool) -> None:
        """Turn the mark."""
        self.opened = opened
        self._name()
        self.update()

    def _name(self) -> None:
        self.setAccessibleName(f"{self.text()} {self._summary}".strip())

    def refit(self) -> None:
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        return QSize(px(160), px(24))

    def minimumSizeHint(self) -> QSize:
        return QSize(px(60), px(24))

    def least_width(self) -> int:
        """Px that the mark and the word take."""
        return px(25) + measure.width(self.text(), measure.strong())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = event.key()
        folds = key == Qt.Key.Key_Left and self.opened
        opens = key == Qt.Key.Key_Right and not self.opened
        if folds or opens or key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
            return
        super().keyPressEvent(event)

    def enterEvent(self, event: QEnterEvent) -> None:
        self.update()
        super().enterEvent(event)

    def leaveEvent(self, event: QEvent) -> None:
        self.update()
        super().leaveEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        mid = self.height() / 2
        side = px(10)
        fold_mark(
            p, QRectF(0, mid - side / 2, side, side), self.opened, "text" if self.underMouse() else "soft"
        )
        x = float(px(18))
        x += words(p, QRectF(x, 0, self.width() - x, self.height()), self.text(), font=measure.strong()) + px(
            7
        )
        for level, word in self._flags:
            flag_shape(p, QRectF(x, mid - px(7), px(14), px(14)), level)
            x += px(20)
            room = QRectF(x, 0, self.width() - x, self.height())
            x += words(p, room, word, font=measure.strong(), of=level) + px(11)
        if self._summary:
            words(
                p,
                QRectF(x, 0, self.width() - x, self.height()),
                self._summary,
                font=measure.body(),
                of="soft",
            )
        if self.hasFocus():
            box(p, self.rect().adjusted(0, 0, 0, 0), border="accent", width=2)


class Section(QWidget):
    """``section.column`` takes its things. ``set_summary`` is what the folded line tells of its contents;
    ``set_links`` puts quiet buttons at the right end of its line. ``inset`` draws the line in at both ends, so
    that tables in the section stick out beside it."""

    folded = Signal(bool)

    def __init__(
        self,
        word: str,
        summary: str = "",
        *,
        opened: bool = True,
        inset: float = 0,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.head = FoldHead(word, self)
        self.head.set_summary(summary)
        self.head.clicked.connect(lambda: self.set_opened(not self.is_open))
        self._line = Row(gap=9, margins=(inset, 0, inset, 0))
        self._at_right = QWidget(self)
        self._right_row = Flow(self._at_right, gap=9, line_gap=2)
        policy = QSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self._at_right.setSizePolicy(policy)
        self._line.add(self.head, stretch=1).add(self._at_right)
        self._body = QWidget(self)
        self.column = Column(self._body, gap=5)
        Column(self, gap=4).add(self._line, self._body)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        self.set_opened(opened)

    @property
    def is_open(self) -> bool:
        """Whether its things are in sight."""
        return self.head.opened

    def set_summary(self, summary: str, flags: tuple[tuple[str, str], ...] = ()) -> None:
        """What it holds, in soft behind its word, and the flags to be seen while it is folded."""
        self.head.set_summary(summary, flags)

    def set_links(self, *links: Button) -> None:
        """Quiet buttons at the right end of the line."""
        for link in links:
            self._right_row.addWidget(link)
        self._fit_line()

    def event(self, event: QEvent) -> bool:
        if event.type() in (QEvent.Type.Resize, QEvent.Type.LayoutRequest):
            self._fit_line()
        return super().event(event)

    def _fit_line(self) -> None:
        """The links stand below the word where it would be cut beside them."""
        margins = self._line.contentsMargins()
        links = self._at_right.sizeHint().width()
        need = self.head.least_width() + px(9) + links + margins.left() + margins.right()
        below = links > 0 and need > self.width()
        way = QBoxLayout.Direction.TopToBottom if below else QBoxLayout.Direction.LeftToRight
        if self._line.direction() != way:
            self._line.setDirection(way)
            self._line.setAlignment(
                self._at_right, Qt.AlignmentFlag.AlignLeft if below else Qt.AlignmentFlag(0)
            )
            self._line.set_gap(0 if below else 9)

    def set_opened(self, opened: bool) -> None:
        """Open or fold it."""
        changed = opened != self.head.opened
        self.head.set_opened(opened)
        self._body.setVisible(opened)
        if changed:
            self.folded.emit(not opened)
