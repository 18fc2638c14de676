"""Copies that nobody asks for: on closing, when history went on, at most hourly, thinned by the keep rule."""

from __future__ import annotations

from datetime import datetime, tzinfo
from pathlib import Path

from sqlalchemy import text

from app.book.backup import make_copy
from app.book.chain import chain_end
from app.book.copies import Why, copies_folder
from app.book.copy_state import CopyState, keep_failure, keep_success, read_state
from app.book.door import Book
from app.book.thinning import thin
from app.trade.refusal import Fault, Refusal
from app.trade.sentence import Sentence


def copy_if_due(book: Book, now: datetime) -> CopyState:
    """Make a copy in the usual folder when one is due, and thin. Never raises: the state says what failed."""
    state = read_state(book.path)
    try:
        with book.ask() as session:
            rows, head = chain_end(session.connection())
            first = session.scalar(text("SELECT hash FROM history WHERE seq = 1")) or ""
        if not state.is_due(rows, head, now):
            return state
        copy = make_copy(book.path, copies_folder(book.path), now, Why.CLOSING)
    except (Refusal, Fault) as error:
        return keep_failure(book.path, state, _said(error), now)
    state = keep_success(book.path, copy)
    return _thinned(book.path, state, first, now, book.zone)


def _thinned(book: Path, state: CopyState, first: str, now: datetime, zone: tzinfo) -> CopyState:
    try:
        thin(copies_folder(book), first, now, zone)
    except Refusal as refusal:
        return keep_failure(book, state, refusal, now)
    except OSError as error:
        why = Sentence("Old copies could not be thinned: {why}.", {"why": error.strerror or str(error)})
        return keep_failure(book, state, Refusal(why), now)
    return state


def _said(error: Refusal | Fault) -> Refusal:
    if isinstance(error, Refusal):
        return error
    return Refusal(Sentence("No copy was made: {why}.", {"why": str(error)}))
