"""Sorts database errors: the person's world gets a sentence and a next step, the rest is our fault."""

from __future__ import annotations

import sqlite3

from sqlalchemy.exc import DBAPIError

from app.trade.refusal import Fault, Refusal
from app.trade.sentence import Sentence

_KNOWN = {
    sqlite3.SQLITE_FULL: (
        "The disk is full; nothing was saved.",
        "Make room on the disk, then save again. What you typed is still here.",
    ),
    sqlite3.SQLITE_BUSY: (
        "Another program is writing to the book; nothing was saved.",
        "Wait a moment and save again.",
    ),
    sqlite3.SQLITE_READONLY: (
        "The book's file may only be read, so nothing was saved.",
        "Allow writing to the file and its folder, then save again.",
    ),
    sqlite3.SQLITE_IOERR: (
        "The disk gave an error while writing; nothing was saved.",
        "Look whether the disk is full or was pulled out, then save again.",
    ),
    sqlite3.SQLITE_CANTOPEN: (
        "The book's file cannot be reached any more; nothing was saved.",
        "Look whether its folder is still there, then save again.",
    ),
    sqlite3.SQLITE_CORRUPT: (
        "The book's file is damaged; nothing was saved.",
        "Close Spindlebook and restore the newest copy: Book, Restore a copy.",
    ),
    sqlite3.SQLITE_NOTADB: (
        "The book's file is damaged; nothing was saved.",
        "Close Spindlebook and restore the newest copy: Book, Restore a copy.",
    ),
}


def refusal_of(error: DBAPIError) -> Exception:
    """A Refusal for what a person can mend, a Fault for anything else."""
    cause = error.orig
    code = getattr(cause, "sqlite_errorcode", None)
    if code is not None:
        known = _KNOWN.get(code & 0xFF)
        if known:
            return Refusal(Sentence(known[0]), Sentence(known[1]))
    return Fault(str(cause))
