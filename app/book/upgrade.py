"""Brings an older book up to date: on a copy, revision by revision, and then in its place in one rename."""

from __future__ import annotations

import sqlite3
import warnings
from contextlib import closing
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from sqlalchemy import Connection, text
from sqlalchemy.exc import SQLAlchemyError

from app.book.backup import SPARE, Step, back_up, no_step
from app.book.chain import walk
from app.book.copies import Why, copies_folder
from app.book.disk import copy_hashed, flush_file, flush_folder, journals_of, need_room, remove_with_journals
from app.book.engine import BUSY_SECONDS, WRITER, sqlite_engine
from app.book.file_header import SCHEMA
from app.book.lock import PlaceLock
from app.book.schema import make_indexes, make_triggers, schema_findings, stamp
from app.book.soundness import chain_finding, foreign_key_findings, page_findings, row_counts
from app.trade.refusal import BookRefused, Fault, Refusal
from app.trade.sentence import Sentence

if TYPE_CHECKING:
    from alembic.script import Script

MIGRATIONS = Path(__file__).resolve().parents[2] / "migrations"


def upgrade(
    book: Path,
    now: datetime,
    *,
    scripts: Path = MIGRATIONS,
    target: int = SCHEMA,
    copies: Path | None = None,
    step: Step = no_step,
) -> None:
    """Upgrade the book, whose window lock the caller holds. Raises BookRefused; then the book is the old one.

    A verified copy comes first. The work is done on a second one, which replaces the book only when every
    revision went through and everything was counted again.
    """
    place = PlaceLock(book, alone=True)
    working = book.with_name(f"{book.name}.upgrading")
    place.take()
    try:
        saved = back_up(book, copies or copies_folder(book), now, Why.UPGRADE)
        step("saved")
        need_room(book.parent, saved.size + SPARE)
        remove_with_journals(working)
        with closing(sqlite3.connect(book, timeout=BUSY_SECONDS, isolation_level=None)) as present:
            present.execute("BEGIN IMMEDIATE")  # nobody writes into what is about to be replaced
            if copy_hashed(saved.path, working) != saved.sha256:
                raise Fault(f"{saved.path} changed while it was read")
            step("copied")
            run_revisions(working, scripts, target, step)
            flush_file(working)
            step("finished")
            present.execute("ROLLBACK")
        if journals_of(book) or journals_of(working):
            raise Fault("a journal was left, so the files cannot be exchanged")
        working.replace(book)
        flush_folder(book.parent)
        step("swapped")
    except (OSError, sqlite3.Error, SQLAlchemyError, Refusal, Fault) as error:
        raise _refused(book, error) from error
    finally:
        remove_with_journals(working)
        place.release()


def run_revisions(path: Path, scripts: Path, target: int, step: Step = no_step) -> None:
    """Run what is missing on the file at ``path``, each revision in one transaction. Raises Fault.

    Foreign keys are off on the connection from its start: with them on, the rebuild of a parent table
    would empty its children, and inside a transaction the switch does nothing.
    """
    engine = sqlite_engine(path, foreign_keys=False)
    try:
        with engine.execution_options(**{WRITER: True}).connect() as connection:
            for script in _missing(connection, scripts):
                with connection.begin():
                    _run(connection, script)
                step(f"revision {script.revision}")
            with connection.begin():
                make_indexes(connection)
                make_triggers(connection)
                stamp(connection, target)
            step("triggers")
            with connection.begin():
                _require_sound(connection)
    finally:
        engine.dispose()


def _missing(connection: Connection, scripts: Path) -> list[Script]:
    """The revisions that this book has not seen, oldest first."""
    from alembic.script import ScriptDirectory

    with connection.begin():
        current = connection.execute(text("SELECT version_num FROM alembic_version")).scalar_one_or_none()
    directory = ScriptDirectory(str(scripts))
    return list(reversed(list(directory.iterate_revisions("heads", current))))


def _run(connection: Connection, script: Script) -> None:
    """One revision, and what must be true after it. A module may name tables that lose rows by intent."""
    from alembic.migration import MigrationContext
    from alembic.operations import Operations

    before = row_counts(connection)
    for (name,) in connection.exec_driver_sql("SELECT name FROM sqlite_master WHERE type = 'trigger'").all():
        connection.exec_driver_sql(f'DROP TRIGGER "{name}"')  # a revision may touch what nobody else may
    with warnings.catch_warnings(), Operations.context(MigrationContext.configure(connection)):
        # A rebuilt table loses such indexes; all that are missing are made anew behind the last revision.
        warnings.filterwarnings("ignore", "Skipped unsupported reflection of expression-based index")
        script.module.upgrade()
    connection.execute(text("DELETE FROM alembic_version"))
    connection.execute(text("INSERT INTO alembic_version VALUES (:new)"), {"new": script.revision})
    if found := foreign_key_findings(connection):
        raise Fault(f"revision {script.revision}: {found[0]}")
    after = row_counts(connection)
    may_lose = getattr(script.module, "loses_rows", ())
    for table, count in before.items():
        if after.get(table, 0) < count and table not in may_lose:
            raise Fault(f"revision {script.revision}: {table} had {count} rows and has {after.get(table, 0)}")


def _require_sound(connection: Connection) -> None:
    found = [*page_findings(connection), *foreign_key_findings(connection), *schema_findings(connection)]
    chain = walk(connection)
    if chain.first_bad:
        found.append(chain_finding(chain.first_bad, chain.why))
    if found:
        raise Refusal(found[0])


def _refused(book: Path, error: Exception) -> BookRefused:
    if isinstance(error, BookRefused):
        return error
    why = error.sentence if isinstance(error, Refusal) else Sentence("{why}", {"why": str(error)})
    return BookRefused(
        Sentence("{path} could not be brought up to date: {why}", {"path": str(book), "why": why}),
        Sentence("The book is as it was; go on with the former program. A copy was made if the disk let us."),
    )
