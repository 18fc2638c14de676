"""``paper``: one issued paper as the PDF that is filed."""

from __future__ import annotations

from argparse import ArgumentParser
from pathlib import Path

from app.commands.command import DONE, Surroundings
from app.trade.sentence import words
from app.trade.wording import Wording
from app.work.shop_book import peek_shop

HELP = words("write one issued paper as PDF")
ABOUT = words(
    "Writes the very PDF that is filed, or a picture of each page into a FILE that ends with .png. Of several, the "
    "newest. The window may be open meanwhile.\n\n"
    "by the number of the job: intake-ticket, bench-tag, service-report,\n"
    "  hand-back-receipt, uncollected-notice, returned-unsafe, modified-label\n"
    "by the number of the invoice: invoice, reminder\n"
    "by the number printed on it: estimate, credit-note, receipt"
)


def arguments(parser: ArgumentParser, wording: Wording) -> None:
    """Declare what the command takes."""
    parser.add_argument(
        "kind", metavar=wording("KIND"), help=wording("which paper: invoice, service-report and so on")
    )
    parser.add_argument(
        "number", metavar=wording("NUMBER"), help=wording("the number in its title: 2131, J2131, 0412")
    )
    parser.add_argument(
        "--to",
        type=Path,
        required=True,
        metavar=wording("FILE"),
        help=wording("the file to write; one that is there is replaced"),
    )


def run(around: Surroundings) -> int:
    """Write the paper and say which it was."""
    from app.work.papers.issued import save_issued  # not for those who only want the window

    asked = around.asked
    book = peek_shop(around.book, clock=around.clock)
    try:
        saved = save_issued(book, asked.kind, asked.number, asked.to)
    finally:
        book.close()
    for file in saved.files:
        around.tell(around.wording("{paper} written to {file}", paper=saved.title, file=str(file)))
    return DONE
