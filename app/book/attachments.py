"""Files beside the book: each under the SHA-256 of its bytes, on the disk before its row is written."""

from __future__ import annotations

import errno
import hashlib
import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from uuid import uuid4

from app.book.disk import chunks_of, copy_hashed, flush, flush_folder, hash_of, megabytes, open_plain
from app.trade.refusal import Fault, Refusal
from app.trade.sentence import Sentence

LIMIT = 64 * 1024 * 1024  # bytes of one file
LONGEST_NAME = 200
_HASH = re.compile(r"[0-9a-f]{64}")


@dataclass(frozen=True, slots=True)
class Stored:
    """A file that is surely on the disk."""

    sha256: str
    size: int


def store(files: Path, content: bytes | Path, *, limit: int = LIMIT) -> Stored:
    """Put bytes or a plain file under ``files``; the same content is kept once. Write the row afterwards.

    Raises Refusal for a link, a folder, a file that cannot be read, or one larger than ``limit`` bytes.
    """
    beside = files / f"{uuid4().hex}.part"
    try:
        _real_folder(files)
        stored = _write(beside, content, limit)
        final = place_of(files, stored.sha256)
        _real_folder(final.parent)
        if final.is_file() and not final.is_symlink() and hash_of(final) == stored.sha256:
            return stored
        beside.replace(final)
        flush_folder(final.parent)
    except OSError as error:
        raise Refusal(
            Sentence(
                "The file could not be put beside the book: {why}.", {"why": error.strerror or str(error)}
            ),
            Sentence("Look whether the file can be read and the disk has room, then try again."),
        ) from error
    finally:
        beside.unlink(missing_ok=True)
    return stored


def _write(beside: Path, content: bytes | Path, limit: int) -> Stored:
    digest, size = hashlib.sha256(), 0
    pieces: Iterable[bytes]
    with beside.open("xb") as writing:
        if isinstance(content, bytes):
            pieces, reading = (content,), None
        else:
            reading = open_plain(content)
            pieces = chunks_of(reading)
        try:
            for piece in pieces:
                size += len(piece)
                if size > limit:
                    raise Refusal(
                        Sentence("The file is larger than {size}.", {"size": megabytes(limit)}),
                        Sentence("Make it smaller, or keep it elsewhere and note where."),
                    )
                digest.update(piece)
                writing.write(piece)
        finally:
            if reading is not None:
                reading.close()
        flush(writing)
    return Stored(digest.hexdigest(), size)


def read(files: Path, sha256: str) -> bytes:
    """The bytes of a stored file, compared with their hash. Raises Refusal when missing or damaged."""
    try:
        with open_plain(place_of(files, sha256)) as file:
            content = file.read()
    except OSError as error:
        raise Refusal(
            Sentence("A file that belongs to the book is missing."),
            Sentence("Restore a copy that still has it: Book, Check names it."),
        ) from error
    if hashlib.sha256(content).hexdigest() != sha256:
        raise Refusal(
            Sentence("A file that belongs to the book is damaged."),
            Sentence("Restore a copy that still has it: Book, Check names it."),
        )
    return content


def is_whole(files: Path, sha256: str) -> bool:
    """Whether the stored file is there and its bytes are those that were stored."""
    try:
        return hash_of(place_of(files, sha256)) == sha256
    except OSError:
        return False


def copy_missing(
    files: Path, to: Path, hashes: Iterable[str], *, every_byte: bool = False
) -> tuple[int, tuple[str, ...]]:
    """Copy what ``to`` does not have yet; gives how many were copied, and the hashes that nobody has whole.

    What lies in ``to`` with the right size is taken as whole, unless ``every_byte`` is to be compared.
    Raises OSError when ``to`` cannot be written.
    """
    copied, lacking = 0, []
    for sha256 in hashes:
        source, target = place_of(files, sha256), place_of(to, sha256)
        there, here = size_of(source), size_of(target)
        if is_whole(to, sha256) if every_byte else here is not None and there in (None, here):
            continue
        if there is None:
            lacking.append(sha256)
            continue
        _real_folder(target.parent)
        beside = target.with_name(f"{uuid4().hex}.part")
        try:
            if copy_hashed(source, beside) != sha256:
                lacking.append(sha256)
                continue
            beside.replace(target)
            flush_folder(target.parent)
            copied += 1
        finally:
            beside.unlink(missing_ok=True)
    return copied, tuple(lacking)


def size_of(path: Path) -> int | None:
    """The size of a plain file, None when there is none."""
    try:
        return path.stat().st_size if not path.is_symlink() and path.is_file() else None
    except OSError:
        return None


def place_of(files: Path, sha256: str) -> Path:
    """Where a file with this hash lies. The hash is ours: anything else is a Fault, never a path."""
    if not _HASH.fullmatch(sha256):
        raise Fault(f"not a SHA-256: {sha256!r}")
    return files / sha256[:2] / sha256


def kept_name(name: str) -> str:
    """A file's own name as plain data: its last part, without control or direction marks, cut to fit."""
    last = re.split(r"[/\\]", name)[-1]
    shown = "".join(c for c in last if unicodedata.category(c) not in ("Cc", "Cf", "Cs", "Co", "Cn"))
    return shown.strip()[-LONGEST_NAME:] or "file"


def _real_folder(folder: Path) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    if folder.is_symlink():
        raise OSError(errno.ELOOP, "its folder is a link", str(folder))
