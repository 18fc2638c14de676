"""A combo box for six words and more."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QPointF, QRect, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import (
    QComboBox,
    QSizePolicy,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QWidget,
)

from app.screens.kit import measure
from app.screens.kit.measure import px
from app.screens.kit.palette import ink
from app.screens.kit.scrolling import ScrollBar
from app.screens.kit.strokes import box, chevron, words

Index = QModelIndex | QPersistentModelIndex


class _Line(QStyledItemDelegate):
    """A line of the open list: the marked one on the tint with an accent bar."""

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        return QSize(measure.width(str(index.data())) + 2 * px(9), px(28))

    def paint(self, p: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        if option.state & QStyle.StateFlag.State_Selected:
            p.fillRect(option.rect, ink("tint"))
            p.fillRect(
                QRect(option.rect.left(), option.rect.top(), px(3), option.rect.height()), ink("accent")
            )
        words(p, option.rect.adjusted(px(9), 0, -px(4), 0), str(index.data()), font=measure.body())


class Combo(QComboBox):
    """``options`` are pairs of key and word; ``width`` in px for L = 18, else as wide as its longest word."""

    changed = Signal(object)

    def __init__(
        self,
        name: str,
        options: Sequence[tuple[Any, str]] = (),
        chosen: Any = None,
        *,
        width: float | None = None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.view().setVerticalScrollBar(ScrollBar(Qt.Orientation.Vertical, self.view()))
        self.view().setItemDelegate(_Line(self))
        self.setMaxVisibleItems(16)
        self._keys: list[Any] = []
        if width is not None:
            measure.fix(self, width=width)
        self.set_options(options, chosen)
        self.currentIndexChanged.connect(self._changed)

    def refit(self) -> None:
        self.updateGeometry()

    def set_options(self, options: Sequence[tuple[Any, str]], chosen: Any = None) -> None:
        """Offer other words; nothing is emitted."""
        self.blockSignals(True)
        self.clear()
        self._keys = [key for key, _ in options]
        self.addItems([word for _, word in options])
        self.setCurrentIndex(
            self._keys.index(chosen) if chosen in self._keys else -1 if chosen is None else 0
        )
        self.blockSignals(False)
        self.updateGeometry()

    def set_name(self, name: str) -> None:
        """What a screen reader calls it."""
        self.setAccessibleName(name)

    def value(self) -> Any:
        """The chosen key, or None."""
        return self._keys[self.currentIndex()] if self.currentIndex() >= 0 else None

    def set_value(self, key: Any) -> None:
        """Choose ``key``; None leaves it empty."""
        self.setCurrentIndex(-1 if key is None else self._keys.index(key))

    def _changed(self, index: int) -> None:
        self.changed.emit(self._keys[index] if index >= 0 else None)

    def sizeHint(self) -> QSize:
        longest = max((measure.width(self.itemText(i)) for i in range(self.count())), default=px(60))
        return QSize(longest + px(44), px(32))

    def minimumSizeHint(self) -> QSize:
        return QSize(px(60), px(32))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            event.ignore()  # the form moves on; Space, Alt+Down or F4 opens the list
            return
        super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        focused = self.hasFocus() or self.view().isVisible()
        wrong = bool(self.property("wrong"))
        border = "stop" if wrong else "accent" if focused else "edge"
        box(p, self.rect(), fill="base", border=border, width=2 if focused else 1)
        room = self.rect().adjusted(px(9), 0, -px(28), 0)
        shown = self.currentText() or self.placeholderText()
        words(p, room, shown, font=measure.body(), of="text" if self.currentText() else "soft")
        chevron(p, QPointF(self.width() - px(15), self.height() / 2))
