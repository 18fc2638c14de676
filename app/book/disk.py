"""Files that are surely on the disk: written beside, flushed, renamed, and their folder flushed too."""

from __future__ import annotations

import errno
import hashlib
import os
import shutil
import stat
import sys
from collections.abc import Iterator, Sequence
from decimal import ROUND_CEILING, Decimal
from pathlib import Path
from typing import IO

from app.trade.refusal import Refusal
from app.trade.sentence import Measure, Sentence

CHUNK = 1 << 20
JOURNALS = ("-journal", "-wal", "-shm")  # what SQLite keeps beside a database while it is in use
MEGABYTE = 1024 * 1024


def open_plain(path: Path) -> IO[bytes]:
    """Open a regular file for reading and follow no link. Raises OSError; a link or a folder is one too."""
    flags = (
        os.O_RDONLY | getattr(os, "O_BINARY", 0) | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0)
    )
    if path.is_symlink():  # where the system has no O_NOFOLLOW
        raise OSError(errno.ELOOP, "it is a link", str(path))
    handle = os.open(path, flags)
    if not stat.S_ISREG(os.fstat(handle).st_mode):
        os.close(handle)
        raise OSError(errno.EINVAL, "it is no plain file", str(path))
    return os.fdopen(handle, "rb")


def chunks_of(file: IO[bytes]) -> Iterator[bytes]:
    """The file's bytes, a piece at a time."""
    while piece := file.read(CHUNK):
        yield piece


def hash_of(path: Path) -> str:
    """SHA-256 of a plain file, in hex. Never for a book in use: closing it would drop SQLite's own locks."""
    digest = hashlib.sha256()
    with open_plain(path) as file:
        for piece in chunks_of(file):
            digest.update(piece)
    return digest.hexdigest()


def flush(file: IO[bytes]) -> None:
    """Have the system put this file's bytes on the disk before anything else happens."""
    file.flush()
    os.fsync(file.fileno())


def flush_file(path: Path) -> None:
    """The same for a file that is closed."""
    with path.open("rb+") as file:
        os.fsync(file.fileno())


def flush_folder(folder: Path) -> None:
    """Put the folder's list of names on the disk, so that a renamed file is found after a power cut."""
    if sys.platform == "win32":  # pragma: no cover  # folders cannot be opened there; NTFS journals names
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def write_whole(path: Path, data: bytes) -> None:
    """Write a small file so that at ``path`` there is always either the old one or the new one, whole."""
    beside = path.with_name(f"{path.name}.part")
    with beside.open("wb") as file:
        file.write(data)
        flush(file)
    beside.replace(path)
    flush_folder(path.parent)


def lay_in_place(beside: Path, folder: Path, names: Sequence[str]) -> None:
    """Move finished files from ``beside`` to ``folder``, flushed first, then all in a moment; then flush the folder.

    Ctrl+C while they move comes too late: half of them would be neither old nor new.
    """
    for name in names:
        flush_file(beside / name)
    laid = False
    while not laid:
        try:
            for name in names:
                if (beside / name).exists():
                    (beside / name).replace(folder / name)
            laid = True
        except KeyboardInterrupt:
            continue
    flush_folder(folder)


def copy_hashed(source: Path, target: Path) -> str:
    """Copy a closed plain file to ``target``, flushed; gives the SHA-256 of what was read and written."""
    digest = hashlib.sha256()
    with open_plain(source) as reading, target.open("wb") as writing:
        for piece in chunks_of(reading):
            digest.update(piece)
            writing.write(piece)
        flush(writing)
    return digest.hexdigest()


def journals_of(path: Path) -> list[Path]:
    """The journals that lie beside a database file just now."""
    return [beside for end in JOURNALS if (beside := path.with_name(path.name + end)).exists()]


def remove_with_journals(path: Path) -> None:
    """Remove a database file that is nobody's any more, and what SQLite kept beside it."""
    for file in (path, *journals_of(path)):
        file.unlink(missing_ok=True)


def need_room(folder: Path, size: int) -> None:
    """Raise Refusal when the disk of ``folder`` has no room for so many bytes."""
    if shutil.disk_usage(folder).free < size:
        raise Refusal(
            Sentence(
                "The disk of {folder} has no room for {size}.",
                {"folder": str(folder), "size": megabytes(size)},
            ),
            Sentence("Make room on that disk, or choose another folder."),
        )


def megabytes(size: int) -> Measure:
    """A size in bytes as people read it, rounded up."""
    return Measure((Decimal(size) / MEGABYTE).to_integral_value(ROUND_CEILING), "MB")
