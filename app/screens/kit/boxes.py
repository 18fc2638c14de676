"""Layouts whose gaps and margins are written for L = 18 and follow the text size."""

from __future__ import annotations

from PySide6.QtCore import QPoint, QRect, QSize, Qt
from PySide6.QtWidgets import QBoxLayout, QHBoxLayout, QLayout, QLayoutItem, QVBoxLayout, QWidget

from app.screens.kit.measure import px

Margins = tuple[float, float, float, float]
NONE: Margins = (0, 0, 0, 0)


def _fit(layout: QBoxLayout, gap: float, margins: Margins) -> None:
    layout.setSpacing(px(gap))
    layout.setContentsMargins(*(px(m) for m in margins))


def set_shown(widget: QWidget, shown: bool) -> None:
    """Show or hide, also before the widget has been put into its page (where plain show makes a window)."""
    if shown and widget.parentWidget() is None:
        widget.setAttribute(Qt.WidgetAttribute.WA_WState_ExplicitShowHide, False)
    else:
        widget.setVisible(shown)


def clear_layout(layout: QLayout) -> None:
    """Take everything out of a layout and let it go."""
    while (item := layout.takeAt(0)) is not None:
        widget = item.widget()
        if widget is not None:
            widget.hide()
            widget.deleteLater()


class Column(QVBoxLayout):
    """Things one below the other. ``margins`` are left, top, right, bottom."""

    def __init__(self, parent: QWidget | None = None, *, gap: float = 0, margins: Margins = NONE) -> None:
        super().__init__()
        self._gap, self._margins = gap, margins
        if parent is not None:
            parent.setLayout(self)
        self.refit()

    def refit(self) -> None:
        _fit(self, self._gap, self._margins)

    def set_margins(self, margins: Margins) -> None:
        """Other margins: left, top, right, bottom."""
        self._margins = margins
        self.refit()

    def add(self, *items: QWidget | QLayout | float, stretch: int = 0) -> Column:
        """Add widgets, layouts, or numbers as empty space."""
        _add(self, items, stretch)
        return self


class Row(QHBoxLayout):
    """Things beside each other. ``margins`` are left, top, right, bottom."""

    def __init__(self, parent: QWidget | None = None, *, gap: float = 9, margins: Margins = NONE) -> None:
        super().__init__()
        self._gap, self._margins = gap, margins
        if parent is not None:
            parent.setLayout(self)
        self.refit()

    def refit(self) -> None:
        _fit(self, self._gap, self._margins)

    def set_margins(self, margins: Margins) -> None:
        """Other margins: left, top, right, bottom."""
        self._margins = margins
        self.refit()

    def set_gap(self, gap: float) -> None:
        """Another gap between the things."""
        self._gap = gap
        self.refit()

    def add(self, *items: QWidget | QLayout | float, stretch: int = 0) -> Row:
        """Add widgets, layouts, or numbers as empty space."""
        _add(self, items, stretch)
        return self


def _add(layout: QBoxLayout, items: tuple[QWidget | QLayout | float, ...], stretch: int) -> None:
    for item in items:
        if isinstance(item, QWidget):
            layout.addWidget(item, stretch)
        elif isinstance(item, QLayout):
            layout.addLayout(item, stretch)
        else:
            layout.addSpacing(px(item))


class Flow(QLayout):
    """Things beside each other that go on in the next line where the width ends."""

    def __init__(self, parent: QWidget | None = None, *, gap: float = 18, line_gap: float = 5) -> None:
        super().__init__()
        self._items: list[QLayoutItem] = []
        # By width, until something changes: each level above asks several times.
        self._heights: dict[int, int] = {}
        self._gap, self._line_gap = gap, line_gap
        self.setContentsMargins(0, 0, 0, 0)
        if parent is not None:
            parent.setLayout(self)

    def refit(self) -> None:
        self.invalidate()

    def add(self, *items: QWidget) -> Flow:
        """Add widgets in order."""
        for item in items:
            self.addWidget(item)
        return self

    def invalidate(self) -> None:
        self._heights.clear()
        super().invalidate()

    def addItem(self, item: QLayoutItem) -> None:
        self._heights.clear()
        self._items.append(item)

    def count(self) -> int:
        return len(self._items)

    def itemAt(self, index: int) -> QLayoutItem | None:
        return self._items[index] if 0 <= index < len(self._items) else None

    def takeAt(self, index: int) -> QLayoutItem | None:
        self._heights.clear()
        return self._items.pop(index) if 0 <= index < len(self._items) else None

    def expandingDirections(self) -> Qt.Orientation:
        return Qt.Orientation(0)

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        if (height := self._heights.get(width)) is None:
            height = self._heights[width] = self._lay(QRect(0, 0, width, 0), move=False)
        return height

    def sizeHint(self) -> QSize:
        shown = [item.sizeHint() for item in self._items if not item.isEmpty()]
        gaps = px(self._gap) * max(len(shown) - 1, 0)
        return QSize(sum(s.width() for s in shown) + gaps, max((s.height() for s in shown), default=0))

    def minimumSize(self) -> QSize:
        shown = [item.minimumSize() for item in self._items if not item.isEmpty()]
        return QSize(max((s.width() for s in shown), default=0), max((s.height() for s in shown), default=0))

    def setGeometry(self, rect: QRect) -> None:
        super().setGeometry(rect)
        self._lay(rect, move=True)

    def _lay(self, rect: QRect, *, move: bool) -> int:
        gap, line_gap = px(self._gap), px(self._line_gap)
        x, y = rect.x(), rect.y()
        line: list[tuple[QLayoutItem, int, QSize]] = []
        tall = 0

        def close() -> None:
            if move:
                for item, left, size in line:
                    top = y + (tall - size.height()) // 2
                    item.setGeometry(QRect(QPoint(left, top), size))

        for item in self._items:
            if item.isEmpty():
                continue
            size = item.sizeHint().boundedTo(QSize(max(rect.width(), 1), 1 << 20))
            size = size.expandedTo(item.minimumSize())
            if line and x + size.width() > rect.right() + 1:
                close()
                x, y, tall, line = rect.x(), y + tall + line_gap, 0, []
            line.append((item, x, size))
            x += size.width() + gap
            tall = max(tall, size.height())
        close()
        return y + tall - rect.y()
