"""Lists printed as they stand on the screen: nothing is filed, as nothing was issued."""

from __future__ import annotations

from app.book.door import Book
from app.book.office.shop_settings import settings_of
from app.papers.list_facts import ListColumn, ListFacts, ListLine
from app.work.papers.sheet_facts import sheet_in, wording_of

__all__ = ["ListColumn", "ListFacts", "ListLine", "print_list"]


def print_list(book: Book, facts: ListFacts, language: str) -> bytes:
    """The PDF of a list, its cells as they are worded; ``language`` is what the paper says beside them."""
    from app.papers.list_paper import list_paper

    with book.ask() as session:
        sheet = sheet_in(book.files, settings_of(session), language)
    return list_paper(facts, sheet, wording_of(sheet))
