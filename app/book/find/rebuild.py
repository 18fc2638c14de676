"""Builds the search index anew from the book, for one that was found not to fit."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice

from sqlalchemy import delete, insert, select, text

from app.book.door import Change
from app.book.find.documents import Document, all_documents
from app.book.find.index import has_fts, put_fts
from app.book.tables import FindWords

AT_ONCE = 2000


def rebuild_index(change: Change) -> int:
    """Replace every row of the index inside one action; gives how many there are now."""
    session = change.session
    connection = session.connection()
    fts = has_fts(connection)
    session.execute(delete(FindWords))
    if fts:
        connection.execute(text("DELETE FROM find_fts"))
        connection.execute(text("DELETE FROM find_tails"))
    count = 0
    documents: Iterator[Document] = (d for d in all_documents(session) if d.words)
    while some := list(islice(documents, AT_ONCE)):
        connection.execute(
            insert(FindWords.__table__),  # type: ignore[arg-type]
            [{"kind": d.kind, "ref_id": d.ref_id, "words": d.words, "tails": d.tails} for d in some],
        )
        count += len(some)
    if fts and count:
        put_fts(connection, connection.execute(select(FindWords.id, FindWords.words, FindWords.tails)))
    return count
