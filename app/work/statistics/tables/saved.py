"""The tables of an answer as a file for a spreadsheet."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from app.book.disk import write_whole
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.trade.statistics.table import Table
from app.trade.statistics.table_words import csv_sheet
from app.trade.upkeep.csv_text import mark_like
from app.trade.wording import Wording


def save_tables(tables: Sequence[Table], path: Path, wording: Wording) -> None:
    """Write the tables as CSV with the decimal mark of the language; a file that is there is replaced. Raises Refusal
    for a place where nothing can be written."""
    text = csv_sheet(tables, wording, mark_like(wording.decimal_mark))
    try:
        write_whole(path, text.encode())
    except OSError as error:
        raise Refusal(
            Sentence("The file {path} could not be written.", {"path": str(path)}),
            Sentence("Choose another folder, or free some space."),
        ) from error
