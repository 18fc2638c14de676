"""What the technician does on the tour: measure, try in vain, modify, take final readings, cure."""

from __future__ import annotations

from app.screens.bench.job_sheet_page import JobSheetPage
from app.screens.tour.hands import Steps
from app.screens.tour.waits import Waits
from app.trade.bench.stages import Stage

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


class BenchSteps(Waits):
    """The steps at the bench."""

    def found(self) -> Steps:
        """The next day the technician finds the player's newest job by its serial number."""
        self.works("Tobbe")
        self.clock.on(hours=20)
        self.hands.press("Ctrl+F")
        self.hands.type("0433902")
        yield self.idle
        self.hands.press("Return")
        yield self.page_is(JobSheetPage)

    def measured(self) -> Steps:
        """The technician opens the job by its number, climbs the ladder and takes the readings of the sheet."""
        yield from self.found()
        hands = self.hands
        page = hands.window.page
        assert isinstance(page, JobSheetPage)
        self.job = page.job_id
        hands.click("Put on the bench")
        yield self.sheet(lambda page: page.facts.stage is Stage.ON_THE_BENCH, "the job on the bench")
        yield from self.climbed("10 plays first track", "arrival", "warm")
        hands.go_to("Start-up ladder")
        hands.press("Up")  # marks the rung before which it stopped
        yield self.sees("Close")
        yield self.idle
        hands.picture("04-rung")
        hands.press("Esc")
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

    def climbed(self, rung: str, when: str, warmth: str) -> Steps:
        """One start-up test of three tries."""
        hands, count = self.hands, len(self.facts().start_ups)
        hands.press("Ctrl+T")
        yield self.sees("Highest rung")
        hands.pick("Highest rung", rung)
        hands.type_into("Tries", "3")
        hands.choose(f"Warmth: {warmth}")
        hands.choose(f"When: {when}")
        hands.press("Ctrl+Return")
        yield self.sheet(lambda page: len(page.facts.start_ups) > count, f"the test that reached {rung}")
        self.clock.on(minutes=5)

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
        """Three changes without effect, each read before and after; what the book makes of the suspects then."""
        yield from self.in_vain("flex led differently", "flex stiff", "4.7", "put back")
        yield from self.in_vain("joints resoldered", "cracked joint", "4.8", "left so")
        yield from self.in_vain("radial balance, offset or gain set", "wobble signal", "4.7", "left so")
        hands = self.hands
        hands.click("Why this order")
        yield self.idle
        hands.picture("05-suspects")
        hands.click("Hide why")
        yield self.idle

    def in_vain(self, change: str, suspect: str, seconds: str, left: str) -> Steps:
        """One change that makes no difference to the time of a long seek, nor to the rung."""
        yield from self.trial(change, suspect, ("seek time", seconds))
        yield from self.climbed("10 plays first track", "during", "warm")
        yield from self.judged("no difference", left)

    def trial(self, change: str, suspect: str, after: tuple[str, str], reason: str = "") -> Steps:
        """Begin a trial and read after it."""
        hands, count = self.hands, len(self.facts().trials)
        hands.press("Ctrl+Shift+T")
        yield self.sees("Begin this trial")
        hands.type_into("What is changed", change)
        hands.press("Return")
        yield self.idle
        hands.pick("What is suspected", suspect)
        if reason:
            hands.type_into("Reason for order", reason)
        hands.press("Ctrl+Return")
        yield self.sheet(lambda page: len(page.facts.trials) > count, f"the trial {change}")
        self.clock.on(minutes=20)
        hands.press("Ctrl+R")
        yield self.sees("Take this reading")
        yield from self.read(*after)
        hands.press("Esc")
        yield self.idle

    def judged(self, outcome: str, left: str) -> Steps:
        """Say what the newest trial did and what became of the change."""
        hands = self.hands
        hands.press("Ctrl+J")
        yield self.sees("Judge it")
        hands.choose(f"What it did: {outcome}")
        hands.choose(f"What became of it: {left}")
        hands.press("Ctrl+Return")
        yield self.sheet(lambda page: page.facts.trials[-1].outcome is not None, f"a trial judged {outcome}")

    def modified(self) -> Steps:
        """A change outside the maker's design helps; its effect is worked out while typing, then flagged."""
        yield from self.trial(
            "coil current raised (resistor)",
            "radial motor weak",
            ("seek time", "1.3"),
            "promised for Friday; the transport would have to come out",
        )
        yield from self.climbed("12 plays outer tracks", "during", "warm")
        hands = self.hands
        hands.press("Ctrl+R")
        yield self.sees("Take this reading")
        yield from self.read("radial drive", "188")
        hands.press("Esc")
        yield self.idle
        yield from self.judged("better", "left inside")
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
        hands.picture("06-modification")
        hands.press("Ctrl+Return")
        yield self.sheet(lambda page: bool(page.facts.modifications), "the modification")
        hands.picture("07-flagged")
        hands.find("Trials").setFocus()
        yield self.idle
        hands.picture("08-trials")

    def finals(self) -> Steps:
        """What a raised coil current asks for at the end, and the climb to the top."""
        self.works("Tobbe")
        self.clock.on(minutes=40)
        yield from self.climbed("12 plays outer tracks", "final", "warm")
        hands = self.hands
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

    def cured(self) -> Steps:
        """Cold it stalls again; this time the arm comes out, and the change of the first visit goes back."""
        yield from self.found()
        hands = self.hands
        hands.click("Put on the bench")
        yield self.sheet(lambda page: page.facts.stage is Stage.ON_THE_BENCH, "the job on the bench again")
        yield from self.climbed("10 plays first track", "arrival", "cold")
        hands.press("Ctrl+R")
        yield self.sees("Take this reading")
        yield from self.read("arm start current", "40; 41; 42")
        yield from self.read("radial drive", "253")
        hands.press("Esc")
        yield self.idle
        hands.picture("18-suspects-again")
        yield from self.trial("arm bearing cleaned", "arm bearing", ("arm start current", "18"))
        yield from self.climbed("12 plays outer tracks", "during", "cold")
        yield from self.climbed("12 plays outer tracks", "during", "warm")
        yield from self.judged("cured", "left so")
        hands.click("Put it back…")
        yield self.sees("It is put back")
        hands.type_into("Note", "6.8 ohm fitted again: the arm itself was the fault")
        hands.press("Ctrl+Return")
        yield self.sheet(
            lambda page: page.facts.modifications[0].reversed_at is not None, "the modification put back"
        )
        hands.click("Decide…")
        yield self.sees("Fault group")
        hands.pick("Fault group", "radial")
        hands.pick("Cause", "grease or oil")
        hands.press("Ctrl+Return")
        yield self.sheet(
            lambda page: page.facts.fault_group is not None, "the fault group of the second visit"
        )
        hands.find("Trials").setFocus()
        yield self.idle
        hands.picture("19-cured")
