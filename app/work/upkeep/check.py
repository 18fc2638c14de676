"""Checking the whole book, and what can be put right: papers filed, photos cleaned, the search index built anew."""

from __future__ import annotations

from functools import partial

from app.book.check import CheckReport, Looked, Watch, check
from app.book.door import Book
from app.book.find.rebuild import rebuild_index
from app.trade.sentence import Sentence
from app.work.bench.files import clean_photo
from app.work.papers.issuing import file_paper
from app.work.shop_book import Done

__all__ = ["CheckReport", "Looked", "build_index_anew", "check_book"]


def check_book(book: Book, *, mend: bool = True, watch: Watch = lambda part: None) -> CheckReport:
    """Look through everything and say what was found. ``mend`` files papers whose filing was cut short, but
    for those of a specimen, which are filed when they are first looked at; and it takes out of photos what they
    tell of place and time.

    ``watch`` is told each part before it begins, and may raise to stop. Raises Refusal.
    """
    if not mend:
        return check(book, watch=watch)
    return check(book, partial(file_paper, book), watch, clean_photo=partial(clean_photo, book))


def build_index_anew(book: Book) -> Done[int]:
    """Build the search index from the book; gives how many entries it has."""
    with book.change(None, Sentence("built the search index anew")) as change:
        count = rebuild_index(change)
    return Done(count, change.changes)
