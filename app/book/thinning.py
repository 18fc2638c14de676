"""Thins the copies in a folder by the keep rule, and the files beside them that no copy names any more."""

from __future__ import annotations

from datetime import datetime, tzinfo
from pathlib import Path

from sqlalchemy.exc import DBAPIError

from app.book.copies import Copy, list_copies, sidecar_of
from app.book.engine import sealed_engine
from app.book.lock import CopiesLock
from app.book.soundness import filed_hashes
from app.trade.upkeep.keep_rule import BackupMade, thinned


def thin(folder: Path, first: str, now: datetime, zone: tzinfo) -> tuple[Path, ...]:
    """Delete the copies of one book that the keep rule lets go; gives their paths.

    ``first`` is the hash of the book's first history row. Copies of other books, and files that no sidecar
    vouches for, are left alone. Raises Refusal when a copy is being made in the folder, OSError.
    """
    with CopiesLock(folder):
        ours = {copy.path.name: copy for copy in list_copies(folder) if copy.checked and copy.first == first}
        gone = [ours[made.name].path for made in thinned(map(_made, ours.values()), now, zone)]
        for path in gone:
            path.unlink()
            sidecar_of(path).unlink(missing_ok=True)
        if gone:
            _drop_files(folder)
    return tuple(gone)


def _made(copy: Copy) -> BackupMade:
    return BackupMade(copy.path.name, copy.made_at, copy.history_rows, copy.checked)


def _drop_files(folder: Path) -> None:
    """Delete files that no copy names. One copy that cannot be read is reason enough to keep them all."""
    named: set[str] = set()
    for path in folder.glob("*.sqlite"):
        engine = sealed_engine(path)
        try:
            with engine.connect() as connection:
                named.update(filed_hashes(connection))
        except DBAPIError:
            return
        finally:
            engine.dispose()
    for file in (folder / "files").glob("??/*"):
        if file.name not in named:
            file.unlink()
