"""What every command is given, and the doors to what it cannot do without a window."""

from __future__ import annotations

import sys
from argparse import Namespace
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC
from pathlib import Path
from typing import Protocol

from app.trade.refusal import BookRefused, Refusal, Way
from app.trade.sentence import Sentence
from app.trade.wording import Wording
from app.work.language import wording_for
from app.work.shop_book import Clock, peek_shop
from app.work.upkeep.places import default_book

DONE, FAILED, WRONG_USAGE = 0, 1, 2

# What leads on from a refused book, for whoever types; a window has buttons for it.
TYPED = {
    Way.ANOTHER_BOOK: Sentence("Another book: spindlebook --book PATH"),
    Way.RESTORE: Sentence("The copies: spindlebook restore --list; one of them: spindlebook restore FILE"),
}


class Doors(Protocol):
    """What app/start.py wires up, as it alone knows Qt. Each gives the exit code."""

    def open_window(self, book: Path, *, make: bool) -> int:
        """The window on a book; ``make`` makes an empty one when it is not there."""
        ...

    def show_demo(self) -> int:
        """A fresh copy of the demo shop in a window, or the tour where there is no screen."""
        ...

    def build_demo(self, folder: Path) -> int:
        """Write the demo shop into a folder."""
        ...

    def run_tour(self, folder: Path) -> int:
        """Drive the window through one player's whole way and save its pictures and papers."""
        ...


@dataclass(frozen=True)
class Surroundings:
    """The words of the person, the language to answer in, the clock, and the doors."""

    asked: Namespace
    language: str
    clock: Clock
    doors: Doors

    @property
    def book(self) -> Path:
        """The book that is meant: ``--book``, else the shop's own."""
        return self.named or default_book()

    @property
    def named(self) -> Path | None:
        """The book that ``--book`` names, wherever it stands among the words."""
        named: Path | None = getattr(self.asked, "book", None)
        return named

    @property
    def wording(self) -> Wording:
        """How to answer where no time of day is told."""
        return wording_for(self.language, UTC)

    def wording_by_the_shop(self) -> Wording:
        """How to answer with times on the shop's own clock; by UTC when its book cannot be read."""
        try:
            book = peek_shop(self.book, clock=self.clock)
        except Refusal:
            return self.wording
        book.close()
        return wording_for(self.language, book.zone)

    def tell(self, line: str) -> None:
        """Say something on standard output."""
        print(line, file=sys.stdout)


Command = Callable[[Surroundings], int]


def complain(wording: Wording, refusal: Refusal) -> int:
    """Say on standard error what cannot be done and what to do next; gives the exit code."""
    print(wording(refusal.sentence), file=sys.stderr)
    if refusal.next_step is not None:
        print(wording(refusal.next_step), file=sys.stderr)
    for way in refusal.ways if isinstance(refusal, BookRefused) else ():
        print(wording(TYPED[way]), file=sys.stderr)
    return FAILED
