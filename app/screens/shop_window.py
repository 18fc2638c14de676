"""The window on one open book: desk, rooms, find box, counts, scanner, midnight, and closing with a copy."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Sequence
from datetime import datetime, timedelta
from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtCore import QObject, Qt, QTimer
from PySide6.QtWidgets import QApplication, QFileDialog

from app.screens import language, qt_words, rooms
from app.screens.clipboard import leave_text
from app.screens.desk import Desk, Errand, FindHit, PlaceCount, ShopFacts, StaffNow
from app.screens.drafts import Drafts
from app.screens.scanner import Scanner
from app.screens.threads import Doors
from app.screens.window import MainWindow
from app.trade.refusal import Refusal
from app.trade.settings import CURRENCY, LANGUAGE, SHOP_NAME
from app.work.bench.flags import refresh_dated_flags
from app.work.counter.jobs_list import ShopCounts, shop_counts
from app.work.language import wording_for
from app.work.office.settings import shop_settings
from app.work.people.staff import staff_list
from app.work.shop_book import Book, Changes, look_at_file
from app.work.upkeep.copies import CopyStanding, close_with_copy, copy_now_if_due, copy_standing

LONGEST_WAIT_S = 6 * 3600
COPY_EVERY_MS = 15 * 60 * 1000  # how often it is asked whether a copy is due; copies are an hour apart


class ShopWindow(QObject):
    """Wires one window to one book and keeps what belongs to both. Give it the folder for its own files."""

    def __init__(
        self,
        app: QApplication,
        book: Book,
        own_files: Path,
        *,
        clock: Callable[[], datetime] | None = None,
        speaks: str = "",
    ) -> None:
        super().__init__(app)
        self._app = app
        self.book = book
        self.doors = Doors(self)
        self.drafts = Drafts(drafts_file(own_files, book.path), self)
        settings = shop_settings(book)
        wording = wording_for(speaks or settings[LANGUAGE], book.zone)
        language.use(wording)
        qt_words.speak(app, wording.locale)
        self.desk = Desk(
            book,
            doors=self.doors,
            drafts=self.drafts,
            clock=clock or book.clock,
            shop=ShopFacts(settings[SHOP_NAME], book.zone, settings[CURRENCY], settings[LANGUAGE]),
            find=partial(_hits, book),
            settings=own_files / "window.ini",
            parent=self,
        )
        self.window = MainWindow(self.desk, settings=own_files / "window.ini", staff=partial(staff_now, book))
        rooms.register(self.window)
        self.window.serve("open_book", self._ask_for_book)
        self.scanner = Scanner(app)
        self.scanner.scanned.connect(self._scanned)
        self.window.closing.append(self._before_closing)
        self.desk.changed.connect(self._changed)
        self.desk.copies_changed.connect(self._look_at_copies)
        self._counted: Any = None
        self._day = self.desk.today()
        self._midnight = QTimer(self)
        self._midnight.setSingleShot(True)
        self._midnight.timeout.connect(self._look_at_the_day)
        self._copies = QTimer(self)
        self._copies.setInterval(COPY_EVERY_MS)
        self._copies.timeout.connect(self._copy)
        # A computer that slept over midnight hears no timer.
        app.applicationStateChanged.connect(self._awake)

    def show(self) -> None:
        """Show the window on the place where work begins, or on the first page of a new book."""
        staff = staff_now(self.book)
        if len(staff) == 1:
            self.desk.set_staff(staff[0])
        self.window.show()
        if staff:
            self.window.go_to("counter")
        else:
            self.window.open("first_run")
        self._count()
        self._day = self.desk.today()
        self._wait_for_midnight()
        self._copies.start()
        QTimer.singleShot(0, self, self._begin_the_day)

    def _begin_the_day(self) -> None:
        """What can wait until the window is painted."""
        if self._midnight.isActive():  # else it was closed at once
            self.doors.change(self, partial(refresh_dated_flags, self.book), self.desk.announce)
            self._look_at_copies()

    def close(self) -> None:
        """Let go of everything in order: the book closes with a copy when one is due."""
        for timer in (self._midnight, self._copies):
            timer.stop()
        self._app.applicationStateChanged.disconnect(self._awake)
        self.scanner.stop()
        self.drafts.close()
        self.doors.close()
        close_with_copy(self.book)
        leave_text()
        for thing in (self.scanner, self.window, self):
            thing.deleteLater()

    # counts and the state of copies

    def _changed(self, changes: Changes) -> None:
        if changes.kinds & {"staff", "staff_marks"}:
            self.doors.look_up(self, partial(staff_now, self.book), self._staff_changed)
        if "settings" in changes.kinds:
            settings = shop_settings(self.book)
            self.desk.shop.name, self.desk.shop.currency = settings[SHOP_NAME], settings[CURRENCY]
            self.desk.shop.zone = self.book.zone
            self.desk.facts_changed.emit()
            self._look_at_copies()
        self._count()

    def _count(self) -> None:
        if self._counted is not None:
            self._counted.cancel()
        self._counted = self.doors.look_up(self, partial(shop_counts, self.book), self._show_counts)

    def _show_counts(self, counts: ShopCounts) -> None:
        say = language.say
        self.window.set_counts(
            PlaceCount(
                say("{n} in the shop", n=counts.in_the_shop),
                say("{n} to work on", n=counts.to_work_on),
                say("{n} to invoice", n=counts.to_invoice),
            )
        )

    def _look_at_copies(self) -> None:
        self.doors.look_up(self, partial(copy_standing, self.book), self._show_standing)

    def _show_standing(self, standing: CopyStanding) -> None:
        say = language.say
        if standing.failure is not None:
            copied = say("copy failed {when}", when=language.clock_time(standing.failed_at))  # type: ignore[arg-type]
        elif standing.last_good_at is None:
            copied = say("not copied yet")
        elif standing.last_good_at.astimezone(self.book.zone).date() == self.desk.today():
            copied = say("copied {when}", when=language.clock_time(standing.last_good_at))
        else:
            day = standing.last_good_at.astimezone(self.book.zone).date()
            copied = say("copied {when}", when=language.near_day(day, self.desk.today()))
        self.window.set_book(self.desk.shop.name or self.book.path.stem, copied)

    def _copy(self) -> None:
        self.doors.change(
            self, partial(copy_now_if_due, self.book), lambda _: self.desk.copies_changed.emit()
        )

    def _staff_changed(self, staff: Sequence[StaffNow]) -> None:
        """Who works now may have another name or other marks, or have left; the first one works at once."""
        now = self.desk.staff
        if now is not None:
            self.desk.set_staff(next((one for one in staff if one.id == now.id), None))
        elif len(staff) == 1:
            self.desk.set_staff(staff[0])

    # the day, the scanner, another book, closing

    def _wait_for_midnight(self) -> None:
        local = self.desk.now().astimezone(self.book.zone)
        tomorrow = (local + timedelta(days=1)).replace(hour=0, minute=0, second=5, microsecond=0)
        wait = max((tomorrow - local).total_seconds(), 60.0)
        # In shorter stretches: the clock may be set, and a day is not always of 24 hours.
        self._midnight.start(int(min(wait, LONGEST_WAIT_S) * 1000))

    def _look_at_the_day(self) -> None:
        if (today := self.desk.today()) != self._day:
            self._day = today
            self.doors.change(self, partial(refresh_dated_flags, self.book), self._new_day)
        self._wait_for_midnight()

    def _new_day(self, changes: Changes) -> None:
        self.desk.announce(changes)
        self._count()
        if self.window.page is not None:
            self.window.page.reload(None)  # late, today and later are other jobs now
        self._look_at_copies()

    def _awake(self, state: Qt.ApplicationState) -> None:
        if state == Qt.ApplicationState.ApplicationActive and self._midnight.isActive():
            self._look_at_the_day()

    def _scanned(self, number: int) -> None:
        def found(job_id: int | None) -> None:
            if job_id is not None:
                self.desk.open_job(job_id)
            else:
                self._not_found(number)

        self.doors.look_up(self, partial(_job_by_number, self.book, number), found)

    def _not_found(self, number: int) -> None:
        if self.window.page is not None:
            self.window.page.trouble.show_trouble(
                language.say("No job has the number {number}.", number=str(number)),
                language.say("The ticket may be from another shop's book."),
            )

    def _ask_for_book(self) -> None:
        name, _ = QFileDialog.getOpenFileName(
            self.window,
            language.say("Open another book"),
            str(self.book.path.parent),
            language.say("Book (*.sqlite)"),
        )
        if name:
            self.open_other(Path(name))

    def open_other(self, path: Path) -> None:
        """Leave this book for another one; one that would be refused is told here, and this book stays open."""
        if path.exists() and path.samefile(self.book.path):
            return
        saying = language.say("{path} is being opened.", path=str(path))
        errand = Errand(lambda: None, path, saying)
        self.doors.look_up(
            self, partial(look_at_file, path), lambda _: self.desk.leave_for(errand), self._not_opened
        )

    def _not_opened(self, error: Exception) -> None:
        if self.window.page is None or not isinstance(error, Refusal):
            self.doors.unhandled.emit(error)
            return
        say = language.say
        self.window.page.trouble.show_trouble(
            say(error.sentence),
            say(error.next_step) if error.next_step is not None else "",
            [(say("Open another book…"), self._ask_for_book)],
        )

    def _before_closing(self) -> bool:
        self.drafts.flush()
        return True


def _hits(book: Book, text: str) -> tuple[FindHit, ...]:
    from app.screens.find_hits import hits_of  # not before somebody looks for something

    return hits_of(book, text)


def _job_by_number(book: Book, number: int) -> int | None:
    from app.work.find.find import job_by_number

    return job_by_number(book, number)


def staff_now(book: Book) -> Sequence[StaffNow]:
    """Who may work at this workstation."""
    return [
        StaffNow(card.id, card.name, frozenset(mark.value for mark in card.marks))
        for card in staff_list(book)
    ]


def drafts_file(folder: Path, book: Path) -> Path:
    """Where the drafts for one book are kept: a book of the same name elsewhere has its own."""
    place = hashlib.blake2s(str(book.absolute()).encode(), digest_size=4).hexdigest()
    return folder / f"drafts-{book.stem}-{place}.json"
