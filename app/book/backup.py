"""Makes copies of a book while it is in use: one step, fully checked, then named. Never the raw file."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from contextlib import closing
from datetime import datetime
from pathlib import Path

from sqlalchemy.exc import DBAPIError

from app.book.attachments import copy_missing
from app.book.chain import START
from app.book.copies import NAMED, Copy, Why, free_name, sidecar_of, write_sidecar
from app.book.copy_state import keep_failure, keep_success, read_state
from app.book.disk import flush_file, flush_folder, need_room, remove_with_journals
from app.book.engine import BUSY_SECONDS
from app.book.lock import CopiesLock
from app.book.soundness import PARTS as EXAMINED
from app.book.soundness import Watch, examine, unwatched
from app.book.trouble import refusal_of
from app.trade.refusal import Fault, Refusal
from app.trade.sentence import Sentence, words

Step = Callable[[str], None]  # told after each step; tests end the process there
SPARE = 10 * 1024 * 1024  # bytes that stay free beside a copy
COPYING = words("copying the book")
FILES = words("photos and papers")
PARTS = (COPYING, *EXAMINED, FILES)


def no_step(name: str) -> None:
    """Nobody wants to know."""


def back_up(
    book: Path, folder: Path, now: datetime, why: Why, step: Step = no_step, watch: Watch = unwatched
) -> Copy:
    """Make a copy and keep word of it beside the book, also when it fails. Raises Refusal.

    ``watch`` is told each of `PARTS` before it begins; what it raises ends the copy, and is no failure of it.
    """
    try:
        copy = make_copy(book, folder, now, why, step, watch=watch)
    except Refusal as refusal:
        keep_failure(book, read_state(book), refusal, now)
        raise
    keep_success(book, copy)
    return copy


def make_copy(
    book: Path,
    folder: Path,
    now: datetime,
    why: Why,
    step: Step = no_step,
    *,
    files: Path | None = None,
    watch: Watch = unwatched,
) -> Copy:
    """A checked copy of the book in ``folder``, with its sidecar and the files it names. Raises Refusal.

    The book may be in use. A writer waits no longer than SQLite needs to copy the pages once. ``files`` is
    where its files lie when that is not beside it.
    """
    if not folder.parent.is_dir():
        raise Refusal(
            Sentence("There is no folder {folder}.", {"folder": str(folder.parent)}),
            Sentence("Plug in the drive it is on, or choose another folder for copies."),
        )
    try:
        folder.mkdir(exist_ok=True)
        with CopiesLock(folder):
            sweep(folder)
            need_room(folder, book.stat().st_size + SPARE)
            final = free_name(folder, book.stem, now)
            part = final.with_name(f"{final.name}.part")
            try:
                return _make(book, files or files_of(book), final, part, now, why, step, watch)
            finally:
                remove_with_journals(part)
    except sqlite3.Error as error:
        raise _refused(refusal_of(DBAPIError("", None, error))) from error
    except OSError as error:
        raise _refused_by_disk(folder, error) from error


def _make(
    book: Path, files: Path, final: Path, part: Path, now: datetime, why: Why, step: Step, watch: Watch
) -> Copy:
    watch(Sentence(COPYING))
    end = copy_pages(book, part)
    step("copied")
    flush_file(part)
    sound = examine(part, watch)
    if sound.found:
        raise Refusal(
            Sentence("The copy was made but is not sound: {why}", {"why": sound.found[0]}),
            Sentence("Look at Book, Check. Older copies are kept as they are."),
        )
    if (sound.chain_rows, sound.head) != end:
        raise Fault(f"the copy ends at {sound.chain_rows}, the book ended at {end[0]}")
    step("checked")
    watch(Sentence(FILES))
    _, lacking = copy_missing(files, final.parent / "files", sound.files)
    step("files")
    # The sidecar first: a copy under its final name always has one.
    copy = write_sidecar(final, sound, now, why, len(lacking))
    step("sidecar")
    part.replace(final)
    flush_folder(final.parent)
    step("named")
    return copy


def files_of(book: Path) -> Path:
    """The folder of attachments and filed papers, beside the book."""
    return book.with_name(f"{book.stem}.files")


def sweep(folder: Path) -> None:
    """Remove what a try that was cut off left behind, by our own names only. Only under the folder's lock."""
    for left in folder.glob("*.sqlite.*"):
        name, _, end = left.name.rpartition(".sqlite.")
        orphan = end == "json" and not left.with_suffix("").exists()
        if NAMED.fullmatch(f"{name}.sqlite") and (orphan or end.startswith("part") or end == "json.part"):
            left.unlink()


def copy_pages(book: Path, part: Path) -> tuple[int, str]:
    """SQLite's backup call in one step, from one snapshot; gives the end of history in that snapshot."""
    source_uri = f"{book.absolute().as_uri()}?mode=rw"  # a journal left by a kill must be played back first
    target_uri = f"{part.absolute().as_uri()}?mode=rwc&nolock=1"  # nobody else knows it; a share may not lock
    with closing(sqlite3.connect(source_uri, uri=True, timeout=BUSY_SECONDS, isolation_level=None)) as source:
        source.execute("PRAGMA trusted_schema = OFF")
        source.execute("BEGIN")
        end = source.execute("SELECT seq, hash FROM history ORDER BY seq DESC LIMIT 1").fetchone()
        with closing(sqlite3.connect(target_uri, uri=True, isolation_level=None)) as target:
            target.execute("PRAGMA synchronous = OFF")  # flushed as a whole afterwards
            source.backup(target, pages=-1)
        source.execute("ROLLBACK")
    _leave_wal(part)
    return (end[0], end[1]) if end else (0, START)


def _leave_wal(part: Path) -> None:
    """Mark the closed copy as one without a write-ahead log: bytes 18 and 19 of the header are 1.

    The file format: sqlite.org/fileformat.html, section 1.3.3. A copy is one file and stays one.
    """
    with part.open("rb+") as file:
        file.seek(18)
        file.write(b"\x01\x01")


def _refused(error: Exception) -> Exception:
    if not isinstance(error, Refusal):
        return error
    return Refusal(Sentence("The book cannot be copied: {why}", {"why": error.sentence}), error.next_step)


def _refused_by_disk(folder: Path, error: OSError) -> Refusal:
    return Refusal(
        Sentence(
            "No copy could be made in {folder}: {why}.",
            {"folder": str(folder), "why": error.strerror or str(error)},
        ),
        Sentence("Look whether the drive is there, may be written and has room, then try again."),
    )


__all__ = ["Copy", "Step", "Why", "back_up", "files_of", "make_copy", "no_step", "sidecar_of", "sweep"]
