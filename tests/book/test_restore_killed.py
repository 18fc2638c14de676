"""Restoring is killed, refused or fooled at each step: the old book is there or the new one, and opening puts it right."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from app.book import restore as restoring
from app.book import swap
from app.book.copies import Copy
from app.book.disk import hash_of
from app.book.opening import open_book
from app.book.restore import look_into, restore
from app.book.swap import finish, is_pending, marker_file, staged_file
from app.trade.refusal import BookRefused, Refusal
from tests.book.children import ENDED
from tests.book.conftest import Children, snapshot_of
from tests.book.test_restore import NOT_THERE, NOW, STEPS, SWAPPED, copy, customers, damage

__all__ = ["copy"]


@pytest.mark.parametrize(
    ("present", "step"),
    [(present, step) for present in ("good", "damaged") for step in STEPS if (present, step) != NOT_THERE],
)
def test_a_kill_at_any_step_leaves_the_old_book_or_the_new_and_opening_puts_it_right(
    closed: Path, copy: Copy, children: Children, step: str, present: str
) -> None:
    if present == "damaged":
        damage(closed)
        closed.with_name("book.sqlite-journal").write_bytes(b"left")
    former = hash_of(closed)
    assert children.run("restore_until", closed, copy.path, step) == ENDED
    finished = step in SWAPPED
    if not finished:
        assert hash_of(closed) == former
    with_window = closed.with_name("book.sqlite.open")
    assert with_window.read_text().startswith("open")
    if finished or present == "good":
        open_book(closed).close()
        assert customers(closed) == (2 if finished else 3)
    else:
        with pytest.raises(BookRefused, match="damaged"):
            open_book(closed)
        assert hash_of(closed) == former
    assert not is_pending(closed)
    assert not staged_file(closed).exists()
    if finished:
        assert hash_of(closed) == copy.sha256
        (aside,) = (closed.parent / "book.aside").iterdir()
        assert hash_of(aside / "book.sqlite") == former
        assert (aside / "book.sqlite-journal").exists() == (present == "damaged")
    # And a restore begun anew goes through.
    assert restore(closed, copy.path, NOW).jobs == 2


@pytest.mark.parametrize("step", [step for step in SWAPPED if not step.startswith("aside")])
def test_a_kill_while_putting_back_a_missing_book_is_finished_too(
    closed: Path, copy: Copy, children: Children, step: str
) -> None:
    closed.unlink()
    assert children.run("restore_until", closed, copy.path, step) == ENDED
    open_book(closed, make=True).close()  # no empty book is made in the gap
    assert customers(closed) == 2


def test_a_swap_whose_new_file_was_damaged_meanwhile_is_undone(
    closed: Path, copy: Copy, children: Children
) -> None:
    former = hash_of(closed)
    assert children.run("restore_until", closed, copy.path, "aside book") == ENDED
    assert not closed.exists()
    staged_file(closed).write_bytes(b"damaged by the same power cut")
    open_book(closed).close()
    assert hash_of(closed) == former
    assert not is_pending(closed)


def test_a_new_file_that_was_damaged_after_it_came_in_is_undone(
    closed: Path, copy: Copy, children: Children
) -> None:
    former = hash_of(closed)
    assert children.run("restore_until", closed, copy.path, "swapped") == ENDED
    closed.write_bytes(b"damaged by the same power cut")
    open_book(closed).close()
    assert hash_of(closed) == former


def test_a_swap_without_its_new_file_and_nothing_moved_is_simply_forgotten(
    closed: Path, copy: Copy, children: Children
) -> None:
    former = hash_of(closed)
    assert children.run("restore_until", closed, copy.path, "marked") == ENDED
    staged_file(closed).unlink()
    finish(closed)
    assert hash_of(closed) == former
    assert not is_pending(closed)


@pytest.mark.parametrize("text", ["", "{}", "[]", '{"sha256": 1}'])
def test_a_marker_that_cannot_be_read_deletes_nothing(closed: Path, text: str) -> None:
    marker_file(closed).write_text(text)
    before = snapshot_of(closed.parent)
    with pytest.raises(BookRefused, match="cannot be read"):
        open_book(closed)
    assert snapshot_of(closed.parent) == before


def failing_replace(monkeypatch: pytest.MonkeyPatch, times: int, name: str) -> None:
    """The system refuses to move files called ``name``, so many times."""
    real = Path.replace
    left = [times]

    def replace(self: Path, target: Path) -> Path:
        if self.name == name and left[0]:
            left[0] -= 1
            raise OSError(13, "Permission denied")
        return real(self, target)

    monkeypatch.setattr(Path, "replace", replace)


def test_a_move_that_the_system_refuses_puts_everything_back(
    closed: Path, copy: Copy, monkeypatch: pytest.MonkeyPatch
) -> None:
    former = hash_of(closed)
    failing_replace(monkeypatch, 1, "book.sqlite.incoming")
    with pytest.raises(Refusal, match="could not be restored"):
        restore(closed, copy.path, NOW)
    assert hash_of(closed) == former
    assert not is_pending(closed)
    assert not staged_file(closed).exists()


def test_a_disk_that_gives_back_other_bytes_is_not_believed(
    closed: Path, copy: Copy, monkeypatch: pytest.MonkeyPatch
) -> None:
    former = hash_of(closed)
    monkeypatch.setattr(swap, "hash_of", lambda path: "other")
    with pytest.raises(Refusal) as told:
        restore(closed, copy.path, NOW)
    assert "other bytes" in str(told.value.sentence.values["why"])
    assert hash_of(closed) == former


def test_a_swap_that_can_be_neither_finished_nor_undone_says_where_the_book_is(
    closed: Path, copy: Copy, children: Children, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert children.run("restore_until", closed, copy.path, "aside book") == ENDED
    with monkeypatch.context() as patch:
        failing_replace(patch, 9, "book.sqlite.incoming")
        with pytest.raises(BookRefused, match="cannot be finished") as told:
            open_book(closed)
    assert told.value.next_step is not None
    assert "book.aside" in str(told.value.next_step.values["folder"])
    open_book(closed).close()  # when the system lets us, it is finished
    assert customers(closed) == 2


def test_a_copy_that_changes_while_it_is_read_is_our_alarm(
    closed: Path, copy: Copy, monkeypatch: pytest.MonkeyPatch
) -> None:
    from app.trade.refusal import Fault

    before = hash_of(closed)
    monkeypatch.setattr(restoring, "copy_hashed", lambda source, target: "other")
    with pytest.raises(Fault, match="changed while it was read"):
        restore(closed, copy.path, NOW)
    assert hash_of(closed) == before


def test_a_book_found_after_a_crash_stays_marked_when_the_restore_is_refused(
    closed: Path, tmp_path: Path
) -> None:
    closed.with_name("book.sqlite.open").write_text("open 99", encoding="ascii")
    with pytest.raises(Refusal):
        restore(closed, tmp_path / "gone.sqlite", NOW)
    assert closed.with_name("book.sqlite.open").read_text() == "open"


def test_looking_into_a_copy_changes_nothing(closed: Path, copy: Copy) -> None:
    before = snapshot_of(copy.path.parent)
    found, sound = look_into(copy.path)
    assert found == copy
    assert sound.jobs == 2
    assert snapshot_of(copy.path.parent) == before
    os.utime(copy.path)
