"""Photos and files of a job: kept by what they are, without what a photo tells of place and time."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from app.book import attachments
from app.trade.refusal import Refusal
from app.work.bench.files import attach_file, caption_file, kept_file


def photo_at(path: Path, kind: str = "JPEG", **more: Any) -> Path:
    """A photo with a camera, a place and a way to be turned in its Exif."""
    exif = Image.Exif()
    exif[0x010F] = "Camera maker of no name"
    exif[0x0112] = 6
    exif.get_ifd(0x8825)[1] = "N"
    Image.new("RGB", (64, 48), (120, 90, 60)).save(path, format=kind, exif=exif, **more)
    return path


def test_a_kept_file_comes_back_byte_for_byte(bench: Any, tmp_path: Path) -> None:
    trace = tmp_path / "trace.csv"
    trace.write_bytes(b"t,v\n0,1\n")
    key = attach_file(bench.book, bench.tobbe, bench.job, trace).value
    kept = kept_file(bench.book, key)
    assert (kept.name, kept.media_type) == ("trace.csv", "text/csv")
    assert kept.content == trace.read_bytes()


@pytest.mark.parametrize(
    ("kind", "media"), [("JPEG", "image/jpeg"), ("PNG", "image/png"), ("WEBP", "image/webp")]
)
def test_a_photo_loses_what_it_tells_of_place_and_camera_and_keeps_its_picture(
    bench: Any, tmp_path: Path, kind: str, media: str
) -> None:
    path = photo_at(tmp_path / "flex.jpg", kind)
    assert b"Camera maker" in path.read_bytes()
    key = attach_file(bench.book, bench.tobbe, bench.job, path).value
    kept = kept_file(bench.book, key)
    assert kept.media_type == media, "by content, whatever the file is called"
    assert b"Camera maker" not in kept.content
    with Image.open(BytesIO(kept.content)) as now, Image.open(path) as before:  # oracle: Pillow
        assert now.tobytes() == before.tobytes()
        assert 0x8825 not in now.getexif()
        assert now.getexif().get(0x0112, 1) == (1 if kind == "WEBP" else 6)


def test_what_is_no_picture_in_spite_of_its_name_is_a_plain_file(bench: Any, tmp_path: Path) -> None:
    for name in ("photo.jpg", "trace.zzz"):
        (tmp_path / name).write_bytes(b"not really a picture")
        attach_file(bench.book, bench.tobbe, bench.job, tmp_path / name, note=" before\nthe work ")
    first, second = bench.sheet.files
    assert (first.media_type, first.size, first.note) == ("application/octet-stream", 20, "before the work")
    assert second.media_type == "application/octet-stream"
    assert attachments.read(bench.book.files, first.sha256) == b"not really a picture"


def test_a_photo_that_is_cut_off_is_refused_with_what_to_do(bench: Any, tmp_path: Path) -> None:
    whole = photo_at(tmp_path / "whole.png", "PNG").read_bytes()
    cut = tmp_path / "cut.png"
    cut.write_bytes(whole[:-20])
    with pytest.raises(Refusal, match="damaged"):
        attach_file(bench.book, bench.tobbe, bench.job, cut)
    assert bench.sheet.files == ()


@pytest.mark.parametrize("head", [b"\0\0\0\x18ftypheic", b"II*\0\x08\0\0\0\0\0\0\0"])
def test_a_picture_whose_place_cannot_be_taken_out_is_refused(
    bench: Any, tmp_path: Path, head: bytes
) -> None:
    path = tmp_path / "photo.bin"
    path.write_bytes(head + bytes(20))
    with pytest.raises(Refusal, match="where and when") as refused:
        attach_file(bench.book, bench.tobbe, bench.job, path)
    assert refused.value.next_step is not None


def test_a_file_too_large_is_refused_with_the_size_it_may_have(
    bench: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(attachments, "LIMIT", 100)
    monkeypatch.setattr(attachments.store, "__kwdefaults__", {"limit": 100})
    with pytest.raises(Refusal, match="larger than"):
        attach_file(bench.book, bench.tobbe, bench.job, photo_at(tmp_path / "large.jpg"))


def test_a_file_that_is_not_there_is_said(bench: Any, tmp_path: Path) -> None:
    with pytest.raises(Refusal, match="could not be put beside the book"):
        attach_file(bench.book, bench.tobbe, bench.job, tmp_path / "gone.jpg")
    assert bench.sheet.files == ()


def test_a_caption_says_what_a_photo_shows_and_can_be_said_anew(bench: Any, tmp_path: Path) -> None:
    key = attach_file(bench.book, bench.tobbe, bench.job, photo_at(tmp_path / "flex.jpg")).value
    caption_file(bench.book, bench.tobbe, key, " flex torn\n at the fold ")
    assert bench.sheet.files[0].note == "flex torn at the fold"
    caption_file(bench.book, bench.tobbe, key, "")
    assert bench.sheet.files[0].note == ""


def test_a_file_that_is_gone_from_the_disk_is_told(bench: Any, tmp_path: Path) -> None:
    note = tmp_path / "note.txt"
    note.write_text("arm swings freely")
    key = attach_file(bench.book, bench.tobbe, bench.job, note).value
    for stored in bench.book.files.rglob("*"):
        if stored.is_file():
            stored.unlink()
    with pytest.raises(Refusal, match="missing"):
        kept_file(bench.book, key)
