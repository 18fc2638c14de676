"""One player's way: measured, tried in vain, modified, agreed, made safe, handed back, met again and cured; then a
day of money on another job, and the owner's questions."""

from __future__ import annotations

from app.screens.bench.job_sheet_page import JobSheetPage
from app.screens.bench.transport_page import TransportPage
from app.screens.office.bookkeeper_page import BookkeeperPage
from app.screens.office.figures.comeback_rate_page import ComebackRatePage
from app.screens.office.reorder_page import ReorderPage
from app.screens.paper_page import PaperPage
from app.screens.shop_window import ShopWindow
from app.screens.tour.bench_steps import BenchSteps
from app.screens.tour.figures_steps import FiguresSteps
from app.screens.tour.hands import Hands, Missed, Steps
from app.screens.tour.money_steps import MoneySteps
from app.screens.tour.waits import Clock

TESTER_PIN = "8264"  # of the demo shop's tester; the README tells all of them
SERIAL = "0433 902"


def story(hands: Hands, shop: ShopWindow, clock: Clock) -> Steps:
    """All steps in their order. Each yields what has to come before the next begins."""
    tour = Story(hands, shop, clock)
    yield tour.idle
    yield from tour.at_the_counter()
    yield from tour.taken_in()
    yield from tour.measured()
    yield from tour.tried()
    yield from tour.modified()
    yield from tour.agreed()
    yield from tour.finals()
    yield from tour.decided()
    yield from tour.made_safe()
    yield from tour.invoiced()
    yield from tour.reported()
    yield from tour.handed_back()
    yield from tour.met_again()
    yield from tour.cured()
    yield from tour.looked_over()
    yield from tour.money_day()
    yield from tour.questions()


