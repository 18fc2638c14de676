"""A process that shows our window on a book, says what it holds, and is then worked with.

Words: the path of a book, a folder for the window's own files, and `work` to be worked with. It says one line of
JSON when it is painted, and one at the end.
"""

from __future__ import annotations

import gc
import json
import random
import statistics
import sys
import time
from collections.abc import Callable
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from typing import Any

UNTIL = datetime(2026, 11, 25, 12, tzinfo=UTC)
REPEATS = 7
WORDS = 6  # typed into the find box, letter by letter
LETTER_MS = 90


def main(words: list[str]) -> None:
    """Show it, work with it, and close it in order."""
    gc.disable()  # as the program itself does
    from app.work.shop_book import open_shop

    book = open_shop(Path(words[0]), clock=lambda: UNTIL)  # before Qt, as the program does
    from PySide6.QtCore import QCoreApplication, QEvent
    from PySide6.QtWidgets import QApplication

    from app.screens.kit import palette
    from app.screens.shop_window import ShopWindow
    from app.screens.tidy import Tidy

    app = QApplication([])
    tidy = Tidy()  # as the program itself does
    palette.apply(app, "light")
    shop = ShopWindow(app, book, Path(words[1]))
    shop.show()
    app.processEvents()
    from tests.benchmarks.beats import memory

    _say({"memory": memory()})
    if words[2:] == ["work"]:
        told = Work(shop).measured()
        _say({**told, "memory": memory()})
    shop.window.closing.clear()  # no copy is made on leaving
    shop.book.changed_since_backup = False
    shop.window.close()
    shop.close()
    tidy.stop()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)


class Work:
    """What is done in the window, and measured."""

    def __init__(self, shop: Any) -> None:
        from app.screens.bench.sheet_body import SheetBody

        self.shop = shop
        self.window = shop.window
        self.seen = 0.0  # when readings came in sight last
        below = SheetBody._after_painting

        def noted(body: SheetBody) -> None:
            self.seen = time.perf_counter()
            below(body)

        SheetBody._after_painting = noted  # type: ignore[assignment]

    def measured(self) -> dict[str, float]:
        """Milliseconds by name; of silences, the longest."""
        self.settle()
        key, words = self.newest(), self.words()
        told = {
            "list": self.list_of_every_job(),
            "sheet": self.sheet(key, self.painted),
            "sheet whole": self.sheet(key, self.settle),
            "sheet again": self.sheet_again(),
        }
        for name, deed in (
            ("while find types", partial(self.type_into_find, words)),
            ("while a job sheet opens", partial(self.open, "job", key - 1)),
            ("while comeback rates open", partial(self.open, "figure", "comeback-rate")),
            ("while the figures of the shop open", partial(self.open, "figure", "shop")),
            ("while a check runs", self.check),
        ):
            told[f"silence {name}"] = self.silence(deed)
        return told

    def settle(self) -> None:
        """Until every piece of work has come back and is painted."""
        from tests.benchmarks.beats import run_until

        for _ in range(4):  # what is painted may ask for more
            run_until(lambda: not self.shop.doors.waiting)

    def silence(self, deed: Callable[[], object]) -> float:
        """How long the event loop says nothing while this is done."""
        from tests.benchmarks.beats import Beats

        self.settle()
        with Beats() as beats:
            deed()
            self.settle()
        return beats.longest

    def painted(self) -> float:
        """Until the job sheet has painted its readings, and when it had: what is below comes in the same turn."""
        from tests.benchmarks.beats import run_until

        page = self.window.page
        run_until(lambda: hasattr(page, "body") and page.body.painted)
        return self.seen

    def middle(
        self,
        deed: Callable[[], object],
        between: Callable[[], object] = lambda: None,
        rested: Callable[[], float | None] | None = None,
    ) -> float:
        """The median, the first time left out, until all of it is painted, or ``rested``, which may say when."""
        taken = []
        for _ in range(REPEATS + 1):
            between()
            self.settle()
            begun = time.perf_counter()
            deed()
            ended = (rested or self.settle)() or time.perf_counter()
            taken.append((ended - begun) * 1000)
        return statistics.median(taken[1:])

    def newest(self) -> int:
        """The job with the many readings."""
        from app.work.counter.jobs_list import Show, job_ids

        return max(job_ids(self.shop.book, Show.EVERY).ids)

    def open(self, kind: str, key: Any) -> None:
        """Open a page."""
        self.window.open(kind, key)

    def list_of_every_job(self) -> float:
        """The counter's list, asked anew with all jobs in it."""
        from app.work.counter.jobs_list import Show

        self.window.go_to("counter")
        page = self.window.page
        page.show_choice.set_value(Show.EVERY)
        taken = self.middle(lambda: page.reload(None))
        page.show_choice.set_value(Show.IN_THE_SHOP)
        page.reload(None)
        self.settle()
        return taken

    def sheet(self, key: int, rested: Callable[[], float | None]) -> float:
        """The job sheet, opened as a new page each time."""
        return self.middle(
            partial(self.open, "job", key), lambda: self.window.trail.close_page("job", key), rested
        )

    def sheet_again(self) -> float:
        """The same page, asked anew as after every change."""
        page = self.window.page
        return self.middle(lambda: page.reload(None))

    def words(self) -> list[str]:
        """Some that are in the book."""
        from tests.benchmarks.questions import typed

        return random.Random(2).sample([word for word in typed(self.shop.book) if len(word) > 4], WORDS)

    def type_into_find(self, words: list[str]) -> None:
        """As somebody types who looks for them."""
        from PySide6.QtCore import QEvent, Qt
        from PySide6.QtGui import QKeyEvent
        from PySide6.QtWidgets import QApplication

        from tests.benchmarks.beats import run_for

        self.window.go_find()
        box = self.window.strip.find_box
        for word in words:
            box.clear()
            for letter in word:
                for kind in (QEvent.Type.KeyPress, QEvent.Type.KeyRelease):
                    QApplication.sendEvent(box, QKeyEvent(kind, 0, Qt.KeyboardModifier.NoModifier, letter))
                run_for(LETTER_MS)
        box.clear()
        box.close_results()

    def check(self) -> None:
        """The check of the whole book in a reader thread, as its page asks for it."""
        from app.work.upkeep.check import check_book

        done: list[Any] = []
        self.shop.doors.long_look_up(
            self.window,
            lambda ticket: check_book(self.shop.book, mend=False, watch=lambda part: ticket.step(0, 1, part)),
            done.append,
        )
        self.settle()
        if not done or done[0].found:
            raise RuntimeError("the check did not come back, or found faults")


def _say(told: dict[str, float]) -> None:
    sys.stdout.write(f"{json.dumps(told)}\n")
    sys.stdout.flush()


if __name__ == "__main__":
    main(sys.argv[1:])
