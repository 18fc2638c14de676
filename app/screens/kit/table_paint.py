"""How a table looks: header words over one rule, hairlines, the marked row with its accent bar."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtCore import (
    QEvent,
    QModelIndex,
    QPersistentModelIndex,
    QPointF,
    QRect,
    QRectF,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import QHelpEvent, QMouseEvent, QPainter
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QToolTip,
)

from app.screens.kit import measure
from app.screens.kit.cell_paint import SECOND_GAP, Fonts, draw, natural_width
from app.screens.kit.cells import Column, Group, Link, Row
from app.screens.kit.measure import px
from app.screens.kit.palette import ink
from app.screens.kit.rows import CELL, ROW, RowsModel
from app.screens.kit.shapes import flag_shape
from app.screens.kit.strokes import LEFT, RIGHT, box, chevron, hline, words
from app.screens.kit.tips import plain_tip

if TYPE_CHECKING:
    from app.screens.kit.table import Table

PADDING = 9
Index = QModelIndex | QPersistentModelIndex


class CellPainter(QStyledItemDelegate):
    """Paints one cell after the other; knows the table for what has left and where the marks stand."""

    def __init__(self, table: Table) -> None:
        super().__init__(table)
        self._table = table

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        return QSize(px(60), px(27))

    def paint(self, p: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        row = index.data(ROW)
        rect = QRect(option.rect)
        p.save()
        p.setClipRect(rect)
        fonts = Fonts.now()
        if isinstance(row, Group):
            self._group(p, rect, row, fonts)
            p.restore()
            return
        marked = bool(option.state & QStyle.StateFlag.State_Selected)
        first = self._first_column()
        if marked:
            p.fillRect(rect, ink("tint"))
            if index.column() == first:
                p.fillRect(QRect(rect.left(), rect.top(), px(3), rect.height()), ink("accent"))
        hline(p, rect.left(), rect.right() + 1, rect.bottom(), "line")
        if isinstance(row, Row):
            self._cell(p, rect, row, index, fonts)
            if marked and isinstance(index.data(CELL), Link) and self._focused(index):
                box(p, rect.adjusted(2, 2, -2, -2), border="accent", width=2)
        p.restore()

    def _cell(self, p: QPainter, rect: QRect, row: Row, index: Index, fonts: Fonts) -> None:
        room = QRectF(rect.adjusted(px(PADDING), 0, -px(PADDING), -1))
        column = index.column()
        key = self._column(column).key
        hidden = self._table.hidden
        if row.rest and column == row.rest_from:
            words(p, room, row.rest, font=fonts.body, of="soft")
            return
        if row.tail and column == self._last_column():
            wide = measure.width(row.tail, fonts.strong)
            p.setClipping(False)
            words(
                p,
                QRectF(room.right() - wide, room.top(), wide, room.height()),
                row.tail,
                font=fonts.strong,
                align=RIGHT,
                elide=False,
            )
            return
        cell = row.cells[column] if column < len(row.cells) else None
        if self._column(column).right and not getattr(cell, "right", True):
            from dataclasses import replace

            cell = replace(cell, right=True)  # type: ignore[type-var]
        draw(
            p,
            room,
            cell,
            fonts,
            mark_room=self._table.mark_rooms.get(column, 0),
            struck=row.struck,
            second=key not in hidden.seconds,
            word=key not in hidden.words,
        )

    def _group(self, p: QPainter, rect: QRect, group: Group, fonts: Fonts) -> None:
        room = QRectF(rect.adjusted(px(PADDING), px(4), -px(PADDING), -1))
        x = room.left()
        role = "text"
        if group.level:
            side = px(14)
            flag_shape(p, QRectF(x, room.center().y() - side / 2, side, side), group.level)
            x += px(20)
            role = group.level
        taken = words(
            p, QRectF(x, room.top(), room.right() - x, room.height()), group.word, font=fonts.strong, of=role
        )
        x += taken + px(SECOND_GAP + 2)
        words(
            p,
            QRectF(x, room.top(), room.right() - x, room.height()),
            group.second,
            font=fonts.body,
            of="soft",
        )
        hline(p, rect.left(), rect.right() + 1, rect.bottom(), "line")

    def _focused(self, index: Index) -> bool:
        return self._table.hasFocus() and self._table.currentIndex() == index

    def _column(self, index: int) -> Column:
        return self._table.rows_model().columns[index]

    def _first_column(self) -> int:
        return next(
            (i for i in range(len(self._table.rows_model().columns)) if not self._table.isColumnHidden(i)), 0
        )

    def _last_column(self) -> int:
        count = len(self._table.rows_model().columns)
        return next((i for i in range(count - 1, -1, -1) if not self._table.isColumnHidden(i)), 0)

    def helpEvent(
        self, event: QHelpEvent, view: QAbstractItemView, option: QStyleOptionViewItem, index: Index
    ) -> bool:
        if event.type() != QEvent.Type.ToolTip:
            return super().helpEvent(event, view, option, index)
        QToolTip.showText(event.globalPos(), plain_tip(self.tip(index)), view)
        return True

    def tip(self, index: Index) -> str:
        """The long form of a cell, or its whole text where it does not fit."""
        cell: Any = index.data(CELL)
        if cell is None:
            return ""
        if getattr(cell, "tip", ""):
            return str(cell.tip)
        room = self._table.columnWidth(index.column()) - 2 * px(PADDING)
        return str(cell.plain) if natural_width(cell) > room else ""


class TableHeader(QHeaderView):
    """Soft words, no fill, one edge-coloured rule below; the sorted column heavier with a chevron."""

    asked = Signal(int)

    def __init__(self, table: Table) -> None:
        super().__init__(Qt.Orientation.Horizontal, table)
        self._table = table
        self.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.setMinimumSectionSize(1)
        self.setHighlightSections(False)
        self.setSectionsClickable(True)
        self.sectionClicked.connect(self._clicked)
        self.viewport().setAutoFillBackground(False)

    def _columns(self) -> tuple[Column, ...]:
        model = self.model()
        return model.columns if isinstance(model, RowsModel) else ()

    def _clicked(self, section: int) -> None:
        if self._columns()[section].sorts:
            self.asked.emit(section)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        section = self.logicalIndexAt(event.position().toPoint())
        sorts = 0 <= section < len(self._columns()) and self._columns()[section].sorts
        self.setCursor(Qt.CursorShape.PointingHandCursor if sorts else Qt.CursorShape.ArrowCursor)
        super().mouseMoveEvent(event)

    def paintSection(self, p: QPainter, rect: QRect, section: int) -> None:
        column = self._columns()[section]
        p.save()
        hline(p, rect.left(), rect.right() + 1, rect.bottom(), "edge")
        room = QRectF(rect.adjusted(px(PADDING), 0, -px(PADDING), -px(2)))
        if column.header is not None:
            column.header(p, room)
            p.restore()
            return
        sorting = self._table.sorting
        chosen = bool(sorting.key) and sorting.key == column.key
        font = measure.strong() if chosen else measure.body()
        align = RIGHT if column.right or column.number else LEFT
        title = column.title
        if column.short and measure.width(title, font) > room.width():
            title = column.short
        taken = words(p, room, title, font=font, of="text" if chosen else "soft", align=align)
        if chosen:
            chevron(p, QPointF(room.left() + taken + px(11), room.center().y()), up=not sorting.descending)
        p.restore()
