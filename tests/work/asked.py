"""Questions that tests ask of a book and no screen or command does: papers by their job, what is left to credit."""

from __future__ import annotations

from sqlalchemy import select

from app.book.bench.job_rows import JobRows
from app.book.door import Book
from app.book.tables import Invoice, Job, Paper
from app.work.office.credit_notes import CreditView, credit_inside
from app.work.papers.issuing import PaperLine, paper_lines


def papers_of_job(book: Book, job_id: int) -> tuple[PaperLine, ...]:
    """The papers of a job in the order of issue."""
    with book.ask() as session:
        return paper_lines(session, job_id)


def unfiled_papers(book: Book) -> tuple[int, ...]:
    """Papers whose filing was cut short. Erased ones have no facts and are none."""
    with book.ask() as session:
        waiting = select(Paper.id).where(Paper.sha256 == "", Paper.facts != {})
        return tuple(session.scalars(waiting.order_by(Paper.id)))


def credit_view(book: Book, invoice_id: int) -> CreditView:
    """An issued invoice, line by line, with what is left of it to credit."""
    with book.ask() as session:
        row = session.get_one(Invoice, invoice_id)
        return credit_inside(row, JobRows(session, session.get_one(Job, row.job_id)), book.today())
