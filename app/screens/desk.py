"""What every page is given: who works now, the doors, the clock, the settings, and how to open other pages."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date, datetime, tzinfo
from pathlib import Path
from typing import Any

from PySide6.QtCore import QObject, Signal

from app.screens.drafts import Drafts
from app.screens.threads import Doors


@dataclass(frozen=True)
class StaffNow:
    """Who works at this workstation now."""

    id: int
    name: str
    marks: frozenset[str] = frozenset()


@dataclass(frozen=True)
class FindHit:
    """One result of the find box: ``target`` is what `Desk.open` takes, e.g. ``("job", 2131)``."""

    kind: str  # the group it stands under, already worded
    title: str
    second: str = ""
    target: tuple[str, Any] = ("", None)


@dataclass(frozen=True)
class Paper:
    """A paper to look at: PDF bytes, what it is called, and the kind its printer is remembered by."""

    title: str
    pdf: bytes
    kind: str = ""
    name: str = "paper.pdf"  # proposed when it is saved as a file
    id: int | None = None  # of an issued one: what is printed is then written down
    copied: bool = False  # with the stamp over it


@dataclass(frozen=True)
class PlaceCount:
    """The count under a place's name, e.g. ``14 in the shop``, already worded."""

    counter: str = ""
    bench: str = ""
    office: str = ""


@dataclass(frozen=True)
class Errand:
    """What can be done only while no window holds the book, e.g. putting a copy in its place.

    ``work`` runs away from the window; then the book at ``path`` is opened, and in its window the page of the kind
    ``then``, with a `Came` as its key.
    """

    work: Callable[[], Any]
    path: Path
    saying: str  # said meanwhile, already worded
    then: str = ""


@dataclass(frozen=True, eq=False)
class Came:
    """What came of an errand: the ``value`` that its work gave, or the ``error`` that it raised."""

    value: Any = None
    error: Exception | None = None


@dataclass
class ShopFacts:
    """Settings that screens need all the time; ``values`` holds the rest by key."""

    name: str = ""
    zone: tzinfo | None = None
    currency: str = "EUR"
    language: str = "en"
    values: Mapping[str, Any] = field(default_factory=dict)


class Desk(QObject):
    """Handed to every page. ``book`` is opaque: pages pass it to functions of app.work and never look inside."""

    changed = Signal(object)  # Changes of app.work: pages reload what they show
    staff_changed = Signal(object)  # StaffNow or None
    facts_changed = Signal()
    copies_changed = Signal()  # a copy of the book was made, or failed

    def __init__(
        self,
        book: Any,
        *,
        doors: Doors,
        drafts: Drafts,
        clock: Callable[[], datetime],
        shop: ShopFacts,
        find: Callable[[str], tuple[FindHit, ...]] = lambda text: (),
        settings: Path | None = None,
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        self.book = book
        self.doors = doors
        self.drafts = drafts
        self.clock = clock
        self.shop = shop
        self.find = find
        self.settings = settings  # this workstation's file: shape of the window, printers; None keeps nothing
        self._staff: StaffNow | None = None
        self._opener: Callable[[str, Any], object] = lambda kind, key: None
        self._back: Callable[[], object] = lambda: None
        self._leave_for: Callable[[Errand], object] = lambda errand: None

    # who and when

    @property
    def staff(self) -> StaffNow | None:
        """Who works now; None until somebody said so."""
        return self._staff

    def set_staff(self, staff: StaffNow | None) -> None:
        """Somebody else works now."""
        self._staff = staff
        self.staff_changed.emit(staff)

    def now(self) -> datetime:
        """The instant now, aware, UTC."""
        return self.clock()

    def today(self) -> date:
        """The shop's day."""
        return self.clock().astimezone(self.shop.zone).date()

    # changes

    def announce(self, changes: Any) -> None:
        """Tell all pages what an action of app.work changed."""
        self.changed.emit(changes)

    def change(
        self,
        receiver: QObject,
        work: Callable[[], Any],
        done: Callable[[Any], object] | None = None,
        failed: Callable[[Exception], object] | None = None,
    ) -> Any:
        """Run a changing function of app.work. When its result has ``.changes`` (a `Done`), these are
        announced before ``done(result)``."""

        def arrived(result: Any) -> None:
            if (changes := getattr(result, "changes", None)) is not None:
                self.announce(changes)
            if done is not None:
                done(result)

        return self.doors.change(receiver, work, arrived, failed)

    # other pages

    def serve(self, opener: Callable[[str, Any], object], back: Callable[[], object]) -> None:
        """The window takes over opening pages and going back."""
        self._opener, self._back = opener, back

    def serve_errands(self, leave_for: Callable[[Errand], object]) -> None:
        """The program takes over what needs the book closed."""
        self._leave_for = leave_for

    def leave_for(self, errand: Errand) -> None:
        """Close this window and its book, do the errand, and open a window again."""
        self._leave_for(errand)

    def open(self, kind: str, key: Any = None) -> None:
        """Open the page of a kind the window knows, e.g. ``open("job", 12)``."""
        self._opener(kind, key)

    def back(self) -> None:
        """Go back to the page before."""
        self._back()

    def open_job(self, job_id: int) -> None:
        """Open the sheet of a job by its id."""
        self.open("job", job_id)

    def open_unit(self, unit_id: int) -> None:
        """Open the page of a player."""
        self.open("unit", unit_id)

    def open_transport(self, transport_id: int) -> None:
        """Open the life of a transport."""
        self.open("transport", transport_id)

    def open_customer(self, customer_id: int) -> None:
        """Open the page of a customer."""
        self.open("customer", customer_id)

    def show_paper(self, paper: Paper) -> None:
        """Show a paper with its buttons to print and to save."""
        self.open("paper", paper)
