"""One player's way: taken in, measured, modified, agreed, made safe, invoiced, handed back, met again."""

from __future__ import annotations

from app.screens.bench.job_sheet_page import JobSheetPage
from app.screens.bench.transport_page import TransportPage
from app.screens.office.repeat_faults_page import RepeatFaultsPage
from app.screens.paper_page import PaperPage
from app.screens.shop_window import ShopWindow
from app.screens.tour.hands import Hands, Missed, Steps
from app.screens.tour.waits import Clock, Waits
from app.trade.bench.stages import Stage

TESTER_PIN = "8264"  # of the demo shop's tester; the README tells all of them
SERIAL = "0433 902"
# Final readings by the words of their quantity, in the order in which the sheet asks for them.
FINALS = {
    "driver temperature": ("48",),
    "radial coil resistance": ("14.0", "14.5"),
    "dropout passed": ("0.75",),
    "seek time, first to last track": ("1.3",),
    "laser current": ("51.0",),
    "HF eye": ("1.09",),
    "focus offset": ("11",),
    "radial drive": ("188",),
    "arm start current": ("24.0",),
    "C1 errors, inner tracks": ("12",),
}


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
    yield from tour.handed_back()
    yield from tour.met_again()
    yield from tour.looked_over()


class Story(Waits):
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

    def measured(self) -> Steps:
        """The technician opens the job by its number, climbs the ladder and takes the readings of the sheet."""
        self.works("Tobbe")
        self.clock.on(hours=20)
        hands = self.hands
        hands.press("Ctrl+F")
        hands.type("0433902")
        yield self.idle
        hands.press("Return")
        yield self.page_is(JobSheetPage)
        page = hands.window.page
        assert isinstance(page, JobSheetPage)
        self.job = page.job_id
        hands.click("Put on the bench")
        yield self.sheet(lambda page: page.facts.stage is Stage.ON_THE_BENCH, "the job on the bench")
        hands.press("Ctrl+T")
        yield self.sees("Highest rung")
        hands.pick("Highest rung", "10 plays first track")
        hands.type_into("Tries", "3")
        hands.choose("Warmth: warm")
        hands.press("Ctrl+Return")
        yield self.sheet(lambda page: bool(page.facts.start_ups), "the start-up result")
        hands.press("Ctrl+R")
        yield self.sees("Take this reading")
        for quantity, value in (
            ("laser current", "51,2"),
            ("HF eye", "1.08"),
            ("focus offset", "12"),
            ("radial drive", "228"),
            ("arm start current", "30.4"),
            ("seek time", "4.8"),
        ):
            yield from self.read(quantity, value)
        hands.press("Esc")
        yield self.idle
        hands.picture("04-readings")

    def read(self, quantity: str, value: str) -> Steps:
        """One reading: quantity, value, Enter."""
        count = len(self.facts().readings)
        self.hands.type_into("Quantity", quantity)
        self.hands.press("Return")
        self.hands.type_into("Value", value)
        yield self.idle
        self.hands.press("Return")
        yield self.more_readings(count)
        self.clock.on(minutes=2)

    def tried(self) -> Steps:
        """One change without effect: the flex led anew, read before and after."""
        yield from self.trial("flex led differently", ("seek time", "4.7"))
        hands = self.hands
        hands.click("Judge it…")
        yield self.sees("Judge it")
        hands.choose("What it did: no difference")
        hands.type_into("What became of it", "left so; leaves nothing behind")
        hands.press("Ctrl+Return")
        yield self.sheet(lambda page: page.facts.trials[0].outcome is not None, "the first judgement")

    def trial(self, change: str, after: tuple[str, str]) -> Steps:
        """Begin a trial and read after it."""
        hands, count = self.hands, len(self.facts().trials)
        hands.press("Ctrl+Shift+T")
        yield self.sees("Begin this trial")
        hands.type_into("What is changed", change)
        hands.press("Return")
        hands.press("Ctrl+Return")
        yield self.sheet(lambda page: len(page.facts.trials) > count, f"the trial {change}")
        self.clock.on(minutes=20)
        hands.press("Ctrl+R")
        yield self.sees("Take this reading")
        yield from self.read(*after)
        hands.press("Esc")
        yield self.idle

    def modified(self) -> Steps:
        """A change outside the maker's design helps; its effect is worked out while typing, then flagged."""
        yield from self.trial("coil current raised (resistor)", ("seek time", "1.3"))
        hands = self.hands
        hands.click("Judge it…")
        yield self.sees("Judge it")
        hands.choose("What it did: better")
        hands.type_into("What became of it", "left inside: a modification")
        hands.press("Return")
        hands.press("Ctrl+Return")
        yield self.sheet(lambda page: page.facts.trials[-1].outcome is not None, "the second judgement")
        if not hands.sees("Record the modification"):
            hands.press("Ctrl+M")
        yield self.sees("Record the modification")
        hands.pick("What was done", "resistor replaced")
        hands.pick("in", "radial coil drive")
        hands.type_into("Where", "R314")
        hands.choose("Law: the current goes as 1 / R")
        hands.type_into("Part as made", "6R8")
        hands.type_into("Tolerance of the part as made", "5")
        hands.type_into("Added or fitted", "5R6")
        hands.type_into("Tolerance of the new part", "5")
        hands.type_into("Why", "With this one it seeks to the last track.")
        yield self.idle
        hands.picture("05-modification")
        hands.press("Ctrl+Return")
        yield self.sheet(lambda page: bool(page.facts.modifications), "the modification")
        hands.picture("06-flagged")

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
        hands.picture("07-agreed")
        hands.press("Ctrl+Return")
        yield self.sheet(lambda page: bool(page.facts.agreements), "the recorded yes")

    def finals(self) -> Steps:
        """What a raised coil current asks for at the end, and the climb to the top."""
        self.works("Tobbe")
        self.clock.on(minutes=40)
        hands = self.hands
        hands.press("Ctrl+T")
        yield self.sees("Highest rung")
        hands.pick("Highest rung", "12 plays outer tracks")
        hands.type_into("Tries", "3")
        hands.choose("When: final")
        hands.press("Ctrl+Return")
        yield self.sheet(lambda page: len(page.facts.start_ups) > 1, "the final start-up")
        hands.press("Ctrl+R")
        yield self.sees("Take this reading")
        hands.choose("When: final")
        yield self.idle
        wanted = {name: list(values) for name, values in FINALS.items()}
        while values := wanted.get(hands.text("Quantity")):
            count = len(self.facts().readings)
            hands.type_into("Value", values.pop(0))
            yield self.idle
            hands.press("Return")
            yield self.more_readings(count)
            self.clock.on(minutes=2)
            yield self.emptied("Value")
        hands.press("Esc")
        yield self.idle

    def decided(self) -> Steps:
        """Where the fault sat; a cure by a modification establishes no cause."""
        hands = self.hands
        hands.click("Decide…")
        yield self.sees("Fault group")
        hands.pick("Fault group", "radial")
        hands.pick("Cause", "not established")
        hands.press("Ctrl+Return")
        yield self.sheet(lambda page: page.facts.fault_group is not None, "the fault group")

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
        hands.picture("08-safety-test")
        hands.press("Ctrl+Return")
        yield self.sheet(lambda page: bool(page.facts.safety_tests), "the safety test")
        self.works("Tobbe")
        hands.press("Ctrl+Shift+W")
        yield self.sees("Note the time")
        hands.type_into("What was done", "Fault traced, R314 changed, run and tested")
        hands.type_into("It took", "1:30")
        hands.press("Ctrl+Return")
        yield self.sheet(lambda page: bool(page.facts.work), "the working time")
        hands.picture("09-job-sheet")

    def invoiced(self) -> Steps:
        """The owner looks at the draft, issues the invoice, and takes the money."""
        self.works("Ine")
        hands = self.hands
        hands.window.open("invoice", self.job)
        yield self.sees("Issue the invoice")
        hands.picture("10-invoice-draft")
        hands.click("Issue the invoice")
        yield self.sees("Issue it now")
        hands.click("Issue it now")
        yield self.sees("Take a payment")
        yield self.sees("Print")
        hands.click("Take a payment")
        yield self.sees("Amount")
        hands.press("Ctrl+Return")
        yield self.idle
        hands.picture("11-invoice-paid")
        hands.press("Ctrl+P")
        yield self.page_is(PaperPage)
        self.keep_paper("invoice")
        hands.press("Alt+Left")
        yield self.idle

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
        hands.picture("12-hand-back")
        hands.press("Ctrl+Return")
        yield self.page_is(PaperPage)
        hands.picture("13-receipt")
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
        hands.picture("14-known-again")
        hands.press("Esc")
        yield self.idle

    def looked_over(self) -> Steps:
        """The life of the transport, and which repairs come back."""
        hands = self.hands
        hands.window.open("job", self.job)
        yield self.page_is(JobSheetPage)
        transport = self.facts().transport_id
        if transport is None:
            raise Missed("no transport on the job sheet")
        hands.window.open("transport", transport)
        yield self.page_is(TransportPage)
        hands.picture("15-transport")
        hands.press("Ctrl+Shift+B")
        yield self.page_is(RepeatFaultsPage)
        hands.picture("16-comebacks")
