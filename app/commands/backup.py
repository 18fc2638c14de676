"""``backup``: a checked copy of the book, also while a window is at work on it."""

from __future__ import annotations

from argparse import ArgumentParser
from pathlib import Path

from app.commands.command import DONE, Surroundings
from app.trade.sentence import words
from app.trade.wording import Wording
from app.work.shop_book import peek_shop
from app.work.upkeep.copies import back_up_now

HELP = words("make a checked copy of the book")
ABOUT = words(
    "Makes a copy of the book with its photos and papers, opens it, checks it from end to end, and only then "
    "gives it its name. The window may be open meanwhile. Copies made by hand are never thinned."
)


def arguments(parser: ArgumentParser, wording: Wording) -> None:
    """Declare what the command takes."""
    parser.add_argument(
        "--to",
        type=Path,
        metavar=wording("FOLDER"),
        help=wording("where the copy goes; without it, the folder of copies beside the book"),
    )


def run(around: Surroundings) -> int:
    """Make the copy and say what is in it."""
    wording = around.wording
    book = peek_shop(around.book, clock=around.clock)
    try:
        copy = back_up_now(book, around.asked.to)
    finally:
        book.close()
    around.tell(
        wording(
            "Copied and checked: {jobs} jobs, {rows} rows of history, in {path}",
            jobs=copy.jobs,
            rows=copy.history_rows,
            path=str(copy.path),
        )
    )
    if copy.files_lacking:
        around.tell(
            wording(
                "{count} files of the book are missing and could not be copied. “check” names them.",
                count=copy.files_lacking,
            )
        )
    return DONE
