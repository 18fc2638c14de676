"""Looks through a closed book file from end to end, without a lock, a journal or a changed byte."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime
from pathlib import Path

from sqlalchemy import Connection, text
from sqlalchemy.exc import DBAPIError

from app.book.chain import START, walk
from app.book.columns import EPOCH, MICROSECOND
from app.book.disk import hash_of
from app.book.engine import sealed_engine
from app.book.file_header import SCHEMA, read_header
from app.trade.sentence import Sentence, words
from app.trade.settings.shop import LOGO

Watch = Callable[[Sentence], None]  # told before each part; may raise to stop
FILED = ("attachments", "papers")  # tables whose rows name files by their hash
MOST_FINDINGS = 20
# Alone on a disk this takes seconds for a large book: the parts in their order, as people read them.
BYTES = words("every byte of the copy")
PAGES = words("pages of the copy")
LINKS = words("rows of the copy and what they point at")
HISTORY = words("rows of history in the copy")
PARTS = (BYTES, PAGES, LINKS, HISTORY)


def unwatched(part: Sentence) -> None:
    """Nobody wants to know which part is at hand."""


@dataclass(frozen=True)
class Soundness:
    """What a book file holds, and what is wrong with it (``found``: nothing means sound)."""

    size: int
    schema: int
    sha256: str = ""
    rows: Mapping[str, int] = field(default_factory=dict)  # by table
    chain_rows: int = 0
    head: str = START
    first: str = ""  # hash of the first history row: tells one book from another
    last_at: datetime | None = None
    files: tuple[str, ...] = ()
    found: tuple[Sentence, ...] = ()

    @property
    def jobs(self) -> int:
        """How many jobs are in it."""
        return self.rows.get("jobs", 0)


def examine(path: Path, watch: Watch = unwatched) -> Soundness:
    """Examine a file that nobody has open: header, pages, foreign keys, chain, rows. Raises OSError only.

    ``watch`` is told each of `PARTS` before it begins.
    """
    header = read_header(path)
    what = Soundness(header.size, header.schema)
    if not header.is_sqlite or not header.ours:
        return _with(what, Sentence("It is not a Spindlebook book."))
    if header.schema > SCHEMA:
        return _with(what, Sentence("It was written by a newer Spindlebook."))
    if not header.whole:
        return _with(what, Sentence("Its end is missing."))
    engine = sealed_engine(path)
    try:
        with engine.connect() as connection:
            watch(Sentence(BYTES))
            what = Soundness(header.size, header.schema, hash_of(path))
            return _look(connection, what, watch)
    except (DBAPIError, UnicodeDecodeError) as error:
        cause = error.orig if isinstance(error, DBAPIError) else error
        return _with(what, Sentence("It is damaged: {why}.", {"why": str(cause)}))
    finally:
        engine.dispose()


def _look(connection: Connection, what: Soundness, watch: Watch) -> Soundness:
    # Of a damaged file nothing more is read: what comes out of it may be anything.
    watch(Sentence(PAGES))
    found = page_findings(connection)
    watch(Sentence(LINKS))
    found += foreign_key_findings(connection)
    if found:
        return replace(what, found=tuple(found))
    watch(Sentence(HISTORY))
    chain = walk(connection)
    if chain.first_bad:
        return replace(what, found=(chain_finding(chain.first_bad, chain.why),))
    first = connection.execute(text("SELECT hash FROM history WHERE seq = 1")).scalar()
    last_at = connection.execute(text("SELECT at FROM history ORDER BY seq DESC LIMIT 1")).scalar()
    return replace(
        what,
        rows=row_counts(connection),
        chain_rows=chain.rows,
        head=chain.head,
        first=first or "",
        last_at=None if last_at is None else EPOCH + last_at * MICROSECOND,
        files=filed_hashes(connection),
    )


def page_findings(connection: Connection) -> list[Sentence]:
    """What SQLite's own full check says, at most the first few."""
    lines = connection.exec_driver_sql(f"PRAGMA integrity_check({MOST_FINDINGS})").scalars().all()
    return [
        Sentence("The file is damaged inside: {why}.", {"why": str(line)}) for line in lines if line != "ok"
    ]


def foreign_key_findings(connection: Connection) -> list[Sentence]:
    """Rows that point at rows which are not there, counted by table."""
    lost: dict[tuple[str, str], int] = {}
    for table, _, parent, _ in connection.exec_driver_sql("PRAGMA foreign_key_check"):
        lost[table, parent] = lost.get((table, parent), 0) + 1
    return [
        Sentence(
            "In {table}, {count} rows point at rows of {parent} that are not there.",
            {"table": table, "count": count, "parent": parent},
        )
        for (table, parent), count in sorted(lost.items())
    ]


def chain_finding(seq: int, why: Sentence | None) -> Sentence:
    """The sentence about the first bad row of history."""
    return Sentence(
        "History is broken at row {seq}: {why}.",
        {"seq": seq, "why": why or Sentence("its content was changed")},
    )


def row_counts(connection: Connection) -> dict[str, int]:
    """How many rows each table of ours has."""
    return {
        name: connection.exec_driver_sql(f'SELECT count(*) FROM "{name}"').scalar_one()  # noqa: S608
        for name in table_names(connection)
    }


def table_names(connection: Connection) -> list[str]:
    """The tables of the file, without SQLite's own and the search index's inner ones."""
    return [
        str(name)
        for (name,) in connection.exec_driver_sql(
            "SELECT name FROM sqlite_master WHERE type = 'table' AND sql NOT LIKE 'CREATE VIRTUAL%'"
            " AND name NOT LIKE 'sqlite\\_%' ESCAPE '\\' AND name NOT LIKE 'find\\_fts%' ESCAPE '\\'"
            " AND name NOT LIKE 'find\\_tails%' ESCAPE '\\' ORDER BY name"
        )
    ]


def filed_hashes(connection: Connection) -> tuple[str, ...]:
    """The hash of every file that a row of the book names: attachments, filed papers, the shop's logo."""
    named = [f"SELECT sha256 FROM {table} WHERE sha256 <> ''" for table in FILED]  # noqa: S608
    named.append("SELECT trim(value, '\"') FROM settings WHERE key = :logo AND length(value) = 66")
    union = " UNION ".join(named)
    return tuple(
        str(h) for h in connection.execute(text(f"{union} ORDER BY 1"), {"logo": LOGO.key}).scalars()
    )


def _with(what: Soundness, why: Sentence) -> Soundness:
    return replace(what, found=(why,))
