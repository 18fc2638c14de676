"""The tables of an answer on the screen: numbers as the language writes them, on their decimal mark."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit import cells as kit
from app.screens.kit import measure
from app.screens.kit.boxes import Column, clear_layout
from app.screens.kit.label import Label
from app.screens.kit.table import PADDING, SmallTable
from app.screens.language import current, say
from app.screens.office.link_line import inset
from app.trade.money import Money
from app.trade.sentence import Measure, Value
from app.trade.statistics import table as facts
from app.trade.statistics.comeback_rates import FEWEST
from app.trade.statistics.table import Line, Shape, Table
from app.trade.statistics.table_words import cell_words
from app.trade.wording import GLUE

MOST_WORDS = 240  # px of a column of words, for L = 18
MOST_LINES = 100  # of one table on the page; files and the clipboard have them all
_WIDTHS = {
    Shape.COUNT: 68,
    Shape.SHARE: 76,
    Shape.NUMBER: 84,
    Shape.P: 84,
    Shape.DAY: 116,
    Shape.MONTH: 130,
    Shape.MONEY: 116,
    Shape.WORDS: 60,
}
_ON_THE_MARK = (Shape.SHARE, Shape.NUMBER, Shape.MONEY)
_AT_RIGHT = (Shape.COUNT, Shape.P)


class FigureTables(QWidget):
    """Tables one below the other, each with its title. ``marked`` and ``opened`` bring the `Line`."""

    marked = Signal(object)
    opened = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.tables: list[SmallTable] = []
        self._shown: tuple[Table, ...] = ()
        self._column = Column(self, gap=18)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)

    def show_tables(self, shown: Sequence[Table]) -> None:
        """Show these; tables that have the same columns as before keep their place and their marked line."""
        same = [t.columns for t in shown] == [t.columns for t in self._shown]
        if same:
            self._shown = tuple(shown)
            for view, table in zip(self.tables, shown, strict=True):
                view.rows_model().columns = columns_of(table)
                view.set_rows(rows_of(table))
            return
        self.tables = []  # what goes may still tell of its marks
        clear_layout(self._column)
        self._shown = tuple(shown)
        for table in shown:
            self._add(table)

    def _add(self, table: Table) -> None:
        title = say(table.title)
        view = SmallTable(title, columns_of(table), rows_of(table), leaving=leaving_of(table), opens=True)
        view.marked.connect(lambda key: self._tell(self.marked, view, key))
        view.opened.connect(lambda key: self._tell(self.opened, view, key))
        view.clicked.connect(lambda _: self._tell(self.marked, view, view.marked_key()))
        self.tables.append(view)
        part = QWidget()
        column = Column(part, gap=2)
        column.addLayout(inset(Label(title, "strong", wrap=True)))
        column.add(view)
        if (more := len(table.lines) - MOST_LINES) > 0:
            rest = say("{n} more stand in the file and on the clipboard.", n=more)
            column.addLayout(inset(Label(rest, "soft", wrap=True)))
        self._column.add(part)

    def _tell(self, signal: Any, view: SmallTable, key: Any) -> None:
        if view not in self.tables:  # on its way out
            return
        table = self._shown[self.tables.index(view)]
        line = next((line for line in table.lines if line.key == key), None)
        if line is not None:
            signal.emit((table, line))

    def first(self) -> QWidget:
        """The first table, where the focus goes."""
        return self.tables[0] if self.tables else self

    def mark_first(self) -> None:
        """Mark the first line of the first table where none is marked; say again which one is."""
        if self.tables:
            view = self.tables[0]
            view.mark_first()
            self._tell(self.marked, view, view.marked_key())

    def mark(self, key: str) -> bool:
        """Mark the line with this key in the first table that has one, and say so."""
        for view in self.tables:
            view.blockSignals(True)
            there = view.mark(key)
            view.blockSignals(False)
            if there:
                self._tell(self.marked, view, key)
                return True
        return False


def columns_of(table: Table) -> tuple[kit.Column, ...]:
    """The columns for the screen, words as wide as the longest of them; the first takes the room that is left."""
    return tuple(_column(at, column, table) for at, column in enumerate(table.columns))


def _column(at: int, column: facts.Column, table: Table) -> kit.Column:
    title, shape = say(column.name), column.shape
    width: float = _WIDTHS[shape]
    if shape in (Shape.WORDS, Shape.P):
        cells = [cell_words(column, line.cells[at], current()) for line in table.lines[:MOST_LINES]]
        width = max(width, room_for(cells))
    if at == 0:
        least = max(width, room_for((title,)))
        return kit.Column(column.key, title, 0, least=least, right=shape in _AT_RIGHT)
    return kit.Column(
        column.key,
        title,
        width,
        number=shape in _ON_THE_MARK,
        right=shape in _AT_RIGHT,
        tip=tip_of(column.key),
    )


def room_for(words: Iterable[str]) -> float:
    """The width of a column in which none of these words is cut, as long as they are not absurd; for L = 18."""
    longest = max((measure.width(one) for one in words), default=0) + 2 * measure.px(PADDING) + 2
    return min(max(longest * MOST_WORDS / measure.px(MOST_WORDS), 60), MOST_WORDS)


def tip_of(key: str) -> str:
    """What the head of a column means, in trade words; empty where it says so itself."""
    match key:
        case "low":
            return say("Lower end of the 95 % interval")
        case "high":
            return say("Upper end of the 95 % interval")
        case "rest":
            return say("All the other groups together")
        case "p" | "adjusted":
            return say(
                "p says how often chance alone would show a difference like this one between groups that are the "
                "same. It is adjusted, because of several groups looked at together one always looks odd. Below "
                "0.05 it is said aloud."
            )
    return ""


def leaving_of(table: Table) -> tuple[kit.Leave, ...]:
    """Which columns leave a narrow table, the least wanted first."""
    wanted = sorted((c for c in table.columns if c.least_wanted), key=lambda c: -c.least_wanted)
    return tuple(kit.Leave(column.key) for column in wanted)


def rows_of(table: Table) -> list[kit.Row]:
    """The first lines of the table."""
    return [
        kit.Row(
            line.key,
            tuple(
                _cell(at, column, cell, line)
                for at, (column, cell) in enumerate(zip(table.columns, line.cells, strict=True))
            ),
        )
        for line in table.lines[:MOST_LINES]
    ]


def _cell(at: int, column: facts.Column, cell: Value | float | None, line: Line) -> kit.Cell:
    if cell is None:
        return None
    text = cell_words(column, cell, current())
    if column.shape in _ON_THE_MARK:
        return _figure(text, cell, faint=line.faint)
    faint = line.faint and at == 0
    return kit.Words(text, soft=line.faint, right=column.shape in _AT_RIGHT, tip=_few() if faint else "")


def _figure(text: str, cell: Value | float, *, faint: bool) -> kit.Figure:
    """A number with its unit soft behind it."""
    if isinstance(cell, Measure | Money) or text.endswith("%"):
        whole, _, unit = text.rpartition(GLUE)
        return kit.Figure(whole or unit, unit if whole else "", soft=faint)
    return kit.Figure(text, soft=faint)


def _few() -> str:
    return say("Under {fewest} repairs: too few to say.", fewest=FEWEST)
