"""Puts a copy in the book's place: verified before and after, the present book kept aside with its journals."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from tempfile import TemporaryDirectory

from app.book.attachments import copy_missing
from app.book.backup import SPARE, Step, files_of, make_copy, no_step
from app.book.copies import Copy, Why, copies_folder, read_copy
from app.book.disk import copy_hashed, journals_of, need_room, remove_with_journals
from app.book.lock import PlaceLock, WindowLock
from app.book.places import check_place
from app.book.soundness import Soundness, Watch, examine, unwatched
from app.book.swap import Swap, finish, is_pending, staged_file, swap_in
from app.trade.refusal import Fault, Refusal
from app.trade.sentence import Sentence


@dataclass(frozen=True)
class Restored:
    """What a restore did. ``saved`` is the copy made of the former book, None when it could not be read
    (``not_saved`` says why) or there was none; ``aside`` is where the former book lies."""

    copy: Copy
    jobs: int
    last_at: datetime | None
    aside: Path | None
    saved: Copy | None
    not_saved: Sentence | None
    files_lacking: int


def restore(
    book: Path, copy_path: Path, now: datetime, *, copies: Path | None = None, step: Step = no_step
) -> Restored:
    """Put the copy at ``copy_path`` in the place of ``book``, which may be damaged or missing.

    ``copies`` is the folder that gets the copy of the present book. Raises Refusal; then nothing changed.
    """
    check_place(book)
    window, place = WindowLock(book), PlaceLock(book, alone=True)
    window.take()
    done = False
    try:
        place.take()
        finish(book)
        restored = _restore(book, copy_path, now, copies or copies_folder(book), step)
        done = True
        return restored
    except OSError as error:
        raise Refusal(
            Sentence("The copy could not be restored: {why}.", {"why": error.strerror or str(error)}),
            Sentence("The book is as it was. Look whether the disk has room and may be written."),
        ) from error
    finally:
        place.release()
        window.release(in_order=done)


def look_into(copy_path: Path, watch: Watch = unwatched) -> tuple[Copy, Soundness]:
    """Examine a copy from end to end and against its sidecar. Raises Refusal when it cannot be restored.

    ``watch`` is told each part before it begins, and may raise to stop.
    """
    try:
        copy, sound = read_copy(copy_path), examine(copy_path, watch)
    except OSError as error:
        raise Refusal(
            Sentence(
                "{path} cannot be read: {why}.",
                {"path": str(copy_path), "why": error.strerror or str(error)},
            ),
            Sentence("Choose another copy."),
        ) from error
    _require_sound(copy, sound)
    return copy, sound


def _require_sound(copy: Copy, sound: Soundness) -> None:
    wrong = next(iter(sound.found), None) or _unlike(copy, sound)
    if wrong:
        raise Refusal(
            Sentence("The copy {path} is not sound: {why}", {"path": str(copy.path), "why": wrong}),
            Sentence("Choose another copy. The book was not touched."),
        )


def _unlike(copy: Copy, sound: Soundness) -> Sentence | None:
    """How the copy differs from what its sidecar said when it was made."""
    if not copy.sha256:  # nothing was written down
        return None
    if copy.sha256 != sound.sha256:
        return Sentence("Its bytes are not those that were checked when it was made.")
    if (copy.history_rows, copy.head) != (sound.chain_rows, sound.head):
        return Sentence("Its history ends elsewhere than when it was made.")
    if dict(copy.rows) != dict(sound.rows):
        return Sentence("It has other numbers of rows than when it was made.")
    return None


def _restore(book: Path, copy_path: Path, now: datetime, copies: Path, step: Step) -> Restored:
    if copy_path.absolute() == book.absolute():
        raise Refusal(Sentence("This is the book itself."), Sentence("Choose a copy."))
    copy, sound = look_into(copy_path)
    step("verified")
    need_room(book.parent, sound.size + SPARE)
    staged = staged_file(book)
    remove_with_journals(staged)
    try:
        if copy_hashed(copy_path, staged) != sound.sha256:
            raise Fault(f"{copy_path} changed while it was read")
        _require_sound(copy, examine(staged))
        step("staged")
        _, lacking = copy_missing(copy_path.parent / "files", files_of(book), sound.files, every_byte=True)
        step("files")
        saved, not_saved = _save_present(book, copies, now)
        step("saved")
        there = book.exists()
        aside = _free_folder(book, now)
        swap_in(book, Swap(sound.sha256, str(aside.relative_to(book.parent))), step)
    except BaseException:
        if not is_pending(book):
            remove_with_journals(staged)
        raise
    return Restored(
        copy=copy,
        jobs=sound.jobs,
        last_at=sound.last_at,
        aside=aside if there else None,
        saved=saved,
        not_saved=not_saved,
        files_lacking=len(lacking),
    )


def _save_present(book: Path, copies: Path, now: datetime) -> tuple[Copy | None, Sentence | None]:
    """A copy of the present book where it can be read. Where not, it still lies aside, so work goes on."""
    if not book.exists():
        return None, None
    try:
        journals = journals_of(book)
        if not journals:
            return make_copy(book, copies, now, Why.RESTORE), None
        # SQLite plays a journal back as soon as it opens the file. It does so in a double, so that what is
        # put aside is what was found.
        with TemporaryDirectory(prefix=f"{book.name}.saving-", dir=book.parent) as name:
            double = Path(name) / book.name
            for file in (book, *journals):
                copy_hashed(file, double.with_name(file.name))
            return make_copy(double, copies, now, Why.RESTORE, files=files_of(book)), None
    except Refusal as refusal:
        return None, refusal.sentence
    except Fault as fault:
        return None, Sentence("The book cannot be copied: {why}", {"why": str(fault)})


def _free_folder(book: Path, now: datetime) -> Path:
    """A folder beside the book for the former one; nothing that was put aside before is overwritten."""
    base = book.with_name(f"{book.stem}.aside") / f"{now.astimezone(UTC):%Y%m%dT%H%M%SZ}"
    folder, again = base, 2
    while folder.exists():
        folder, again = base.with_name(f"{base.name}-{again}"), again + 1
    return folder
