"""``restore``: a copy in the book's place; the present book is kept aside."""

from __future__ import annotations

from argparse import ArgumentParser
from pathlib import Path

from app.commands.command import DONE, Surroundings
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence, words
from app.trade.wording import Wording
from app.work.upkeep.copies import Copy, copies_of
from app.work.upkeep.restore import restore_copy

HELP = words("put a copy in the book's place, or list the copies")
ABOUT = words(
    "Checks the copy from end to end, makes a copy of the present book where it can still be read, moves the "
    "present book aside and puts the copy in its place. Nothing is deleted. The window must be closed. Works "
    "also when the book is damaged or gone."
)


def arguments(parser: ArgumentParser, wording: Wording) -> None:
    """Declare what the command takes."""
    which = parser.add_mutually_exclusive_group(required=True)
    which.add_argument(
        "file", nargs="?", type=Path, metavar=wording("FILE"), help=wording("the copy to restore")
    )
    which.add_argument(
        "--list", action="store_true", help=wording("list the copies beside the book, newest first")
    )


def run(around: Surroundings) -> int:
    """Restore, or list what could be restored."""
    if around.asked.list:
        return _list(around)
    done = restore_copy(around.book, around.asked.file, clock=around.clock)
    wording = around.wording_by_the_shop()  # not before: opening a damaged book would play its journal back
    around.tell(wording("Restored: {what}.", what=_inside(done.copy, done.jobs, wording)))
    if done.aside is not None:
        around.tell(wording("The former book lies in {folder}.", folder=str(done.aside)))
    if done.saved is not None:
        around.tell(wording("A copy of it was made: {path}", path=str(done.saved.path)))
    if done.not_saved is not None:
        around.tell(wording("No copy of it could be made: {why}", why=done.not_saved))
    if done.files_lacking:
        around.tell(
            wording("{count} files that it names are missing. “check” names them.", count=done.files_lacking)
        )
    return DONE


def _list(around: Surroundings) -> int:
    copies = copies_of(around.book)
    if not copies:
        raise Refusal(
            Sentence("There are no copies beside {book}.", {"book": str(around.book)}),
            Sentence("Give the file of a copy: spindlebook restore FILE"),
        )
    wording = around.wording_by_the_shop()
    for copy in copies:
        around.tell(f"{copy.path}\n    {_inside(copy, copy.jobs, wording)}")
    return DONE


def _inside(copy: Copy, jobs: int, wording: Wording) -> str:
    made = wording("copied {moment}, {why}", moment=copy.made_at, why=wording(str(copy.why)))
    if not copy.checked:
        return wording("{made}; nothing is known of what is inside", made=made)
    if copy.last_at is None:
        return wording("{made}; empty", made=made)
    return wording("{made}; {jobs} jobs, last entry {moment}", made=made, jobs=jobs, moment=copy.last_at)
