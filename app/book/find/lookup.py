"""Asks the search index: rows that hold all words as beginnings, and rows that end in a number."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from typing import Any

from sqlalchemy import and_, or_, select, text
from sqlalchemy.orm import Session

from app.book.find.find_words import FindWords
from app.book.find.index import has_fts
from app.trade.find.fold import fold, fold_tail, match_tail, match_words

# How many rows at either end of the index one question looks through: a word that more rows hold is no
# answer yet, and the newest and the oldest of them are what a person can use.
LOOKED_AT = 800
LONGEST_TAIL_LIST = 400

_BY_WORDS = """
    SELECT w.kind, w.ref_id, w.tails FROM
      (SELECT rowid AS r FROM find_fts WHERE find_fts MATCH :q ORDER BY rowid {order} LIMIT {limit})
    JOIN find_words AS w ON w.id = r ORDER BY r {order}
"""
_BY_TAIL = """
    SELECT w.kind, w.ref_id, w.tails FROM
      (SELECT rowid AS r FROM find_tails WHERE find_tails MATCH :q ORDER BY rowid DESC LIMIT {limit})
    JOIN find_words AS w ON w.id = r ORDER BY r DESC
"""


def ids_by_words(session: Session, question: str, kinds: Collection[str], most: int) -> dict[str, list[int]]:
    """Keys of rows by kind, the newest first, that hold every word of the question as a beginning."""
    found: dict[str, list[int]] = {kind: [] for kind in kinds}
    if has_fts(session.connection()):
        expression = match_words(question)
        if expression is None:
            return found
        seen = 0
        for order in ("DESC", "ASC"):
            rows = session.execute(
                text(_BY_WORDS.format(order=order, limit=LOOKED_AT)), {"q": expression}
            ).all()
            seen = len(rows)
            _sort_in(found, rows, most)
            if seen < LOOKED_AT or all(len(keys) == most for keys in found.values()):
                break
        return found
    words = [word for piece in question.split() for word in fold(piece).split()]
    if not words:
        return found
    holds = and_(
        *(
            or_(FindWords.words.startswith(word, autoescape=True), FindWords.words.contains(f" {word}"))
            for word in words
        )
    )
    for kind in kinds:
        found[kind] = list(
            session.scalars(
                select(FindWords.ref_id)
                .where(FindWords.kind == kind, holds)
                .order_by(FindWords.id.desc())
                .limit(most)
            )
        )
    return found


def ids_by_tail(session: Session, question: str, kinds: Collection[str], most: int) -> dict[str, list[int]]:
    """Keys of rows by kind whose telephone, serial or marking holds the question: those that end in it first."""
    found: dict[str, list[int]] = {kind: [] for kind in kinds}
    expression, tail = match_tail(question), fold_tail(question)
    if expression is None:
        return found
    rows: Iterable[Any]
    if has_fts(session.connection()):
        rows = session.execute(text(_BY_TAIL.format(limit=LONGEST_TAIL_LIST)), {"q": expression}).all()
    else:
        rows = session.execute(
            select(FindWords.kind, FindWords.ref_id, FindWords.tails)
            .where(FindWords.tails.contains(tail, autoescape=True))
            .order_by(FindWords.id.desc())
            .limit(LONGEST_TAIL_LIST)
        ).all()
    ordered = sorted(rows, key=lambda row: not any(one.endswith(tail) for one in row[2].split()))
    _sort_in(found, ordered, most)
    return found


def _sort_in(found: dict[str, list[int]], rows: Iterable[Any], most: int) -> None:
    for kind, key, _ in rows:
        keys = found.get(kind)
        if keys is not None and len(keys) < most and key not in keys:
            keys.append(key)
