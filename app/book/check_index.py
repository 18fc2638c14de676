"""Compares the search index with a fresh folding of the book."""

from __future__ import annotations

from itertools import islice

from sqlalchemy import select, text
from sqlalchemy.orm import Session

from app.book.door import Book
from app.book.find.documents import documents_of
from app.book.find.index import KINDS, has_fts
from app.book.tables import Base, Customer, FindWords, Job, Transport, Unit
from app.trade.sentence import Sentence

AT_ONCE = 2000  # rows folded in one short transaction
_TABLES: dict[str, type[Base]] = {"job": Job, "customer": Customer, "unit": Unit, "transport": Transport}


def index_findings(book: Book) -> tuple[int, list[Sentence]]:
    """How many documents there are, and which are missing, stale or too many in the index."""
    count, wrong = 0, 0
    for kind in KINDS:
        with book.ask() as session:
            keys = iter(session.scalars(select(_TABLES[kind].id).order_by(_TABLES[kind].id)).all())  # type: ignore[attr-defined]
        while some := list(islice(keys, AT_ONCE)):
            with book.ask() as session:
                there, off = _compare(session, kind, some)
            count, wrong = count + there, wrong + off
    with book.ask() as session:
        wrong += _left_over(session)
    found = []
    if wrong:
        found.append(
            Sentence(
                "{count} entries of the search index do not fit the book. It can be built anew: Book, Check.",
                {"count": wrong},
            )
        )
    return count, found


def _compare(session: Session, kind: str, keys: list[int]) -> tuple[int, int]:
    kept = {
        ref_id: (words, tails)
        for ref_id, words, tails in session.execute(
            select(FindWords.ref_id, FindWords.words, FindWords.tails).where(
                FindWords.kind == kind, FindWords.ref_id.between(keys[0], keys[-1])
            )
        )
    }
    wanted = {d.ref_id: (d.words, d.tails) for d in documents_of(session, kind, keys) if d.words}
    return len(wanted), sum(kept.get(key) != wanted.get(key) for key in kept.keys() | wanted.keys())


def _left_over(session: Session) -> int:
    """Index rows of rows that are not there, and full-text rows that differ from the portable ones."""
    wrong = 0
    for kind in KINDS:
        table = _TABLES[kind].__tablename__
        wrong += session.execute(
            text(
                f"SELECT count(*) FROM find_words WHERE kind = :kind AND ref_id NOT IN (SELECT id FROM {table})"  # noqa: S608
            ),
            {"kind": kind},
        ).scalar_one()
    if not has_fts(session.connection()):
        return wrong
    for table, column in (("find_fts", "words"), ("find_tails", "tails")):
        wrong += session.execute(
            text(
                f"SELECT count(*) FROM find_words AS w LEFT JOIN {table} AS f ON f.rowid = w.id"  # noqa: S608
                f" WHERE f.{column} IS NOT w.{column}"
            )
        ).scalar_one()
        wrong += session.execute(
            text(f"SELECT count(*) FROM {table} WHERE rowid NOT IN (SELECT id FROM find_words)")  # noqa: S608
        ).scalar_one()
    return wrong
