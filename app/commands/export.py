"""``export``: everything in open formats."""

from __future__ import annotations

from argparse import ArgumentParser
from pathlib import Path

from app.commands.command import DONE, Surroundings
from app.trade.sentence import words
from app.trade.wording import Wording
from app.work.shop_book import peek_shop

HELP = words("write everything as CSV and JSON")
ABOUT = words(
    "Writes one CSV file for each table (jobs.csv, readings.csv, history.csv and so on) and one JSON file of "
    "everything. PINs stay inside. The window may be open meanwhile."
)


def arguments(parser: ArgumentParser, wording: Wording) -> None:
    """Declare what the command takes."""
    parser.add_argument(
        "--to",
        type=Path,
        required=True,
        metavar="FOLDER",
        help=wording("where the files go; the folder is made, files of the same name are replaced"),
    )


def run(around: Surroundings) -> int:
    """Write the files and say how many."""
    from app.work.upkeep.export import export_everything  # not for those who only want the window

    book = peek_shop(around.book, clock=around.clock)
    try:
        files = export_everything(book, around.asked.to)
    finally:
        book.close()
    around.tell(
        around.wording("{count} files written to {folder}", count=len(files), folder=str(around.asked.to))
    )
    return DONE
