"""The content of files kept with a job."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from app.trade.refusal import Refusal
from app.work.bench.files import kept_file
from app.work.bench.work_done import attach_file


def test_a_kept_file_comes_back_byte_for_byte(bench: Any, tmp_path: Path) -> None:
    photo = tmp_path / "flex before.png"
    photo.write_bytes(b"\x89PNG\r\n not really")
    key = attach_file(bench.book, bench.tobbe, bench.job, photo).value
    kept = kept_file(bench.book, key)
    assert (kept.name, kept.media_type) == ("flex before.png", "image/png")
    assert kept.content == photo.read_bytes()


def test_a_file_that_is_gone_from_the_disk_is_told(bench: Any, tmp_path: Path) -> None:
    note = tmp_path / "note.txt"
    note.write_text("arm swings freely")
    key = attach_file(bench.book, bench.tobbe, bench.job, note).value
    for stored in bench.book.files.rglob("*"):
        if stored.is_file():
            stored.unlink()
    with pytest.raises(Refusal, match="missing"):
        kept_file(bench.book, key)
