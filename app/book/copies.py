"""Copies of the book: their names, what their sidecars say, and which lie in a folder."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from enum import StrEnum
from pathlib import Path
from typing import Any

from app import __version__
from app.book.disk import write_whole
from app.book.file_header import read_header
from app.book.soundness import Soundness
from app.trade.sentence import words

NAMED = re.compile(r".*-(\d{8}T\d{6})Z(?:-\d+)?\.sqlite")  # names that `free_name` gives


class Why(StrEnum):
    """What a copy was made for."""

    CLOSING = words("on closing")
    BY_HAND = words("by hand")
    UPGRADE = words("before an upgrade")
    RESTORE = words("before a restore")
    UNKNOWN = words("not known")


@dataclass(frozen=True)
class Copy:
    """A copy as its sidecar describes it. ``checked`` False: there is none, or the file has changed since."""

    path: Path
    made_at: datetime
    why: Why
    size: int
    schema: int
    checked: bool
    sha256: str = ""
    jobs: int = 0
    history_rows: int = 0
    head: str = ""
    first: str = ""  # hash of the book's first history row: which book it is a copy of
    last_at: datetime | None = None
    files_lacking: int = 0
    rows: Mapping[str, int] = field(default_factory=dict)


def copies_folder(book: Path) -> Path:
    """Where copies go when nobody says where: a folder beside the book."""
    return book.with_name(f"{book.stem}.copies")


def sidecar_of(copy: Path) -> Path:
    """The file that says what a copy holds."""
    return copy.with_name(f"{copy.name}.json")


def free_name(folder: Path, stem: str, now: datetime) -> Path:
    """A name that no copy in the folder has: the book's stem and the instant in UTC."""
    base = f"{stem}-{now.astimezone(UTC):%Y%m%dT%H%M%SZ}"
    path, again = folder / f"{base}.sqlite", 2
    while path.exists() or sidecar_of(path).exists():
        path, again = folder / f"{base}-{again}.sqlite", again + 1
    return path


def write_sidecar(copy: Path, sound: Soundness, now: datetime, why: Why, lacking: int) -> Copy:
    """Write down what the copy holds, for a copy that was found sound."""
    told = {
        "program": f"Spindlebook {__version__}",
        "copy": copy.name,
        "made_at": now.isoformat(),
        "why": str(why),
        "size": sound.size,
        "schema": sound.schema,
        "sha256": sound.sha256,
        "chain": {"rows": sound.chain_rows, "head": sound.head, "first": sound.first},
        "last_history_at": sound.last_at.isoformat() if sound.last_at else None,
        "files": len(sound.files),
        "files_lacking": lacking,
        "rows": dict(sound.rows),
    }
    write_whole(sidecar_of(copy), json.dumps(told, indent=1, ensure_ascii=False).encode())
    return _copy(copy, told)


def read_copy(path: Path) -> Copy:
    """One copy, from its sidecar and its first 100 bytes; quick. Raises OSError when it is not there."""
    header = read_header(path)
    told = _sidecar(path)
    if told is not None:
        try:
            copy = _copy(path, told)
        except (KeyError, TypeError, ValueError):
            pass
        else:
            fits = header.ours and (copy.size, copy.schema) == (header.size, header.schema)
            return replace(copy, size=header.size, schema=header.schema, checked=fits)
    return Copy(path, _instant_of(path), Why.UNKNOWN, header.size, header.schema, checked=False)


def list_copies(folder: Path) -> list[Copy]:
    """The copies that lie in a folder, newest first; an empty list when there is no such folder."""
    if not folder.is_dir():
        return []
    found = []
    for path in folder.glob("*.sqlite"):
        if not NAMED.fullmatch(path.name):  # a book, perhaps one in use, which must not be read past SQLite
            continue
        try:
            found.append(read_copy(path))
        except OSError:  # gone or not readable just now: not a copy that can be offered
            continue
    return sorted(found, key=lambda copy: (copy.made_at, len(copy.path.name), copy.path.name), reverse=True)


def _sidecar(copy: Path) -> dict[str, Any] | None:
    try:
        told = json.loads(sidecar_of(copy).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return None
    return told if isinstance(told, dict) else None


def _copy(path: Path, told: Mapping[str, Any]) -> Copy:
    chain = told["chain"]
    made_at = datetime.fromisoformat(told["made_at"])
    if made_at.tzinfo is None:
        raise ValueError("a naive instant")
    return Copy(
        path=path,
        made_at=made_at,
        why=Why(told["why"]),
        size=int(told["size"]),
        schema=int(told["schema"]),
        checked=True,
        sha256=str(told["sha256"]),
        jobs=int(told["rows"].get("jobs", 0)),
        history_rows=int(chain["rows"]),
        head=str(chain["head"]),
        first=str(chain["first"]),
        last_at=datetime.fromisoformat(told["last_history_at"]) if told["last_history_at"] else None,
        files_lacking=int(told["files_lacking"]),
        rows={str(name): int(count) for name, count in told["rows"].items()},
    )


def _instant_of(path: Path) -> datetime:
    """When a copy without a sidecar was made: by its name, else by its file."""
    if named := NAMED.fullmatch(path.name):
        try:
            return datetime.strptime(f"{named[1]}+0000", "%Y%m%dT%H%M%S%z")
        except ValueError:
            pass
    return datetime.fromtimestamp(path.stat().st_mtime, UTC)
