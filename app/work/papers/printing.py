"""Printing an issued paper: the first print is the paper itself, every further one carries the stamp."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import select

from app.book.door import Book
from app.book.tables import Paper, PaperPrint, Staff
from app.trade.sentence import Sentence
from app.work.papers.issuing import PaperFile, paper_pdf
from app.work.shop_book import Done


@dataclass(frozen=True, slots=True)
class Printed:
    """One print. ``by`` is empty where nobody had said who works."""

    at: datetime
    by: str
    copied: bool


def prints_of(book: Book, paper_id: int) -> tuple[Printed, ...]:
    """Every print of a paper, in the order of time."""
    with book.ask() as session:
        rows = session.execute(
            select(PaperPrint, Staff.name)
            .join(Staff, Staff.id == PaperPrint.by, isouter=True)
            .where(PaperPrint.paper_id == paper_id)
            .order_by(PaperPrint.id)
        )
        return tuple(Printed(row.at, name or "", row.copied) for row, name in rows)


def paper_to_print(book: Book, paper_id: int) -> PaperFile:
    """The very PDF that is filed; with "copy" over it where it was printed before."""
    return paper_pdf(book, paper_id, copy=bool(prints_of(book, paper_id)))


def note_printed(book: Book, who: int | None, paper_id: int, *, copied: bool) -> Done[int]:
    """Write down that a paper was printed."""
    with book.change(who, Sentence("printed a paper")) as change:
        paper = change.get(Paper, paper_id)
        change.why = Sentence("printed “{title}”", {"title": paper.title})
        row = change.add(
            PaperPrint(job_id=paper.job_id, paper_id=paper.id, copied=copied, at=change.now, by=who)
        )
    return Done(row.id, change.changes)
