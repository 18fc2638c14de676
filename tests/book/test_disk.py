"""Small files are replaced whole, copies are flushed, and the room on a disk is asked for first."""

from __future__ import annotations

import hashlib
import shutil
from decimal import Decimal
from pathlib import Path
from types import SimpleNamespace

import pytest

from app.book.disk import (
    copy_hashed,
    hash_of,
    journals_of,
    megabytes,
    need_room,
    remove_with_journals,
    write_whole,
)
from app.trade.refusal import Refusal
from app.trade.sentence import Measure


def test_a_small_file_is_replaced_whole_or_not_at_all(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "state.json"
    write_whole(path, b"first")
    write_whole(path, b"second")
    assert path.read_bytes() == b"second"

    def refuse(self: Path, target: Path) -> None:
        raise OSError(13, "Permission denied")

    monkeypatch.setattr(Path, "replace", refuse)
    with pytest.raises(OSError, match="Permission"):
        write_whole(path, b"third")
    assert path.read_bytes() == b"second"


def test_a_copy_says_what_it_read(tmp_path: Path) -> None:
    source = tmp_path / "a"
    source.write_bytes(b"x" * 3_000_000)
    expected = hashlib.sha256(source.read_bytes()).hexdigest()
    assert copy_hashed(source, tmp_path / "b") == expected == hash_of(tmp_path / "b")


def test_a_database_goes_with_its_journals(tmp_path: Path) -> None:
    path = tmp_path / "b.sqlite"
    for end in ("", "-journal", "-wal", "-shm"):
        (tmp_path / f"b.sqlite{end}").write_bytes(b"")
    (tmp_path / "b.sqlite.other").write_bytes(b"")
    assert len(journals_of(path)) == 3
    remove_with_journals(path)
    assert [p.name for p in tmp_path.iterdir()] == ["b.sqlite.other"]


def test_sizes_are_rounded_up() -> None:
    assert megabytes(1) == Measure(Decimal(1), "MB")
    assert megabytes(3 * 1024 * 1024) == Measure(Decimal(3), "MB")
    assert megabytes(3 * 1024 * 1024 + 1) == Measure(Decimal(4), "MB")


def test_room_is_asked_for_before_writing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    need_room(tmp_path, 1)
    monkeypatch.setattr(shutil, "disk_usage", lambda folder: SimpleNamespace(free=99))
    with pytest.raises(Refusal, match="no room"):
        need_room(tmp_path, 100)
    need_room(tmp_path, 99)
