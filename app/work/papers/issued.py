"""Issued papers by kind and number, as people name them on a command line; nothing is written to the book."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book.disk import write_whole
from app.book.door import Book
from app.book.office.shop_settings import settings_of
from app.book.tables import Paper
from app.trade.office.numbers import invoice_number, read_invoice_number, read_job_number
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.trade.settings.prices import CREDIT_SERIES
from app.work.papers.issuing import paper_as_filed
from app.work.papers.kinds import NAMES, Kind

# By the names that a command line knows. A kind of paper that is new is entered here.
KINDS: Mapping[str, Kind] = {
    "intake-ticket": Kind.INTAKE_TICKET,
    "bench-tag": Kind.BENCH_TAG,
    "estimate": Kind.ESTIMATE,
    "invoice": Kind.INVOICE,
    "credit-note": Kind.CREDIT_NOTE,
    "reminder": Kind.REMINDER,
    "receipt": Kind.PAYMENT_RECEIPT,
    "uncollected-notice": Kind.UNCOLLECTED_NOTICE,
    "service-report": Kind.SERVICE_REPORT,
    "hand-back-receipt": Kind.HAND_BACK_RECEIPT,
    "returned-unsafe": Kind.UNSAFE_RETURN,
    "modified-label": Kind.MODIFIED_LABEL,
}

TOLD = 3  # titles named where the one asked for is not there


PICTURES = ".png"  # a file that ends so gets the pages as pictures


@dataclass(frozen=True, slots=True)
class SavedPaper:
    """Which paper was written, and into which files."""

    title: str
    files: tuple[Path, ...]


def save_issued(book: Book, kind: str, number: str, path: Path) -> SavedPaper:
    """Write the very PDF that is filed to ``path``, of several the newest; its pages as pictures, with their numbers
    behind the name, where ``path`` ends with .png. ``kind`` is a name of `KINDS`, ``number`` what its title says: of
    a job, an invoice, an estimate. Raises Refusal."""
    if kind not in KINDS:
        raise Refusal(
            Sentence("There is no paper of the kind “{kind}”.", {"kind": kind}),
            Sentence("Kinds: {list}.", {"list": tuple(KINDS)}),
        )
    with book.ask() as session:
        found = _newest(session, KINDS[kind], number)
        last = () if found else _last(session, KINDS[kind])
    if found is None:
        raise Refusal(
            Sentence(
                "No {kind} with the number {number} was issued.",
                {"kind": Sentence(NAMES[KINDS[kind]]), "number": number},
            ),
            Sentence("Issued last: {list}.", {"list": last})
            if last
            else Sentence("Issue it in the window first; the papers of a job stand on its sheet."),
        )
    paper_id, title = found
    files = _files(paper_as_filed(book, paper_id), path)
    for file, content in files.items():
        try:
            write_whole(file, content)
        except OSError as error:
            why = error.strerror or str(error)
            raise Refusal(
                Sentence("{path} could not be written: {why}.", {"path": str(file), "why": why}),
                Sentence("Choose another folder, or free some space."),
            ) from error
    return SavedPaper(title, tuple(files))


def _files(pdf: bytes, path: Path) -> dict[Path, bytes]:
    """What is written where: one PDF, or a picture of each page."""
    if path.suffix.lower() != PICTURES:
        return {path: pdf}
    from app.papers.page_pictures import page_pictures

    pages = page_pictures(pdf)
    if len(pages) == 1:
        return {path: pages[0]}
    return {path.with_stem(f"{path.stem}-{number}"): page for number, page in enumerate(pages, 1)}


def _newest(session: Session, kind: Kind, number: str) -> tuple[int, str] | None:
    """Papers of one kind are told apart by the number that ends their titles, whatever words stood before it in the
    language and the program of their day."""
    rows = select(Paper.id, Paper.title).where(Paper.kind == kind.value).order_by(Paper.id.desc())
    series = settings_of(session)[CREDIT_SERIES] if kind is Kind.CREDIT_NOTE else ""
    wanted = _as_titled(number, series)
    for paper_id, title in session.execute(rows):
        if title.rpartition(" ")[2] in wanted:
            return paper_id, title
    return None


def _last(session: Session, kind: Kind) -> tuple[str, ...]:
    """The titles of those issued last, the newest first."""
    titles = select(Paper.title).where(Paper.kind == kind.value).order_by(Paper.id.desc()).limit(TOLD)
    return tuple(dict.fromkeys(session.scalars(titles)))


def _as_titled(typed: str, series: str) -> set[str]:
    """How a number that was typed may stand in a title: J2131 as 2131, 412 as 0412 too; with ``series`` where none
    was typed."""
    typed = typed.strip()
    wanted = {typed, typed.upper()}
    if (job := read_job_number(typed)) is not None:
        wanted.add(str(job))
    if (invoice := read_invoice_number(typed)) is not None:
        wanted.add(invoice_number(invoice[0] or series, invoice[1]))
    return wanted
