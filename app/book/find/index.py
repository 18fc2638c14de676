"""Keeps the search index in step with what changed: one portable row each, and the FTS rows beside it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from sqlalchemy import Connection, delete, insert, select, text, tuple_
from sqlalchemy.orm import Session

from app.book.door import Change
from app.book.find.documents import Document, documents_of
from app.book.tables import FindWords, Fitting, Job, Unit, metadata

AT_ONCE = 500  # documents looked up in one statement
KINDS = ("job", "customer", "unit", "transport")


# Columns whose words stand in documents; a change to others leaves the index as it is.
WORDS = {
    "customers": {"name", "email", "city", "phone_digits", "merged_into_id", "erased_at"},
    "units": {"maker", "model", "serial", "serial_key"},
    "transports": {"type_id", "marking"},
    "jobs": {"number", "fault", "fault_short", "unit_id", "customer_id"},
}


def refresh_index(change: Change) -> None:
    """A settling step of the door: index anew what the action touched, and what shows words of it."""
    touched = change.touched
    told = {
        table: set(touched.rows.get(table, ())) if columns & touched.columns.get(table, set()) else set()
        for table, columns in WORDS.items()
    }
    customers, units, transports, jobs = (
        told[table] for table in ("customers", "units", "transports", "jobs")
    )
    if "reported_faults" in touched.rows:
        jobs |= touched.jobs
    if "fittings" in touched.rows:
        units |= touched.units
        transports |= touched.transports
    session = change.session
    if customers:
        units |= set(session.scalars(select(Unit.id).where(Unit.customer_id.in_(customers))))
        jobs |= set(session.scalars(select(Job.id).where(Job.customer_id.in_(customers))))
    if transports:
        units |= set(
            session.scalars(
                select(Fitting.unit_id).where(
                    Fitting.transport_id.in_(transports), Fitting.removed_at.is_(None)
                )
            )
        )
    if units:
        jobs |= set(session.scalars(select(Job.id).where(Job.unit_id.in_(units))))
    wanted = {"customer": customers, "unit": units, "transport": transports, "job": jobs}
    put_documents(
        session, [d for kind in KINDS if wanted[kind] for d in documents_of(session, kind, wanted[kind])]
    )


def put_documents(session: Session, documents: Iterable[Document]) -> None:
    """Write the rows of these documents, replacing former ones; a document without words has none."""
    wanted = {(d.kind, d.ref_id): d for d in documents}
    keys = list(wanted)
    for start in range(0, len(keys), AT_ONCE):
        _put(session, {key: wanted[key] for key in keys[start : start + AT_ONCE]})


def _put(session: Session, wanted: dict[tuple[str, int], Document]) -> None:
    connection = session.connection()
    table = metadata.tables["find_words"]
    gone = []
    for old in connection.execute(select(table).where(tuple_(table.c.kind, table.c.ref_id).in_(wanted))):
        new = wanted[old.kind, old.ref_id]
        if (old.words, old.tails) == (new.words, new.tails):
            del wanted[old.kind, old.ref_id]
        else:
            gone.append(old.id)
    fts = has_fts(connection)
    if gone:
        session.execute(delete(FindWords).where(FindWords.id.in_(gone)))
        if fts:
            for name in ("find_fts", "find_tails"):
                connection.execute(text(f"DELETE FROM {name} WHERE rowid = :id"), [{"id": i} for i in gone])  # noqa: S608
    rows = [
        {"kind": d.kind, "ref_id": d.ref_id, "words": d.words, "tails": d.tails}
        for d in wanted.values()
        if d.words
    ]
    if not rows:
        return
    added = connection.execute(insert(table).returning(table.c.id, table.c.words, table.c.tails), rows).all()
    if fts:
        put_fts(connection, added)


def put_fts(connection: Connection, rows: Iterable[Sequence[Any]]) -> None:
    """Insert FTS rows: key of find_words, words, tails."""
    values = [{"id": i, "words": words, "tails": tails} for i, words, tails in rows]
    connection.execute(text("INSERT INTO find_fts(rowid, words) VALUES (:id, :words)"), values)
    connection.execute(text("INSERT INTO find_tails(rowid, tails) VALUES (:id, :tails)"), values)


def has_fts(connection: Connection) -> bool:
    """Whether this book answers by FTS (SQLite) or by the portable table alone."""
    return connection.dialect.name == "sqlite"
