"""The fields of one line of a form, beside each other; what has no room goes on below."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from PySide6.QtCore import QPoint, QRect, QSize, Qt
from PySide6.QtWidgets import QLayout, QLayoutItem, QWidget

from app.screens.kit.measure import px

GAP = 9
LINE_GAP = 5
LEAST = 120  # px that something growing asks for before the line breaks


@dataclass
class _Part:
    item: QLayoutItem
    space: float
    words: bool = False  # soft words stay with the field behind them
    grows: bool = False

    def need(self) -> int:
        """Px that it asks for in its line."""
        least, wished = self.item.minimumSize().width(), self.item.sizeHint().width()
        return max(least, min(wished, px(LEAST))) if self.grows else max(least, wished)

    def height(self, width: int) -> int:
        """Px that it is high at a width."""
        if self.item.hasHeightForWidth():
            return self.item.heightForWidth(width)
        return min(max(self.item.sizeHint().height(), self.item.minimumSize().height()), self._highest())

    def _highest(self) -> int:
        return self.item.maximumSize().height()


class FormLine(QLayout):
    """Things that grow share what the others leave; where none grows, all stand at the left."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__()
        self._parts: list[_Part] = []
        # By width, until something changes: each level above asks several times.
        self._heights: dict[int, int] = {}
        self._space = 0.0
        self.setContentsMargins(0, 0, 0, 0)
        parent.setLayout(self)

    def invalidate(self) -> None:
        self._heights.clear()
        super().invalidate()

    def add_words(self, label: QWidget) -> None:
        """Soft words: they stay with the field that follows, or with the one before where none does."""
        self.addWidget(label)
        self._parts[-1].words = True

    def add_field(self, field: QWidget, *, grows: bool) -> None:
        """A field, or whatever else has its own width or grows."""
        self.addWidget(field)
        self._parts[-1].grows = grows

    def add_space(self, space: float) -> None:
        """More space before what follows."""
        self._space += space

    def addItem(self, item: QLayoutItem) -> None:
        self._heights.clear()
        self._parts.append(_Part(item, self._space))
        self._space = 0.0

    def count(self) -> int:
        return len(self._parts)

    def itemAt(self, index: int) -> QLayoutItem | None:
        return self._parts[index].item if 0 <= index < len(self._parts) else None

    def takeAt(self, index: int) -> QLayoutItem | None:
        self._heights.clear()
        return self._parts.pop(index).item if 0 <= index < len(self._parts) else None

    def expandingDirections(self) -> Qt.Orientation:
        return Qt.Orientation.Horizontal

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        if (height := self._heights.get(width)) is None:
            height = self._heights[width] = self._lay(QRect(0, 0, width, 0), move=False)
        return height

    def sizeHint(self) -> QSize:
        shown = self._shown()
        wide = sum(self._gap(at, part) + part.item.sizeHint().width() for at, part in enumerate(shown))
        return QSize(wide, max((part.item.sizeHint().height() for part in shown), default=0))

    def minimumSize(self) -> QSize:
        sizes = [part.item.minimumSize() for part in self._shown()]
        return QSize(max((s.width() for s in sizes), default=0), max((s.height() for s in sizes), default=0))

    def setGeometry(self, rect: QRect) -> None:
        super().setGeometry(rect)
        self._lay(rect, move=True)

    def _shown(self) -> list[_Part]:
        return [part for part in self._parts if not part.item.isEmpty()]

    def _gap(self, at: int, part: _Part) -> int:
        return px(part.space) + (px(GAP) if at else 0)

    def _lines(self, width: int) -> Iterator[list[_Part]]:
        line: list[_Part] = []
        taken = 0
        for unit in _units(self._shown()):
            need = sum(self._gap(at, p) + p.need() for at, p in enumerate(unit))
            if line and taken + px(GAP) + need > width:
                yield line
                line, taken = [], 0
            taken += (px(GAP) if line else 0) + need
            line += unit
        if line:
            yield line

    def _lay(self, rect: QRect, *, move: bool) -> int:
        y = rect.y()
        for line in self._lines(rect.width()):
            if y > rect.y():
                y += px(LINE_GAP)
            x, tall = rect.x(), 0
            for part, gap, width in self._widths(line, rect.width()):
                height = part.height(width)
                x += gap
                if move:
                    part.item.setGeometry(QRect(QPoint(x, y), QSize(width, height)))
                x += width
                tall = max(tall, height)
            y += tall
        return y - rect.y()

    def _widths(self, line: Sequence[_Part], width: int) -> list[tuple[_Part, int, int]]:
        """Each part with the gap before it and its width; what grows shares evenly, none below its need."""
        gaps = [self._gap(at, part) for at, part in enumerate(line)]
        needs = [part.need() for part in line]
        room = width - sum(gaps)
        growing = sorted((i for i, p in enumerate(line) if p.grows), key=lambda i: -needs[i])
        spare = room - sum(need for i, need in enumerate(needs) if i not in growing)
        for done, i in enumerate(growing):
            share = spare // (len(growing) - done)
            needs[i] = min(max(needs[i], share), line[i].item.maximumSize().width())
            spare -= needs[i]
        return [
            (part, gap, max(min(need, room), part.item.minimumSize().width()))
            for part, gap, need in zip(line, gaps, needs, strict=True)
        ]


def _units(parts: Sequence[_Part]) -> list[list[_Part]]:
    """What is never parted: words and the field behind them; words at the end and the field before them."""
    units: list[list[_Part]] = []
    open_unit = False
    for at, part in enumerate(parts):
        last_words = part.words and all(p.words for p in parts[at:])
        if units and (open_unit or last_words):
            units[-1].append(part)
        else:
            units.append([part])
        open_unit = part.words and not last_words
    return units
