"""Striking out: a record that was wrong stays legible, with who, when and why. It can be undone."""

from __future__ import annotations

from typing import Any

from app.book.door import Book
from app.book.tables import (
    Attachment,
    Base,
    Charge,
    JobNote,
    Labour,
    Modification,
    Reading,
    StartUpResult,
    Trial,
)
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.work.bench.open_job import open_job
from app.work.shop_book import Done

# What can be struck out, by the word that screens and commands use, and how history tells it.
KINDS: dict[str, tuple[type[Base], Sentence]] = {
    "start-up": (StartUpResult, Sentence("struck out a start-up result")),
    "reading": (Reading, Sentence("struck out a reading")),
    "trial": (Trial, Sentence("struck out a trial")),
    "modification": (Modification, Sentence("struck out a modification")),
    "labour": (Labour, Sentence("struck out labour")),
    "charge": (Charge, Sentence("struck out a charge")),
    "note": (JobNote, Sentence("struck out a note")),
    "file": (Attachment, Sentence("struck out a file")),
}


def strike_out(book: Book, who: int, kind: str, row_id: int, reason: str) -> Done[int]:
    """Strike out one record with a reason. Raises FieldRefusal without one."""
    if not reason.strip():
        raise FieldRefusal(
            {"reason": Sentence("Say why it is struck out: it stays legible with the reason.")}
        )
    table, words = KINDS[kind]
    with book.change(who, words) as change:
        row: Any = change.get(table, row_id)
        open_job(change, row.job_id)
        if row.struck_at is not None:
            raise Refusal(Sentence("This is struck out already."))
        row.struck_at, row.struck_by, row.struck_reason = change.now, change.by, reason.strip()
    return Done(row_id, change.changes)


def undo_strike_out(book: Book, who: int, kind: str, row_id: int) -> Done[int]:
    """Take a strike-out back; history keeps both."""
    table, _ = KINDS[kind]
    with book.change(who, Sentence("took a strike-out back")) as change:
        row: Any = change.get(table, row_id)
        open_job(change, row.job_id)
        row.struck_at = row.struck_by = None
        row.struck_reason = ""
    return Done(row_id, change.changes)
