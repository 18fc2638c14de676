"""The cells of a table in words and figures of one language, and the whole of it as plain text."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from decimal import ROUND_HALF_UP, Decimal

from app.trade.money import Money
from app.trade.sentence import Measure, Sentence, Value
from app.trade.statistics.comeback_rates import per_cent, shown_p
from app.trade.statistics.table import Column, Shape, Table
from app.trade.upkeep.csv_text import Mark, safe_text, sheet_text
from app.trade.wording import GLUE, MINUS, NARROW, Wording

MONTH = "LLLL y"
PLACES = 2  # of a number that is not exact


def cell_words(column: Column, cell: Value | float | None, wording: Wording) -> str:
    """One cell as people read it; empty for none."""
    if cell is None:
        return ""
    match column.shape:
        case Shape.COUNT:
            assert isinstance(cell, int)
            return wording.number(Decimal(cell), grouped=True)
        case Shape.SHARE:
            assert isinstance(cell, float | int)
            return wording.measure(per_cent(float(cell), 1))
        case Shape.P:
            assert isinstance(cell, float | int)
            return wording.value(shown_p(float(cell)))
        case Shape.MONTH:
            assert isinstance(cell, date)
            return wording.day(cell, MONTH)
    if isinstance(cell, float):
        return wording.number(_rounded(cell))
    return wording.value(cell)


def _rounded(number: float) -> Decimal:
    return Decimal(repr(number)).quantize(Decimal(1).scaleb(-PLACES), rounding=ROUND_HALF_UP)


def tab_separated(tables: Iterable[Table], wording: Wording) -> str:
    """Tables as text to be pasted into a sheet: cells apart by tabs, an empty line between tables.

    Text that a sheet would run as a formula gets an apostrophe, and numbers have a plain minus and no thin spaces.
    """
    blocks = []
    for table in tables:
        rows = [[wording(table.title)], [wording(column.name) for column in table.columns]]
        rows += [
            [_pasted(column, cell, wording) for column, cell in zip(table.columns, line.cells, strict=True)]
            for line in table.lines
        ]
        blocks.append("\n".join("\t".join(row) for row in rows))
    return "\n\n".join(blocks) + "\n" if blocks else ""


def _pasted(column: Column, cell: Value | float | None, wording: Wording) -> str:
    text = " ".join(cell_words(column, cell, wording).replace(NARROW, "").replace(GLUE, " ").split())
    if isinstance(cell, str | Sentence):
        return safe_text(text)
    return text.replace(MINUS, "-")


def csv_sheet(tables: Iterable[Table], wording: Wording, mark: Mark) -> str:
    """Tables for a file that a spreadsheet opens: numbers whole and by type, their units beside them, an empty line and
    the title between two.

    Empty for no table.
    """
    every = tuple(tables)
    if not every:
        return ""
    first, *rest = every
    heads, rows = _csv_rows(first, wording)
    for table in rest:
        own_heads, own_rows = _csv_rows(table, wording)
        rows += [(), (wording(table.title),), tuple(own_heads), *own_rows]
    return sheet_text(heads, rows, mark)


def _csv_rows(table: Table, wording: Wording) -> tuple[list[str], list[tuple[object, ...]]]:
    """The heads and the cells. A unit that all numbers of a column share stands in its head; of several, each stands in
    a column of its own behind the number."""
    heads = []
    columns: list[list[object]] = []
    for at, column in enumerate(table.columns):
        cells = [line.cells[at] for line in table.lines]
        units = [_unit(cell) for cell in cells]
        name, there = wording(column.name), sorted({unit for unit in units if unit})
        alone = len(there) == 1
        heads.append(wording("{quantity} in {unit}", quantity=name, unit=there[0]) if alone else name)
        columns.append([_kept(cell, wording) for cell in cells])
        if len(there) > 1:
            heads.append(wording("Unit"))
            columns.append([*units])
    return heads, [*zip(*columns, strict=True)]


def _unit(cell: Value | float | None) -> str:
    match cell:
        case Measure():
            return cell.unit
        case Money():
            return cell.currency
    return ""


def _kept(cell: Value | float | None, wording: Wording) -> object:
    match cell:
        case float():
            return Decimal(repr(cell))
        case Measure():
            return cell.value
        case Money():
            return cell.amount
        case Sentence():
            return wording(cell)
        case tuple():
            return wording.value(cell)
    return cell
