"""The foot of a form: its buttons under a rule, in more lines where large text needs the room."""

from __future__ import annotations

from PySide6.QtCore import QPoint, QRect, QSize
from PySide6.QtWidgets import QLayoutItem, QSizePolicy, QWidget

from app.screens.kit.boxes import Column, Flow
from app.screens.kit.buttons import Button
from app.screens.kit.heading import Rule
from app.screens.kit.measure import px

GAP, LINE_GAP = 9, 7


class _Ends(Flow):
    """A flow whose last things stand at the right end. Keys beside the words go before the line breaks."""

    def __init__(self, parent: QWidget, at_right: int) -> None:
        super().__init__(parent, gap=GAP, line_gap=LINE_GAP)
        self._at_right = at_right

    def _lay(self, rect: QRect, *, move: bool) -> int:
        shown = [item for item in self._items if not item.isEmpty()]
        right = sum(not item.isEmpty() for item in self._items[len(self._items) - self._at_right :])
        sizes = self._in_one_line(shown, rect.width())
        if sizes is None:
            return super()._lay(rect, move=move)
        tall = max((size.height() for size in sizes), default=0)
        x = rect.x()
        for at, (item, size) in enumerate(zip(shown, sizes, strict=True)):
            if at == len(shown) - right:
                rest = sum(one.width() for one in sizes[at:]) + px(GAP) * (len(sizes) - at - 1)
                x = max(x, rect.right() + 1 - rest)
            if move:
                item.setGeometry(QRect(QPoint(x, rect.y() + (tall - size.height()) // 2), size))
            x += size.width() + px(GAP)
        return tall

    def _in_one_line(self, shown: list[QLayoutItem], width: int) -> list[QSize] | None:
        gaps = px(GAP) * max(len(shown) - 1, 0)
        for sizes in ([item.sizeHint() for item in shown], [item.minimumSize() for item in shown]):
            if sum(size.width() for size in sizes) + gaps <= width:
                return sizes
        return None


class Foot(QWidget):
    """The main button at the left, others beside it; at the right quiet ways out."""

    def __init__(self, *buttons: Button, leave: Button | None = None, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        line = QWidget()
        ways_out = [leave] if leave is not None else []
        self._ends = _Ends(line, len(ways_out))
        self._ends.add(*buttons, *ways_out)
        column = Column(self)
        column.add(Rule(), 9, line, 18)
        for widget in (line, self):
            policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
            policy.setHeightForWidth(True)
            widget.setSizePolicy(policy)
