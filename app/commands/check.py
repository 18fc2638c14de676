"""``check``: looks through the whole book and says what it found."""

from __future__ import annotations

from argparse import ArgumentParser
from decimal import Decimal

from app.book.lock import OpenElsewhere
from app.commands.command import DONE, FAILED, Surroundings
from app.trade.sentence import words
from app.trade.wording import Wording
from app.work.shop_book import Book, open_shop, peek_shop

HELP = words("look through the whole book and say what was found")
ABOUT = words(
    "Looks at the file itself, history and its chain, photos and papers against their hashes, the search index, "
    "stock, invoices, fittings and numbers. Files papers whose filing was cut short, unless a window holds the "
    "book; those of a specimen, as the demo shop is, wait until they are looked at. Fails when anything is wrong."
)


def arguments(parser: ArgumentParser, wording: Wording) -> None:
    """The command takes nothing."""


def run(around: Surroundings) -> int:
    """Check, print what was looked at, then what was found."""
    from app.work.upkeep.check import check_book  # not for those who only want the window

    wording = around.wording
    book, alone = _open(around)
    try:
        report = check_book(book, mend=alone)
    finally:
        book.close()
    for part in report.parts:
        mark = wording("wrong") if part.found else wording("good")
        around.tell(f"{mark:<6} {wording.number(Decimal(part.count), grouped=True):>9}  {wording(part.at)}")
    for sentence in (*report.asides, *report.found):
        around.tell(wording(sentence))
    if report.found:
        return FAILED
    around.tell(wording("The book is good."))
    return DONE


def _open(around: Surroundings) -> tuple[Book, bool]:
    """The book with its lock where it is free, else beside the window; an older book is not upgraded here."""
    peek = peek_shop(around.book, clock=around.clock)
    peek.close()
    try:
        return open_shop(around.book, clock=around.clock), True
    except OpenElsewhere:
        return peek_shop(around.book, clock=around.clock), False
