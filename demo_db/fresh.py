"""A fresh copy of the demo shop for every start; the shop itself is built once a day and kept in the cache."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from app import __version__
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from demo_db.build import ZONE, build

KEPT_SECONDS = 24 * 3600
ROOT = Path(__file__).resolve().parents[1]


def fresh_demo(now: datetime, tell: Callable[[str], None], *, cache: Path | None = None) -> Path:
    """The path of a copy that can be worked on and thrown away; it is up to ``now``'s day. The first of a day
    is built, which takes a while and is told; the next ones are copied at once."""
    cache = cache or _cache()
    kept = cache / f"demo-{_state()}-{now.astimezone(ZONE).date().isoformat()}"
    try:
        cache.mkdir(parents=True, exist_ok=True)
        if not (kept / "book.sqlite").is_file():
            _build(kept, now, tell)
        _clear(cache, now)
        copy = Path(tempfile.mkdtemp(prefix="open-", dir=cache))
        for part in kept.iterdir():
            _copy(part, copy / part.name)
    except OSError as error:
        raise Refusal(
            Sentence("The demo shop could not be written: {why}.", {"why": error.strerror or str(error)}),
            Sentence("Look whether the disk has room and the folder may be written, then try again."),
        ) from error
    return copy / "book.sqlite"


def tour_folder() -> Path:
    """A new folder for the pictures and papers of a tour."""
    return Path(tempfile.mkdtemp(prefix="spindlebook-tour-"))


def _build(kept: Path, now: datetime, tell: Callable[[str], None]) -> None:
    """Build beside and rename, so that a build cut short is never taken for a shop; former shops go."""
    beside = Path(tempfile.mkdtemp(prefix="build-", dir=kept.parent))
    build(beside, now, tell)
    for old in kept.parent.glob("demo-*"):
        shutil.rmtree(old, ignore_errors=True)
    beside.rename(kept)


def _clear(cache: Path, now: datetime) -> None:
    """Take away copies of earlier days; one that was made today may still be open."""
    for old in cache.glob("open-*"):
        if old.stat().st_mtime < now.timestamp() - KEPT_SECONDS:
            shutil.rmtree(old, ignore_errors=True)


def _copy(part: Path, to: Path) -> None:
    if part.is_dir():
        shutil.copytree(part, to)
    else:
        shutil.copyfile(part, to)


def _cache() -> Path:
    from platformdirs import user_cache_path

    return user_cache_path("Spindlebook", appauthor=False)


def _state() -> str:
    """What the demo is made of, in a few letters: another program or another scenario builds another shop."""
    import hashlib

    digest = hashlib.sha256(__version__.encode())
    for folder in (ROOT / "demo_db", ROOT / "app" / "book", ROOT / "app" / "work", ROOT / "app" / "trade"):
        for path in sorted(folder.rglob("*")):
            if path.suffix in (".py", ".toml"):
                stat = path.stat()
                digest.update(f"{path.relative_to(ROOT)} {stat.st_size} {stat.st_mtime_ns}".encode())
    return digest.hexdigest()[:12]
