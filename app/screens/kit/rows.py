"""Models of tables: all rows at hand, or all ids at hand and the rows fetched by pages as they are seen."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import OrderedDict
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt

from app.screens.kit.cells import Cell, Column, Group, Row

ROW = Qt.ItemDataRole.UserRole + 1  # the Row or Group; None while its page is on the way
CELL = Qt.ItemDataRole.UserRole + 2

Index = QModelIndex | QPersistentModelIndex
MARKED = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
PAGE = 64
KEPT_PAGES = 40

Fetch = Callable[[Sequence[Any]], Mapping[Any, Row]]
Deliver = Callable[[Mapping[Any, Row]], None]


class RowsModel(QAbstractTableModel):
    """Rows and groups in order, all at hand."""

    def __init__(self, columns: Sequence[Column], rows: Sequence[Row | Group] = ()) -> None:
        super().__init__()
        self.columns = tuple(columns)
        self._rows: list[Row | Group] = list(rows)

    def set_rows(self, rows: Iterable[Row | Group]) -> None:
        """Show other rows."""
        self.beginResetModel()
        self._rows = list(rows)
        self.endResetModel()

    def row_at(self, row: int) -> Row | Group | None:
        """The row or group at a place."""
        return self._rows[row]

    def known(self) -> Iterable[tuple[int, Row | Group]]:
        """The rows that are at hand, with their places."""
        return enumerate(self._rows)

    def groups(self) -> Iterable[tuple[int, Group]]:
        """The groups with their places."""
        return ((i, row) for i, row in enumerate(self._rows) if isinstance(row, Group))

    def place_of(self, key: Any) -> int:
        """The place of a row by its key; -1 when it is not there."""
        return next((i for i, row in enumerate(self._rows) if isinstance(row, Row) and row.key == key), -1)

    def rowCount(self, parent: Index = QModelIndex()) -> int:
        return 0 if parent.isValid() else len(self._rows)

    def columnCount(self, parent: Index = QModelIndex()) -> int:
        return 0 if parent.isValid() else len(self.columns)

    def flags(self, index: Index) -> Qt.ItemFlag:
        if not index.isValid() or isinstance(self.row_at(index.row()), Group):
            return Qt.ItemFlag.NoItemFlags
        return MARKED

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> Any:
        if orientation == Qt.Orientation.Horizontal and 0 <= section < len(self.columns):
            if role == Qt.ItemDataRole.DisplayRole:
                return self.columns[section].title
            if role == Qt.ItemDataRole.ToolTipRole:
                return self.columns[section].tip or None
        return None

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if not index.isValid():
            return None
        row = self.row_at(index.row())
        if role == ROW:
            return row
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole):
            return _plain(row, index.column())
        if role == CELL and isinstance(row, Row):
            return _cell(row, index.column())
        return None


def _cell(row: Row, column: int) -> Cell:
    return row.cells[column] if column < len(row.cells) else None


def _plain(row: Row | Group | None, column: int) -> str:
    if row is None:
        return ""
    if isinstance(row, Group):
        return f"{row.word} {row.second}".strip() if column == 0 else ""
    if row.rest and column == row.rest_from:
        return row.rest
    cell = _cell(row, column)
    return cell.plain if cell is not None else ""


class PagedModel(RowsModel):
    """All ids at hand, rows by pages of 64: a true scroll bar over 100,000 rows and only what is seen loaded.

    ``fetch(ids)`` gives the rows by id at once; or ``ask(ids, deliver)`` has them fetched elsewhere and calls
    ``deliver(rows)`` in the window's thread; until then the cells are empty. ``groups`` are pairs of the number of
    rows before it and the group.
    """

    def __init__(
        self,
        columns: Sequence[Column],
        *,
        fetch: Fetch | None = None,
        ask: Callable[[Sequence[Any], Deliver], object] | None = None,
    ) -> None:
        super().__init__(columns)
        self._fetch, self._ask = fetch, ask
        self._ids: Sequence[Any] = ()
        self._groups: list[Group] = []
        self._group_rows: list[int] = []  # places of the groups among all rows
        self._pages: OrderedDict[int, list[Row | None]] = OrderedDict()
        self._asked: set[int] = set()
        self._turn = 0

    def set_ids(self, ids: Sequence[Any], groups: Sequence[tuple[int, Group]] = ()) -> None:
        """Show other rows, in this order."""
        self.beginResetModel()
        self._ids = ids
        self._groups = [group for _, group in groups]
        self._group_rows = [before + i for i, (before, _) in enumerate(groups)]
        self._pages.clear()
        self._asked.clear()
        self._turn += 1
        self.endResetModel()

    def ids(self) -> Sequence[Any]:
        """All ids in order."""
        return self._ids

    def forget(self, ids: Iterable[Any] | None = None) -> None:
        """Rows have changed: fetch them anew when they are seen (all of them without ``ids``)."""
        self._turn += 1
        self._asked.clear()
        if ids is None:
            self._pages.clear()
        else:
            gone = set(ids)
            for page in [n for n in self._pages if gone & set(self._page_ids(n))]:
                del self._pages[page]
        if self.rowCount():
            self.dataChanged.emit(self.index(0, 0), self.index(self.rowCount() - 1, len(self.columns) - 1))

    def rowCount(self, parent: Index = QModelIndex()) -> int:
        return 0 if parent.isValid() else len(self._ids) + len(self._groups)

    def row_at(self, row: int) -> Row | Group | None:
        at = bisect_left(self._group_rows, row)
        if at < len(self._group_rows) and self._group_rows[at] == row:
            return self._groups[at]
        number = row - at
        page = self._page(number // PAGE)
        return page[number % PAGE] if page is not None else None

    def flags(self, index: Index) -> Qt.ItemFlag:
        if not index.isValid():
            return Qt.ItemFlag.NoItemFlags
        at = bisect_left(self._group_rows, index.row())
        if at < len(self._group_rows) and self._group_rows[at] == index.row():
            return Qt.ItemFlag.NoItemFlags
        return MARKED

    def known(self) -> Iterable[tuple[int, Row | Group]]:
        for number, page in self._pages.items():
            for i, row in enumerate(page):
                if row is not None:
                    yield self._place(number * PAGE + i), row

    def groups(self) -> Iterable[tuple[int, Group]]:
        return zip(self._group_rows, self._groups, strict=True)

    def place_of(self, key: Any) -> int:
        try:
            return self._place(self._ids.index(key))
        except ValueError:
            return -1

    def key_at(self, row: int) -> Any:
        """The id at a place without fetching its row; None at a group."""
        at = bisect_left(self._group_rows, row)
        if at < len(self._group_rows) and self._group_rows[at] == row:
            return None
        return self._ids[row - at]

    def _place(self, number: int) -> int:
        place = number
        while (shifted := number + bisect_right(self._group_rows, place)) != place:
            place = shifted
        return place

    def _page_ids(self, page: int) -> Sequence[Any]:
        return self._ids[page * PAGE : (page + 1) * PAGE]

    def _page(self, number: int) -> list[Row | None] | None:
        page = self._pages.get(number)
        if page is not None:
            self._pages.move_to_end(number)
            return page
        ids = self._page_ids(number)
        if self._fetch is not None:
            return self._keep(number, ids, self._fetch(ids))
        if self._ask is not None and number not in self._asked:
            self._asked.add(number)
            turn = self._turn
            self._ask(ids, lambda rows: self._arrived(turn, number, ids, rows))
        return self._pages.get(number)

    def _keep(self, number: int, ids: Sequence[Any], rows: Mapping[Any, Row]) -> list[Row | None]:
        page = [rows.get(key) for key in ids]
        self._pages[number] = page
        while len(self._pages) > KEPT_PAGES:
            old, _ = self._pages.popitem(last=False)
            self._asked.discard(old)
        return page

    def _arrived(self, turn: int, number: int, ids: Sequence[Any], rows: Mapping[Any, Row]) -> None:
        if turn != self._turn:
            return  # the list has changed since
        self._keep(number, ids, rows)
        first, last = self._place(number * PAGE), self._place(number * PAGE + len(ids) - 1)
        self.dataChanged.emit(self.index(first, 0), self.index(last, len(self.columns) - 1))
