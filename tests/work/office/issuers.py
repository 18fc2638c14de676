"""Issues invoices and credit notes of a book in a process of its own, beside another that does the same.

``python -m tests.work.office.issuers BOOK``: says "ready", reads one question as JSON, and answers with what it issued.
"""

from __future__ import annotations

import json
import sys
from datetime import date, datetime
from pathlib import Path

from app.book.door import Book
from app.book.engine import sqlite_engine
from app.trade.money import MICRO
from app.trade.refusal import FieldRefusal, Refusal
from app.work.office.credit_notes import issue_credit_note
from app.work.office.invoices import issue_invoice
from app.work.shop_book import SETTLE


def main(path: Path) -> None:
    """Answer one question: ``now``, ``who``, ``jobs`` and the day that each invoice shall carry if it can."""
    _say("ready")
    question = json.loads(sys.stdin.readline())
    now = datetime.fromisoformat(question["now"])
    book = Book(sqlite_engine(path), path, settle=SETTLE, clock=lambda: now)
    issued = [
        _issue(book, question["who"], job, date.fromisoformat(question["day"])) for job in question["jobs"]
    ]
    book.close()
    _say(json.dumps(issued))


def _issue(book: Book, who: int, job: int, day: date) -> list[str]:
    """The numbers of the invoice and of a note that credits half of it; none where the other process was first."""
    try:
        invoice = issue_invoice(book, who, job, on=day).value
    except FieldRefusal as refusal:
        if set(refusal.fields) != {"on"}:
            raise
        # the other process has issued under a later day
        invoice = issue_invoice(book, who, job).value
    except Refusal:
        return []
    note = issue_credit_note(book, who, invoice.id, {0: MICRO // 2}, "half of it").value
    return [invoice.number, note.number]


def _say(line: str) -> None:
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


if __name__ == "__main__":
    main(Path(sys.argv[1]))
