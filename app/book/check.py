"""Looks through the whole book: the file, history, filed papers, index and sums; says what it found.

Each part reads in short transactions, so that a window beside it can go on writing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from sqlalchemy import select, text
from sqlalchemy.orm import Session

from app.book.attachments import is_whole
from app.book.chain import Walk
from app.book.check_index import index_findings
from app.book.check_photos import CleanPhoto, cleaned_words, photo_findings
from app.book.check_sums import (
    credit_findings,
    fitting_findings,
    invoice_findings,
    number_findings,
    stock_findings,
)
from app.book.copies import copies_folder, list_copies
from app.book.copy_state import read_state
from app.book.door import Book
from app.book.history_rows import HistoryRow, HistoryText
from app.book.office.shop_settings import settings_of
from app.book.schema import schema_findings
from app.book.soundness import (
    chain_finding,
    filed_hashes,
    foreign_key_findings,
    page_findings,
    row_counts,
    table_names,
)
from app.book.tables import Attachment, Job, Paper
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence, words
from app.trade.settings.papers_and_days import SPECIMEN

FilePaper = Callable[[int], object]  # renders and files one issued paper; app/work hands it in
Watch = Callable[[Sentence], None]  # told before each part; may raise to stop
MOST_NAMED = 20  # findings of one part that are named; the rest is counted


@dataclass(frozen=True, slots=True)
class Looked:
    """One part of the check: what it looked at, how many of them, and what it found wrong.

    ``aside`` is worth saying and no fault.
    """

    at: Sentence
    count: int
    found: tuple[Sentence, ...]
    aside: Sentence | None = None


@dataclass(frozen=True, slots=True)
class CheckReport:
    """Everything that was looked at. Nothing found means that the book is good."""

    parts: tuple[Looked, ...]

    @property
    def found(self) -> tuple[Sentence, ...]:
        """What is wrong, over all parts."""
        return tuple(sentence for part in self.parts for sentence in part.found)

    @property
    def asides(self) -> tuple[Sentence, ...]:
        """What is worth saying and no fault, over all parts."""
        return tuple(part.aside for part in self.parts if part.aside is not None)


Findings = tuple[int, list[Sentence]]
PAGES, PAPERS, PHOTOS = words("pages of the file"), words("issued papers"), words("photos")


def check(
    book: Book,
    file_paper: FilePaper | None = None,
    watch: Watch = lambda part: None,
    *,
    clean_photo: CleanPhoto | None = None,
) -> CheckReport:
    """Check the book. With ``file_paper``, papers whose filing was cut short are filed; with ``clean_photo``,
    photos that tell where they were taken are kept without it.

    A specimen's papers may wait to be filed until somebody looks at them: they are counted, and are no fault.
    A file that is damaged inside is said to be so, and nothing more is read from it.
    """
    cleaned: list[int] = []
    parts: tuple[tuple[str, Callable[[], Findings]], ...] = (
        (PAGES, lambda: _pages(book)),
        (words("rows and what they point at"), lambda: _foreign_keys(book)),
        (words("tables, indexes and triggers"), lambda: _schema(book)),
        (words("rows of history"), lambda: _history(book)),
        (words("files beside the book"), lambda: _files(book)),
        (PHOTOS, lambda: photo_findings(book, clean_photo, cleaned)),
        (PAPERS, lambda: _papers(book, file_paper)),
        (words("entries of the search index"), lambda: index_findings(book)),
        (words("parts in stock"), lambda: stock_findings(book)),
        (words("invoices"), lambda: invoice_findings(book)),
        (words("credit notes"), lambda: credit_findings(book)),
        (words("fittings of transports"), lambda: fitting_findings(book)),
        (words("numbers of jobs, invoices and credit notes"), lambda: number_findings(book)),
        (words("copies"), lambda: _copies(book)),
    )
    looked = []
    for key, look in parts:
        at = Sentence(key)
        watch(at)
        try:
            count, found = look()
            aside = _waiting_papers(book) if key == PAPERS else None
            aside = cleaned_words(cleaned) if key == PHOTOS else aside
        except Refusal as refusal:  # damage met on the way
            count, found, aside = 0, [refusal.sentence], None
        looked.append(Looked(at, count, tuple(_shortened(found)), aside))
        if found and key == PAGES:
            break  # what comes out of a damaged file may be anything
    return CheckReport(tuple(looked))


def _shortened(found: list[Sentence]) -> Iterator[Sentence]:
    yield from found[:MOST_NAMED]
    if len(found) > MOST_NAMED:
        yield Sentence("and {count} more of this kind", {"count": len(found) - MOST_NAMED})


def _pages(book: Book) -> Findings:
    with book.ask() as session:
        connection = session.connection()
        pages = connection.exec_driver_sql("PRAGMA page_count").scalar_one()
        return pages, page_findings(connection)


def _foreign_keys(book: Book) -> Findings:
    with book.ask() as session:
        connection = session.connection()
        return sum(row_counts(connection).values()), foreign_key_findings(connection)


def _schema(book: Book) -> Findings:
    with book.ask() as session:
        connection = session.connection()
        return len(table_names(connection)), schema_findings(connection)


def _history(book: Book) -> Findings:
    walk = Walk()
    going = True
    while going:
        with book.ask() as session:
            going = walk.step(session.connection())
    report = walk.report
    found = [chain_finding(report.first_bad, report.why)] if report.first_bad else []
    return report.rows, found + _blanked(book)


def _blanked(book: Book) -> list[Sentence]:
    """Personal texts that are gone although no erasure tells of it."""
    with book.ask() as session:
        blank = session.execute(
            select(HistoryText.seq, HistoryRow.row_table, HistoryRow.row_id)
            .join(HistoryRow, HistoryRow.seq == HistoryText.seq)
            .where(HistoryText.salt == "")
        ).all()
        if not blank:
            return []
        erased = set(
            session.execute(
                select(HistoryRow.row_table, HistoryRow.row_id).where(HistoryRow.happened == "erased")
            )
        )
    return [
        Sentence("History row {seq} lost a personal text, and no erasure tells of it.", {"seq": seq})
        for seq, table, row in dict.fromkeys((seq, table, row) for seq, table, row in blank)
        if (table, row) not in erased
    ]


def _files(book: Book) -> Findings:
    with book.ask() as session:
        hashes = filed_hashes(session.connection())
        attached = session.execute(
            select(Attachment.sha256, Attachment.name, Job.number).outerjoin(Job, Job.id == Attachment.job_id)
        ).all()
        filed = session.execute(
            select(Paper.sha256, Paper.title, Job.number).join(Job, Job.id == Paper.job_id)
        ).all()
    named = {sha256: (name, number) for sha256, name, number in [*attached, *filed]}
    found = []
    for sha256 in hashes:
        if is_whole(book.files, sha256):
            continue
        name, number = named.get(sha256, ("", None))
        if number is None:
            found.append(Sentence("The file {name} is missing or damaged.", {"name": name or sha256[:12]}))
        else:
            found.append(
                Sentence(
                    "The file {name} of job {number} is missing or damaged.",
                    {"name": name, "number": str(number)},
                )
            )
    return len(hashes), found


def _papers(book: Book, file_paper: FilePaper | None) -> Findings:
    """Papers that were issued and not filed: filed now where that can be done. Erased ones have no facts."""
    with book.ask() as session:
        count = session.scalar(text("SELECT count(*) FROM papers")) or 0
        waiting = [] if _is_specimen(session) else session.execute(_UNFILED).all()
    found = []
    for key, title, number in waiting:
        about = {"title": title, "number": str(number)}
        if file_paper is None:
            found.append(Sentence("“{title}” of job {number} is issued but not filed.", about))
            continue
        try:
            file_paper(key)
        except Refusal as refusal:
            found.append(
                Sentence(
                    "“{title}” of job {number} cannot be filed: {why}", {**about, "why": refusal.sentence}
                )
            )
    return count, found


def _waiting_papers(book: Book) -> Sentence | None:
    """How many papers of a specimen, such as the demo shop, wait to be filed."""
    with book.ask() as session:
        count = len(session.execute(_UNFILED).all()) if _is_specimen(session) else 0
    if not count:
        return None
    return Sentence(
        "Issued and not filed yet: {count}. A specimen's paper is filed when it is first looked at.",
        {"count": count},
    )


def _is_specimen(session: Session) -> bool:
    return bool(settings_of(session)[SPECIMEN])


_UNFILED = (
    select(Paper.id, Paper.title, Job.number)
    .join(Job, Job.id == Paper.job_id)
    .where(Paper.sha256 == "", Paper.facts != {})
    .order_by(Paper.id)
)


def _copies(book: Book) -> Findings:
    state = read_state(book.path)
    found = []
    if state.failure is not None:
        found.append(Sentence("The last copy failed: {why}", {"why": state.failure}))
    if state.lacking:
        found.append(
            Sentence("The last copy had to leave out {count} missing files.", {"count": state.lacking})
        )
    return len(list_copies(copies_folder(book.path))), found
