"""The reorder list as a CSV file, for a supplier's order form or a spreadsheet."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import ROUND_HALF_UP, Decimal
from pathlib import Path

from app.book.disk import write_whole
from app.trade.office.amounts import shown
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.trade.upkeep.csv_text import Mark, sheet_text
from app.work.office.reorder_list import ReorderLine

COLUMNS = (
    "supplier",
    "order_code",
    "code",
    "part",
    "rating",
    "must_carry",
    "order",
    "unit",
    "on_hand",
    "on_order",
    "expected",
    "used_per_month",
    "lead_days",
    "service_percent",
    "reorder_point",
    "cost_each",
    "cost",
    "currency",
)


def save_reorder_list(
    path: Path, lines: Sequence[ReorderLine], currency: str, *, mark: Mark = Mark.POINT
) -> None:
    """Write the lines as they stand, whole or not at all. Raises Refusal where the file cannot be written."""
    text = sheet_text(COLUMNS, (_row(line, currency) for line in lines), mark)
    try:
        write_whole(path, text.encode())
    except OSError as error:
        raise Refusal(
            Sentence(
                "{path} could not be written: {why}.",
                {"path": str(path), "why": error.strerror or str(error)},
            ),
            Sentence("Look whether the folder may be written and the disk has room, then try again."),
        ) from error


def _row(line: ReorderLine, currency: str) -> tuple[object, ...]:
    part, found = line.part, line.found
    return (
        part.supplier,
        part.order_code,
        part.code,
        part.words,
        part.rating,
        part.safety_type,
        found.order,
        part.unit,
        part.on_hand,
        part.on_order,
        part.expected_on,
        found.per_month.quantize(Decimal("0.01"), rounding=ROUND_HALF_UP),
        line.lead_days,
        shown(line.service * 10_000),
        found.point,
        None if part.cost is None else shown(part.cost),
        None if line.cost is None else line.cost.amount,
        currency,
    )
