"""Issuing and filing: facts are frozen in the change that issues, the PDF is made from them and filed after."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book import attachments
from app.book.door import Book, Change
from app.book.tables import Paper, Staff
from app.papers.press import PaperFacts, kind_of, printed, read_facts
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.work.language import wording_for
from app.work.papers.kinds import TITLES, Kind
from app.work.papers.sheet_facts import wording_of
from app.work.shop_book import Changes, Done


@dataclass(frozen=True, slots=True)
class PaperLine:
    """One issued paper of a job. ``filed`` is False only between issue and filing."""

    id: int
    kind: str
    title: str
    job_id: int
    issued_at: datetime
    issued_by: str
    filed: bool


@dataclass(frozen=True, slots=True)
class PaperFile:
    """The PDF of a paper, and the name that it is saved under."""

    id: int
    kind: str
    title: str
    name: str
    pdf: bytes
    copied: bool = False  # with the stamp over it


def issue_paper(
    change: Change,
    job_id: int,
    facts: PaperFacts,
    *,
    number: str,
    title: str = "",
    invoice_id: int | None = None,
    credit_note_id: int | None = None,
    names_modifications: Sequence[int] = (),
) -> Paper:
    """Freeze the facts of a paper inside the action that issues it. `file_paper` makes the PDF afterwards.

    ``number`` is what its title says: of the job, or of the invoice; ``title`` is another template than that of its
    kind. ``names_modifications`` are the ids of
    those that it describes with numbers and the way back.
    """
    kind, sheet = kind_of(facts), facts.sheet
    worded = wording_of(sheet)(title or TITLES[kind], number=number)
    return change.add(
        Paper(
            kind=kind.value,
            job_id=job_id,
            invoice_id=invoice_id,
            credit_note_id=credit_note_id,
            title=worded,
            language=sheet.language,
            facts=json.loads(facts.to_json()),
            issued_at=change.now,
            issued_by=change.by,
            names_modifications=list(names_modifications),
        )
    )


def file_paper(book: Book, paper_id: int, who: int | None = None) -> Done[str]:
    """Render a paper from its frozen facts and file it, unless it is filed already. Gives its SHA-256.

    The file is on the disk before its row says so. Raises Refusal when the disk cannot take it.
    """
    with book.ask() as session:
        row = session.get_one(Paper, paper_id)
        kind, title, facts, filed = row.kind, row.title, row.facts, row.sha256
    if filed and attachments.is_whole(book.files, filed):
        return Done(filed, Changes())
    stored = attachments.store(book.files, _rendered(kind, facts))
    if filed:
        if stored.sha256 != filed:
            raise Refusal(
                Sentence("The filed PDF of “{title}” is missing or damaged.", {"title": title}),
                Sentence("Restore a copy that still has it: Book, Check names it."),
            )
        return Done(filed, Changes())
    with book.change(who, Sentence("filed “{title}”", {"title": title})) as change:
        paper = change.get(Paper, paper_id)
        paper.sha256, paper.filed_at = stored.sha256, change.now
    return Done(stored.sha256, change.changes)


def paper_pdf(book: Book, paper_id: int, *, copy: bool = False) -> PaperFile:
    """The very PDF that is filed; files it first where that was cut short. ``copy`` lays a stamp over it."""
    sha256 = file_paper(book, paper_id).value
    with book.ask() as session:
        row = session.get_one(Paper, paper_id)
        kind, title, language = row.kind, row.title, row.language
    pdf = attachments.read(book.files, sha256)
    if copy:
        from app.papers.copies import stamp_copy

        pdf = stamp_copy(pdf, wording_for(language, book.zone))
    return PaperFile(paper_id, kind, title, f"{title}.pdf".replace("/", "-"), pdf, copy)


def paper_as_filed(book: Book, paper_id: int) -> bytes:
    """The very PDF that is filed, or what would be filed where that was cut short: nothing is written.

    Raises Refusal where it is missing or damaged.
    """
    with book.ask() as session:
        row = session.get_one(Paper, paper_id)
        kind, facts, filed = row.kind, row.facts, row.sha256
    return attachments.read(book.files, filed) if filed else _rendered(kind, facts)


def preview_paper(facts: PaperFacts) -> bytes:
    """The PDF of a paper that is not issued: "draft" lies behind every page."""
    sheet = replace(facts.sheet, draft=True)
    return printed(replace(facts, sheet=sheet), wording_of(sheet))


def paper_lines(session: Session, job_id: int) -> tuple[PaperLine, ...]:
    """The papers of a job in the order of issue, inside a question."""
    return tuple(
        PaperLine(row.id, row.kind, row.title, row.job_id, row.issued_at, name, bool(row.sha256))
        for row, name in session.execute(
            select(Paper, Staff.name)
            .join(Staff, Staff.id == Paper.issued_by)
            .where(Paper.job_id == job_id)
            .order_by(Paper.id)
        )
    )


def newest_paper(book: Book, job_id: int, kind: Kind) -> int | None:
    """The id of the last issued paper of this kind, None when there is none."""
    with book.ask() as session:
        return session.scalar(
            select(Paper.id)
            .where(Paper.job_id == job_id, Paper.kind == kind.value)
            .order_by(Paper.id.desc())
            .limit(1)
        )


def _rendered(kind: str, facts: dict[str, Any]) -> bytes:
    if not facts:
        raise Refusal(Sentence("What stood on this paper was erased with the data of its person."))
    read = read_facts(Kind(kind), json.dumps(facts))
    return printed(read, wording_of(read.sheet))
