"""Files beside the book: by their hash, whole or not at all, and never a way out of their folder."""

from __future__ import annotations

import hashlib
import os
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.book import attachments
from app.book.attachments import copy_missing, is_whole, kept_name, place_of, read, store
from app.trade.refusal import Fault, Refusal

DATA = b"a photo of a worn spindle"
HASH = hashlib.sha256(DATA).hexdigest()


@pytest.fixture
def files(tmp_path: Path) -> Path:
    return tmp_path / "book.files"


def test_bytes_and_files_land_under_their_hash_and_once(files: Path, tmp_path: Path) -> None:
    source = tmp_path / "photo.jpg"
    source.write_bytes(DATA)
    for content in (DATA, source, DATA):
        stored = store(files, content)
        assert (stored.sha256, stored.size) == (HASH, len(DATA))
    assert [path.relative_to(files) for path in files.rglob("*") if path.is_file()] == [Path(HASH[:2]) / HASH]
    assert read(files, HASH) == DATA
    assert is_whole(files, HASH)


def test_a_file_and_its_folder_are_flushed_before_it_counts_as_stored(
    files: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    synced: list[str] = []
    real = os.fsync

    def note(handle: int) -> None:
        synced.append(str(Path(f"/proc/self/fd/{handle}").readlink()))
        real(handle)

    monkeypatch.setattr(os, "fsync", note)
    store(files, DATA)
    assert synced[0].endswith(".part")
    assert synced[-1] == str(files / HASH[:2])


def test_a_stored_file_that_was_damaged_is_told_and_put_right_by_storing_again(files: Path) -> None:
    store(files, DATA)
    place_of(files, HASH).write_bytes(b"damaged")
    assert not is_whole(files, HASH)
    with pytest.raises(Refusal, match="damaged"):
        read(files, HASH)
    store(files, DATA)
    assert read(files, HASH) == DATA


def test_a_missing_file_is_told(files: Path) -> None:
    assert not is_whole(files, HASH)
    with pytest.raises(Refusal, match="missing"):
        read(files, HASH)


def test_too_large_a_file_is_refused_and_leaves_nothing(files: Path) -> None:
    store(files, b"x" * 10, limit=10)
    with pytest.raises(Refusal, match="larger than"):
        store(files, b"x" * 11, limit=10)
    assert not list(files.rglob("*.part"))


@pytest.mark.parametrize("kind", ["link", "folder", "missing", "pipe"])
def test_only_plain_files_are_taken(files: Path, tmp_path: Path, kind: str) -> None:
    source = tmp_path / "source"
    secret = tmp_path / "secret"
    secret.write_bytes(b"somebody's key")
    match kind:
        case "link":
            source.symlink_to(secret)
        case "folder":
            source.mkdir()
        case "pipe":
            os.mkfifo(source)
    with pytest.raises(Refusal) as told:
        store(files, source)
    assert told.value.next_step is not None
    assert not list(files.rglob("*.part"))


def test_a_link_in_the_place_of_a_stored_file_is_not_followed(files: Path, tmp_path: Path) -> None:
    store(files, DATA)
    other = tmp_path / "other"
    other.write_bytes(DATA)
    place_of(files, HASH).unlink()
    place_of(files, HASH).symlink_to(other)
    assert not is_whole(files, HASH)
    store(files, DATA)
    assert not place_of(files, HASH).is_symlink()
    assert other.read_bytes() == DATA


def test_a_folder_that_is_a_link_is_refused(files: Path, tmp_path: Path) -> None:
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    files.mkdir()
    (files / HASH[:2]).symlink_to(elsewhere)
    with pytest.raises(Refusal, match="could not be put"):
        store(files, DATA)
    assert not list(elsewhere.iterdir())


@pytest.mark.parametrize(
    "odd", ["", "../../etc/passwd", HASH.upper(), HASH[:-1], HASH + "0", f"{HASH}\n", "a/b"]
)
def test_what_is_no_hash_is_never_a_path(files: Path, odd: str) -> None:
    with pytest.raises(Fault):
        place_of(files, odd)


@pytest.mark.parametrize(
    ("name", "kept"),
    [
        ("photo.jpg", "photo.jpg"),
        ("../../etc/passwd", "passwd"),
        ("C:\\Users\\ine\\photo.jpg", "photo.jpg"),
        ("\\\\nas\\shop\\x.pdf", "x.pdf"),
        ("invoice\u202egpj.exe", "invoicegpj.exe"),
        ("a\x00b\nc.txt", "abc.txt"),
        ("", "file"),
        ("..", ".."),  # a name is data, never joined to a path
        ("x" * 300 + ".jpg", "x" * 196 + ".jpg"),
        ("Messung Spule 3 Ω.pdf", "Messung Spule 3 Ω.pdf"),
    ],
)
def test_a_name_is_kept_as_plain_data(name: str, kept: str) -> None:
    assert kept_name(name) == kept


@given(st.text())
def test_any_name_can_be_kept(name: str) -> None:
    kept = kept_name(name)
    assert kept
    assert not set(kept) & set("/\\\x00\n\u202e")
    assert len(kept) <= attachments.LONGEST_NAME


def test_copying_fetches_only_what_is_not_there(files: Path, tmp_path: Path) -> None:
    to = tmp_path / "copy"
    hashes = [store(files, bytes([n])).sha256 for n in range(4)]
    assert copy_missing(files, to, hashes) == (4, ())
    assert copy_missing(files, to, hashes) == (0, ())
    place_of(files, hashes[0]).unlink()
    assert copy_missing(files, to, hashes) == (0, ())  # the copy still has it
    place_of(to, hashes[0]).unlink()
    assert copy_missing(files, to, hashes) == (0, (hashes[0],))
    place_of(to, hashes[1]).write_bytes(b"longer than before")
    assert copy_missing(files, to, hashes[1:]) == (1, ())
    place_of(to, hashes[2]).write_bytes(b"?")  # of the right length
    assert copy_missing(files, to, hashes[2:]) == (0, ())
    assert copy_missing(files, to, hashes[2:], every_byte=True) == (1, ())
    assert is_whole(to, hashes[2])
