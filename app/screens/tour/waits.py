"""What the steps of the tour share: the hands, the window, the job under way, and what a step waits for."""

from __future__ import annotations

from collections.abc import Callable
from typing import Protocol

from app.screens.bench.job_sheet_page import JobSheetPage
from app.screens.paper_page import PaperPage
from app.screens.shop_window import ShopWindow, staff_now
from app.screens.tour.hands import Hands, Missed, Until
from app.work.bench.job_sheet import JobSheet


class Clock(Protocol):
    """The clock of the tour."""

    def on(self, **by: float) -> None:
        """Let time go by."""
        ...


class Waits:
    """What the steps share, and what they wait for."""

    def __init__(self, hands: Hands, shop: ShopWindow, clock: Clock) -> None:
        self.hands = hands
        self.shop = shop
        self.clock = clock
        self.job = 0

    def idle(self) -> bool:
        """the doors to be quiet"""
        return self.shop.doors.waiting == 0

    def page_is(self, kind: type) -> Until:
        """A page of this class in sight, and nothing on its way."""

        def there() -> bool:
            return isinstance(self.hands.window.page, kind) and self.idle()

        there.__doc__ = f"the page {kind.__name__}"
        return there

    def sees(self, name: str) -> Until:
        """Something with this name in sight, and nothing on its way."""

        def there() -> bool:
            return self.hands.sees(name) and self.idle()

        there.__doc__ = f"{name!r} in sight"
        return there

    def gone(self, name: str) -> Until:
        """Nothing with this name in sight any more, and nothing on its way."""

        def away() -> bool:
            return not self.hands.sees(name) and self.idle()

        away.__doc__ = f"{name!r} to be gone"
        return away

    def sheet(self, fits: Callable[[JobSheetPage], bool], what: str) -> Until:
        """The job sheet has loaded something."""

        def there() -> bool:
            page = self.hands.window.page
            return isinstance(page, JobSheetPage) and self.idle() and fits(page)

        there.__doc__ = what
        return there

    def written(self, name: str) -> Until:
        """A file whose name is like this in the folder of the tour."""

        def there() -> bool:
            return self.idle() and any(self.hands.folder.glob(name))

        there.__doc__ = f"the file {name}"
        return there

    def emptied(self, name: str) -> Until:
        """A field is ready for the next value."""

        def there() -> bool:
            return self.idle() and not self.hands.text(name)

        there.__doc__ = f"the field {name} to be emptied"
        return there

    def more_readings(self, count: int) -> Until:
        """More readings than so many on the sheet."""
        return self.sheet(lambda page: len(page.facts.readings) > count, "another reading")

    def works(self, name: str) -> None:
        """Somebody else works at the window now."""
        person = next((s for s in staff_now(self.shop.book) if s.name.startswith(name)), None)
        if person is None:
            raise Missed(f"nobody called {name}")
        self.shop.desk.set_staff(person)

    def keep_paper(self, name: str) -> None:
        """Keep the paper that is in sight."""
        page = self.hands.window.page
        if not isinstance(page, PaperPage):
            raise Missed("no paper is in sight")
        self.hands.paper(name, page.paper.pdf)

    def facts(self) -> JobSheet:
        """The job sheet as it is shown."""
        page = self.hands.window.page
        if not isinstance(page, JobSheetPage):
            raise Missed("the job sheet is not in sight")
        return page.facts