class Story(BenchSteps, MoneySteps, FiguresSteps):
    """The steps, in their order."""

    def at_the_counter(self) -> Steps:
        """The list of players in the shop."""
        self.works("Mirr")
        self.hands.press("Ctrl+1")
        yield self.idle
        self.hands.picture("01-counter")

    def taken_in(self) -> Steps:
        """A player is taken in by keyboard alone, and its ticket shown."""
        hands = self.hands
        hands.press("Ctrl+N")
        yield self.sees("Customer")
        for name, text in (
            ("Customer", "Hanne Oxlaith"),
            ("Phone", "01632 960 388"),
            ("Street and house", "7 Nowhere Lane"),
            ("Postcode", "43117"),
            ("Town", "Mossgate"),
            ("Serial number", SERIAL),
            ("Maker", "Quellmar"),
            ("Model", "Larch 2"),
        ):
            hands.type_into(name, text)
            yield self.idle
        hands.choose("Mains: class II")
        hands.pick("Transport", "Velk A1")
        hands.type_into("Number of the transport", "57 204")
        hands.type_into(
            "As they say it", "Starts fine, but a jump to the last songs takes for ever, then it stops."
        )
        hands.choose("skips: not named")
        hands.type_into("Marks", "scratch on the cover, front left")
        hands.choose("remote control")
        hands.type_into("Ask first above", "220")
        hands.type_into("Shelf", "B 3")
        hands.type_into("Ready by", "+8")
        yield self.idle
        hands.picture("02-take-in")
        hands.press("Ctrl+Return")
        yield self.page_is(PaperPage)
        hands.picture("03-ticket")
        self.keep_paper("intake-ticket")
        hands.press("Alt+Left")
        yield self.idle

    def agreed(self) -> Steps:
        """The counter rings the customer and records the yes to exactly this change."""
        self.works("Mirr")
        hands = self.hands
        hands.click("Note the customer's yes")
        yield self.sees("Record it")
        hands.type_into("To exactly what", "R314 5.6 for 6.8 ohm, 21 % more coil current, can be undone")
        hands.choose("By which way: telephone")
        hands.type_into("Said by", "Hanne Oxlaith")
        yield self.idle
        hands.picture("09-agreed")
        hands.press("Ctrl+Return")
        yield self.sheet(lambda page: bool(page.facts.agreements), "the recorded yes")

    def made_safe(self) -> Steps:
        """The case is closed, and a competent person tests and signs."""
        self.works("Sanna")
        hands = self.hands
        hands.click("Case closed")
        yield self.sheet(lambda page: not page.facts.case_open, "the case closed")
        self.clock.on(minutes=10)
        hands.press("Ctrl+Shift+S")
        yield self.sees("Sign and record the test")
        hands.choose("Visual: case, cord, plug, openings: in order")
        hands.type_into("Insulation", "> 100")
        hands.type_into("Touch current", "0.04")
        hands.choose("Function, case closed: in order")
        hands.type_into("PIN", TESTER_PIN)
        yield self.idle
        hands.picture("10-safety-test")
        hands.press("Ctrl+Return")
        yield self.sheet(lambda page: bool(page.facts.safety_tests), "the safety test")
        self.works("Tobbe")
        hands.press("Ctrl+Shift+W")
        yield self.sees("Note the time")
        hands.type_into("What was done", "Fault traced, R314 changed, run and tested")
        hands.type_into("It took", "1:30")
        hands.press("Ctrl+Return")
        yield self.sheet(lambda page: bool(page.facts.work), "the working time")
        hands.picture("11-job-sheet")

    def invoiced(self) -> Steps:
        """The owner looks at the draft, issues the invoice, and takes the money."""
        self.works("Ine")
        hands = self.hands
        hands.window.open("invoice", self.job)
        yield self.sees("Issue the invoice")
        hands.picture("12-invoice-draft")
        hands.click("Issue the invoice")
        yield self.sees("Issue it now")
        hands.click("Issue it now")
        yield self.sees("Take a payment")
        yield self.sees("Print")
        hands.click("Take a payment")
        yield self.sees("Amount")
        hands.press("Ctrl+Return")
        yield self.idle
        hands.picture("13-invoice-paid")
        hands.press("Ctrl+P")
        yield self.page_is(PaperPage)
        self.keep_paper("invoice")
        hands.press("Alt+Left")
        yield self.idle

    def reported(self) -> Steps:
        """What was found, tried and left inside goes with the player as a service report."""
        self.works("Tobbe")
        hands = self.hands
        hands.window.open("job", self.job)
        yield self.page_is(JobSheetPage)
        hands.click("Service report…")
        yield self.sees("Issue the report")
        hands.press("Ctrl+Return")
        yield self.page_is(PaperPage)
        hands.picture("14-service-report")
        self.keep_paper("service-report")

    def handed_back(self) -> Steps:
        """The customer collects; things are ticked, the receipt printed."""
        self.works("Mirr")
        self.clock.on(hours=26)
        hands = self.hands
        hands.window.open("hand_back", self.job)
        yield self.sees("Who collects: the customer")
        hands.pick("Outcome", "mended with a modification")
        hands.choose("shown playing and told what was done")
        hands.choose("remote control")
        yield self.idle
        hands.picture("15-hand-back")
        hands.press("Ctrl+Return")
        yield self.page_is(PaperPage)
        hands.picture("16-receipt")
        self.keep_paper("hand-back-receipt")

    def met_again(self) -> Steps:
        """Weeks later the same player comes again, and the book knows it by the end of its serial number."""
        self.clock.on(days=47)
        hands = self.hands
        hands.press("Ctrl+N")
        yield self.sees("Serial number")
        hands.type_into("Serial number", SERIAL)
        yield self.idle
        hands.press("Down")
        hands.press("Return")
        yield self.idle
        hands.type_into("As they say it", "Since the frost it hangs again until it has played a while.")
        hands.choose("skips: not named")
        yield self.idle
        hands.picture("17-known-again")
        hands.pick("Transport", "Velk A1")
        hands.type_into("Ready by", "+8")
        hands.press("Ctrl+Return")
        yield self.page_is(PaperPage)
        hands.press("Alt+Left")
        yield self.idle

    def looked_over(self) -> Steps:
        """What helped before, the life of the transport, which repairs come back, what to order, the journal."""
        hands = self.hands
        hands.window.open("job", self.job)
        yield self.page_is(JobSheetPage)
        hands.click("What helped before")
        yield self.idle
        hands.picture("20-what-helped")
        transport = self.facts().transport_id
        if transport is None:
            raise Missed("no transport on the job sheet")
        hands.window.open("transport", transport)
        yield self.page_is(TransportPage)
        hands.picture("21-transport-life")
        hands.press("Ctrl+Shift+B")
        yield self.page_is(ComebackRatePage)
        hands.picture("22-comebacks")
        hands.window.open("reorder")
        yield self.page_is(ReorderPage)
        hands.picture("23-what-to-order")
        hands.window.open("bookkeeper")
        yield self.page_is(BookkeeperPage)
        hands.pick("Period", "the quarter before")
        yield self.idle
        hands.picture("24-for-the-bookkeeper")
