"""Tables: rows of typed cells, a marked row, group rows, columns that leave when it gets narrow."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from PySide6.QtCore import QEvent, QModelIndex, QPersistentModelIndex, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QFrame, QHeaderView, QTableView, QWidget

from app.screens.kit import cell_paint, measure
from app.screens.kit.cells import Column, Figure, Group, Hidden, Leave, Link, Row, Sorting
from app.screens.kit.measure import px
from app.screens.kit.rows import CELL, PagedModel, RowsModel
from app.screens.kit.scrolling import ScrollBar
from app.screens.kit.table_paint import CellPainter, TableHeader

LIST_ROW, SHEET_ROW, GROUP_ROW, HEADER = 29, 27, 32, 28
PADDING = 9

_KEY = Qt.Key


class Table(QTableView):
    """Shows a `RowsModel` or `PagedModel`. Put it so that it sticks out of the text by u on both sides.

    ``leaving`` are the steps when it gets narrow, in order. Enter or a double click emits `opened` with the key of
    the row; a click or Enter on a link emits `link_opened` with its target; `sort_asked` wants the
    rows in another order; `marked` follows the marked row.
    """

    opened = Signal(object)
    link_opened = Signal(object)
    sort_asked = Signal(str, bool)
    marked = Signal(object)

    def __init__(
        self,
        name: str,
        model: RowsModel,
        *,
        leaving: Sequence[Leave] = (),
        row_height: float = LIST_ROW,
        opens: bool = True,
        header: bool = True,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.opens = opens
        self.hidden = Hidden()
        self.mark_rooms: dict[int, int] = {}
        self.sorting = Sorting()
        self.overflows = False  # wider than there is room even after everything has left
        self._leaving = tuple(leaving)
        self._row_height = row_height
        self._spans: list[int] = []
        self._wants: dict[str, int] | None = None  # of the rows and the text size as they are
        self._laid_in = -1  # px that the columns were last shared out in
        self.setAccessibleName(name)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setShowGrid(False)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBar(ScrollBar(Qt.Orientation.Horizontal, self))
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setVerticalScrollBar(ScrollBar(Qt.Orientation.Vertical, self))
        self.setTabKeyNavigation(False)
        self.setMouseTracking(True)
        self.setWordWrap(False)
        head = TableHeader(self)
        self.setHorizontalHeader(head)
        head.asked.connect(self._ask_sort)
        head.setVisible(header)
        self.verticalHeader().hide()
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.setItemDelegate(CellPainter(self))
        self.doubleClicked.connect(lambda index: self._open(index))
        self.clicked.connect(self._clicked)
        self.setModel(model)
        self.refit()

    def rows_model(self) -> RowsModel:
        """The model it shows."""
        model = self.model()
        assert isinstance(model, RowsModel)
        return model

    def setModel(self, model: Any) -> None:
        super().setModel(model)
        model.modelReset.connect(self._lay_rows)
        model.dataChanged.connect(lambda *_: self._lay_columns(anew=True))
        self.selectionModel().currentRowChanged.connect(self._marked)

    def refit(self) -> None:
        head = self.verticalHeader()
        head.setMinimumSectionSize(1)  # a larger least size would hold rows back when the text gets smaller
        head.setDefaultSectionSize(px(self._row_height))
        self.horizontalHeader().setFixedHeight(px(HEADER))
        self._lay_rows()

    # what is marked

    def mark(self, key: Any) -> bool:
        """Mark the row with ``key`` and bring it into sight; False when it is not there."""
        place = self.rows_model().place_of(key)
        if place < 0:
            return False
        self.setCurrentIndex(self.model().index(place, max(self.currentIndex().column(), 0)))
        return True

    def marked_key(self) -> Any:
        """The key of the marked row, or None."""
        return self._key(self.currentIndex())

    def mark_first(self) -> None:
        """Mark the first row where none is."""
        if self.currentIndex().isValid():
            return
        model = self.rows_model()
        for place in range(min(model.rowCount(), 3)):
            if model.flags(model.index(place, 0)) & Qt.ItemFlag.ItemIsSelectable:
                self.setCurrentIndex(model.index(place, 0))
                return

    def _key(self, index: QModelIndex | QPersistentModelIndex) -> Any:
        if not index.isValid():
            return None
        model = self.rows_model()
        if isinstance(model, PagedModel):
            return model.key_at(index.row())
        row = model.row_at(index.row())
        return row.key if isinstance(row, Row) else None

    def _marked(self, now: QModelIndex) -> None:
        self.marked.emit(self._key(now))

    # opening

    def _open(self, index: QModelIndex) -> None:
        cell = index.data(CELL)
        if isinstance(cell, Link):
            self.link_opened.emit(cell.target)
        elif self.opens and (key := self._key(index)) is not None:
            self.opened.emit(key)

    def _clicked(self, index: QModelIndex) -> None:
        if isinstance(index.data(CELL), Link):
            self._open(index)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        mods = event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        key = event.key()
        if key in (_KEY.Key_Return, _KEY.Key_Enter) and not mods and self.currentIndex().isValid():
            self._open(self.currentIndex())
            return
        if mods == Qt.KeyboardModifier.ControlModifier and self._sort_key(key):
            return
        if key in (_KEY.Key_Left, _KEY.Key_Right) and not mods and not self._has_links():
            event.ignore()
            return
        super().keyPressEvent(event)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        over = isinstance(self.indexAt(event.position().toPoint()).data(CELL), Link)
        shape = Qt.CursorShape.PointingHandCursor if over else Qt.CursorShape.ArrowCursor
        self.viewport().setCursor(shape)
        super().mouseMoveEvent(event)

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.FocusIn:
            self.mark_first()
        return super().event(event)

    def _has_links(self) -> bool:
        row = self.currentIndex().row()
        model = self.model()
        return any(isinstance(model.index(row, c).data(CELL), Link) for c in range(model.columnCount()))

    # sorting

    def set_sorting(self, key: str, descending: bool = False) -> None:
        """Show in the header by which column the rows are sorted."""
        self.sorting = Sorting(key, descending)
        self.horizontalHeader().viewport().update()

    def _ask_sort(self, column: int) -> None:
        key = self.rows_model().columns[column].key
        self.sort_asked.emit(key, self.sorting.key == key and not self.sorting.descending)

    def _sort_key(self, key: int) -> bool:
        """Ctrl+Left and Right choose the sorted column, Ctrl+Up and Down the direction."""
        sortable = [c.key for c in self.rows_model().columns if c.sorts and c.key not in self.hidden.columns]
        if not sortable:
            return False
        at = sortable.index(self.sorting.key) if self.sorting.key in sortable else -1
        if key in (_KEY.Key_Left, _KEY.Key_Right):
            step = 1 if key == _KEY.Key_Right else -1
            self.sort_asked.emit(sortable[(at + step) % len(sortable)], False)
        elif key in (_KEY.Key_Up, _KEY.Key_Down) and at >= 0:
            self.sort_asked.emit(sortable[at], key == _KEY.Key_Down)
        else:
            return False
        return True

    # laying out

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._lay_columns()

    def _lay_rows(self) -> None:
        if self._spans:
            self.clearSpans()
        self._spans = []
        head = self.verticalHeader()
        model = self.rows_model()
        count = model.columnCount()
        for place, group in model.groups():
            assert isinstance(group, Group)
            head.resizeSection(place, px(GROUP_ROW))
            if count > 1:
                self.setSpan(place, 0, 1, count)
            self._spans.append(place)
        if not isinstance(model, PagedModel):
            for place, row in model.known():
                if isinstance(row, Row) and row.rest and count - row.rest_from > 1:
                    self.setSpan(place, row.rest_from, 1, count - row.rest_from)
                    self._spans.append(place)
        self._lay_columns(anew=True)
        self.updateGeometry()

    def _lay_columns(self, *, anew: bool = False) -> None:
        """Share out the width; ``anew`` when what the columns hold has changed."""
        model = self.rows_model()
        columns = model.columns
        if anew or self._wants is None:
            self._measure_marks(model)
            self._wants = {c.key: self._wanted(i, c) for i, c in enumerate(columns)}
        elif self._laid_in == self.viewport().width():
            return
        widths = dict(self._wants)
        room = self._laid_in = self.viewport().width()
        hidden = Hidden()
        for step in self._leaving:
            if sum(widths.values()) <= room:
                break
            self._take_leave(step, widths, hidden)
        self.hidden = hidden
        growing = [c.key for c in columns if not c.width and c.key not in hidden.columns]
        spare = room - sum(widths.values())
        if not growing and (left := [c.key for c in columns if c.key not in hidden.columns]):
            widths[left[-1]] += max(spare, 0)  # the rules run to the edge
        for i, key in enumerate(growing):
            share = spare // (len(growing) - i)
            widths[key] = max(widths[key] + share, px(40))
            spare -= share
        for i, c in enumerate(columns):
            if self.isColumnHidden(i) != (c.key in hidden.columns):
                self.setColumnHidden(i, c.key in hidden.columns)
            if c.key not in hidden.columns and self.columnWidth(i) != widths[c.key]:
                self.setColumnWidth(i, widths[c.key])
        if self.overflows != (overflows := sum(widths.values()) > room):
            self.overflows = overflows
            self.updateGeometry()

    def _take_leave(self, step: Leave, widths: dict[str, int], hidden: Hidden) -> None:
        if step.part == "column":
            hidden.columns.add(step.key)
            widths[step.key] = 0
            return
        (hidden.seconds if step.part == "second" else hidden.words).add(step.key)
        widths[step.key] = max(widths[step.key] - px(step.saves), px(40))

    def _wanted(self, index: int, column: Column) -> int:
        if not column.width:
            return px(column.least)
        wide = px(column.width)
        if not column.short:  # a title in a longer language needs its room too
            wide = max(wide, measure.width(column.title, measure.strong()) + 2 * px(PADDING))
        if column.number:
            for _, row in self.rows_model().known():
                if isinstance(row, Row) and index < len(row.cells):
                    cell = row.cells[index]
                    if isinstance(cell, Figure):
                        wide = max(wide, self._figure_width(index, cell) + 2 * px(PADDING))
        return wide

    def _figure_width(self, index: int, cell: Figure) -> int:
        whole, _ = cell_paint.split_at_mark(cell.text)
        unit = measure.width(cell.unit) + px(5) if cell.unit else 0
        return measure.width(whole, measure.strong()) + self.mark_rooms.get(index, 0) + unit

    def _measure_marks(self, model: RowsModel) -> None:
        for i, column in enumerate(model.columns):
            if not column.number:
                continue
            if column.fraction is not None:
                room = measure.width("." + "0" * column.fraction, measure.strong()) if column.fraction else 0
            else:
                cells = (r.cells[i] for _, r in model.known() if isinstance(r, Row) and i < len(r.cells))
                room = max(
                    (cell_paint.fraction_width(c.text) for c in cells if isinstance(c, Figure)), default=0
                )
            self.mark_rooms[i] = room


class SmallTable(Table):
    """A short table of records on a sheet: as tall as its rows, without a scroll bar of its own."""

    def __init__(
        self,
        name: str,
        columns: Sequence[Column],
        rows: Sequence[Row | Group] = (),
        *,
        leaving: Sequence[Leave] = (),
        row_height: float = SHEET_ROW,
        opens: bool = False,
        header: bool = True,
        opened: Callable[[Any], object] | None = None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(
            name,
            RowsModel(columns, rows),
            leaving=leaving,
            row_height=row_height,
            opens=opens or opened is not None,
            header=header,
            parent=parent,
        )
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        policy = self.sizePolicy()
        policy.setVerticalPolicy(policy.Policy.Fixed)
        self.setSizePolicy(policy)
        if opened is not None:
            self.opened.connect(opened)

    def set_rows(self, rows: Sequence[Row | Group]) -> None:
        """Show other rows; the marked one stays marked when it is still there."""
        key = self.marked_key()
        self.rows_model().set_rows(rows)
        if key is not None:
            self.mark(key)

    def sizeHint(self) -> QSize:
        head = px(HEADER) if not self.horizontalHeader().isHidden() else 0
        bar = px(12) if self.overflows else 0
        return QSize(px(400), head + self.verticalHeader().length() + bar)

    def minimumSizeHint(self) -> QSize:
        return QSize(px(120), self.sizeHint().height())

    def wheelEvent(self, event: Any) -> None:
        event.ignore()  # the sheet scrolls
