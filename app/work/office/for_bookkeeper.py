"""What the bookkeeper gets: the journal of a period, what its columns mean, and the papers of it as PDFs."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from sqlalchemy import or_, select
from sqlalchemy.orm import Session

from app.book.disk import flush_folder, lay_in_place
from app.book.door import Book
from app.book.office.shop_settings import settings_of
from app.book.tables import CreditNote, Invoice, Paper
from app.trade.calendar.period import Period
from app.trade.office.journal import COLUMNS, JournalSums, cells, sums_of
from app.trade.office.numbers import invoice_number
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.trade.settings import CURRENCY
from app.trade.upkeep.csv_text import Mark, sheet_text
from app.trade.wording import Wording
from app.work.office.journal import journal_inside
from app.work.papers.issuing import paper_as_filed
from app.work.papers.kinds import Kind

Watch = Callable[[int, int, str], None]  # told how many of how many, and what comes next; may raise to stop


def unwatched(done: int, of: int, name: str) -> None:
    """Nobody waits."""


@dataclass(frozen=True, slots=True)
class Written:
    """What was written into ``folder``. ``lacking`` are papers whose PDF is not whole, by their file's name."""

    folder: Path
    journal: Path
    papers: int
    sums: JournalSums
    lacking: tuple[tuple[str, Sentence], ...]


def write_for_bookkeeper(
    book: Book,
    folder: Path,
    period: Period,
    wording: Wording,
    *,
    mark: Mark = Mark.POINT,
    watch: Watch = unwatched,
) -> Written:
    """Write journal, columns and PDFs into ``folder``, which is made. Raises Refusal where that cannot be.

    Files of the same name are replaced, each as a whole and all of them at the end: stopped, nothing is left.
    A paper that is missing or damaged keeps nobody from the rest: it is told.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with TemporaryDirectory(prefix="journal-", dir=folder) as name:
            return _written(book, folder, Path(name), period, wording, mark, watch)
    except OSError as error:
        raise Refusal(
            Sentence(
                "The export into {folder} failed: {why}.",
                {"folder": str(folder), "why": error.strerror or str(error)},
            ),
            Sentence("Look whether the folder may be written and the disk has room, then try again."),
        ) from error


def _written(
    book: Book, folder: Path, beside: Path, period: Period, wording: Wording, mark: Mark, watch: Watch
) -> Written:
    with book.ask() as session:
        entries = journal_inside(session, book, period)
        papers = _papers(session, period)
        currency = settings_of(session)[CURRENCY]
    span = f"{period.first.isoformat()}_{period.last.isoformat()}"
    head = [name for name, _ in COLUMNS]
    journal = f"journal_{span}.csv"
    (beside / journal).write_bytes(sheet_text(head, map(cells, entries), mark).encode())
    told = ((name, wording(meaning)) for name, meaning in COLUMNS)
    about = "journal_columns.csv"
    (beside / about).write_bytes(sheet_text(("column", "meaning"), told, mark).encode())
    whole = f"papers_{span}"
    (beside / whole).mkdir()
    lacking = []
    for done, (paper_id, name) in enumerate(papers):
        watch(done, len(papers), name)
        try:
            (beside / whole / name).write_bytes(paper_as_filed(book, paper_id))
        except Refusal as refusal:
            lacking.append((name, refusal.sentence))
    watch(len(papers), len(papers), journal)
    names = (journal, about, *(f"{whole}{os.sep}{path.name}" for path in sorted((beside / whole).iterdir())))
    (folder / whole).mkdir(exist_ok=True)
    lay_in_place(beside, folder, names)
    flush_folder(folder / whole)
    return Written(
        folder, folder / journal, len(papers) - len(lacking), sums_of(entries, currency), tuple(lacking)
    )


def _papers(session: Session, period: Period) -> list[tuple[int, str]]:
    """Invoices and credit notes of the period: the key of the paper, and the name of its file."""
    issued = or_(
        Invoice.issued_on.between(period.first, period.last) & (Paper.kind == Kind.INVOICE.value),
        CreditNote.issued_on.between(period.first, period.last) & (Paper.kind == Kind.CREDIT_NOTE.value),
    )
    rows: Any = session.execute(
        select(Paper.id, Invoice, CreditNote)
        .outerjoin(Invoice, Invoice.id == Paper.invoice_id)
        .outerjoin(CreditNote, CreditNote.id == Paper.credit_note_id)
        .where(issued)
        .order_by(Paper.id)
    )
    found = []
    for paper_id, invoice, note in rows:
        kind, row = ("invoice", invoice) if note is None else ("credit_note", note)
        found.append((paper_id, f"{kind}_{invoice_number(row.series, row.number)}.pdf"))
    return found
