"""The window on one open book: desk, rooms, find box, counts, scanner, midnight, and closing with a copy."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import datetime, timedelta
from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtCore import QObject, QTimer
from PySide6.QtWidgets import QApplication

from app.screens import language, qt_words, rooms
from app.screens.desk import Desk, FindHit, PlaceCount, ShopFacts, StaffNow
from app.screens.drafts import Drafts
from app.screens.scanner import Scanner
from app.screens.threads import Doors
from app.screens.window import MainWindow
from app.trade.settings import CURRENCY, LANGUAGE, SHOP_NAME
from app.work.bench.flags import refresh_dated_flags
from app.work.counter.jobs_list import ShopCounts, shop_counts
from app.work.find.find import Found, find, job_by_number
from app.work.language import wording_for
from app.work.office.settings import shop_settings
from app.work.people.staff import staff_list
from app.work.shop_book import Book, Changes
from app.work.upkeep.copies import CopyStanding, close_with_copy, copy_now_if_due, copy_standing

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
        self.book = book
        self.doors = Doors(self)
        self.drafts = Drafts(own_files / f"drafts-{book.path.stem}.json", self)
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
            find=partial(hits_of, book),
            parent=self,
        )
        self.window = MainWindow(self.desk, settings=own_files / "window.ini", staff=partial(staff_now, book))
        rooms.register(self.window)
        self.scanner = Scanner(app)
        self.scanner.scanned.connect(self._scanned)
        self.window.closing.append(self._before_closing)
        self.desk.changed.connect(self._changed)
        self._counted: Any = None
        self._midnight = QTimer(self)
        self._midnight.setSingleShot(True)
        self._midnight.timeout.connect(self._new_day)
        self._copies = QTimer(self)
        self._copies.setInterval(COPY_EVERY_MS)
        self._copies.timeout.connect(self._copy)

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
        self._wait_for_midnight()
        self._copies.start()
        self.doors.change(self, partial(refresh_dated_flags, self.book), self.desk.announce)
        self.doors.look_up(self, partial(copy_standing, self.book), self._show_standing)

    def close(self) -> None:
        """Let go of everything in order: the book closes with a copy when one is due."""
        for timer in (self._midnight, self._copies):
            timer.stop()
        self.scanner.let_go()
        self.drafts.close()
        self.doors.close()
        close_with_copy(self.book)

    # counts and the state of copies

    def _changed(self, changes: Changes) -> None:
        if "settings" in changes.kinds:
            settings = shop_settings(self.book)
            self.desk.shop.name, self.desk.shop.currency = settings[SHOP_NAME], settings[CURRENCY]
            self.desk.shop.zone = self.book.zone
            self.desk.facts_changed.emit()
            self.doors.look_up(self, partial(copy_standing, self.book), self._show_standing)
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
        self.doors.change(self, partial(copy_now_if_due, self.book), self._show_standing)

    # the day, the scanner, closing

    def _wait_for_midnight(self) -> None:
        local = self.desk.now().astimezone(self.book.zone)
        tomorrow = (local + timedelta(days=1)).replace(hour=0, minute=0, second=5, microsecond=0)
        wait = max((tomorrow - local).total_seconds(), 60.0)
        self._midnight.start(int(min(wait, 6 * 3600) * 1000))

    def _new_day(self) -> None:
        self.doors.change(self, partial(refresh_dated_flags, self.book), self.desk.announce)
        self._wait_for_midnight()

    def _scanned(self, number: int) -> None:
        def found(job_id: int | None) -> None:
            if job_id is not None:
                self.desk.open_job(job_id)
            else:
                self._not_found(number)

        self.doors.look_up(self, partial(job_by_number, self.book, number), found)

    def _not_found(self, number: int) -> None:
        if self.window.page is not None:
            self.window.page.trouble.show_trouble(
                language.say("No job has the number {number}.", number=str(number)),
                language.say("The ticket may be from another shop's book."),
            )

    def _before_closing(self) -> bool:
        self.drafts.flush()
        return True


def staff_now(book: Book) -> Sequence[StaffNow]:
    """Who may work at this workstation."""
    return [
        StaffNow(card.id, card.name, frozenset(mark.value for mark in card.marks))
        for card in staff_list(book)
    ]


def hits_of(book: Book, text: str) -> tuple[FindHit, ...]:
    """What the find box shows, grouped by kind."""
    say = language.say
    found: Found = find(book, text)
    hits = [
        FindHit(
            say("Jobs"),
            f"{job.number}  {job.maker} {job.model}",
            " · ".join(filter(None, (job.customer, job.serial, say(job.stage.value)))),
            ("job", job.id),
        )
        for job in found.jobs
    ]
    hits += [
        FindHit(say("Customers"), c.name, " · ".join(filter(None, (c.phone, c.city))), ("customer", c.id))
        for c in found.customers
    ]
    hits += [
        FindHit(
            say("Players"),
            f"{u.maker} {u.model}",
            " · ".join(filter(None, (u.serial, u.customer))),
            ("unit", u.id),
        )
        for u in found.units
    ]
    hits += [
        FindHit(
            say("Transports"),
            f"{t.type} {t.marking}".strip(),
            t.unit or (say("shelf {shelf}", shelf=t.shelf) if t.shelf else say("in no player")),
            ("transport", t.id),
        )
        for t in found.transports
    ]
    return tuple(hits)
