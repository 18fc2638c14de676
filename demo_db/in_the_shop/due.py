"""The players that are late or promised for today: one held by a stop, one ready, one running in."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from app.trade.bench.kinds import FaultGroup, Warmth
from app.trade.bench.modifications import Circuit, Kind
from app.trade.bench.stages import (
    CaseStep,
    CauseFound,
    Left,
    MainsClass,
    Moment,
    Outcome,
    Stage,
    TrialOutcome,
)
from app.work.bench.modifications import ModificationEntry
from app.work.office.parts import PartEntry
from demo_db.hands import micro
from demo_db.in_the_shop.players import Players

DURING, FINAL = Moment.DURING, Moment.FINAL


class Due(Players):
    """The stories of those that somebody waits for."""

    # late

    def dead_after_a_storm(self) -> Iterator[datetime]:
        """Held by a stop: somebody has bridged the fuse."""
        shop = self.shop
        yield self.ago(12, "10:25")
        job = self.take_in(
            "Zelkova 9",
            "Z 07 902",
            name="Wilma Achterberg",
            phone="01632 960311",
            street="44 Lantern Street",
            fault="Dead after the storm.",
            faults=("no power",),
            marking="60 198",
            came_with=("mains lead",),
            limit="180",
            shelf="D 2",
            promised_on=self.ahead(-4),
        )
        shop.noted["storm"] = job
        yield self.ago(8, "14:10")
        shop.move(job, Stage.ON_THE_BENCH)
        shop.climb(job, 0, tries=1)
        shop.modify(
            job,
            ModificationEntry(
                kind=Kind.FUSE,
                circuit=Circuit.FUSE,
                where="F1",
                was="T 315 mA, 250 V",
                now="bridged with a bent pin",
                ours=False,
            ),
        )
        shop.note(job, "not the storm alone: the fuse was bridged before. Transformer measured, looks whole")

    def no_sound_on_the_left(self) -> Iterator[datetime]:
        """Waits for a part, a day late."""
        shop = self.shop
        yield self.ago(9, "11:50")
        job = self.take_in(
            "Tamarack",
            "TM 88012",
            name="Rune Halstad",
            phone="01632 960686",
            street="9 Tallow Court",
            fault="No sound on the left.",
            faults=("one channel",),
            marking="61 880",
            limit="160",
            shelf="B 2",
            promised_on=self.ahead(-1),
        )
        yield self.ago(6, "9:40")
        shop.move(job, Stage.ON_THE_BENCH)
        shop.climb(job, 12)
        shop.read(job, "audio_level", "0.30", tool="meter", place="left output")
        shop.note(job, "left output amplifier dead; the supplier sends one this week")
        amplifier = PartEntry(
            code="IC-OUT-L",
            words="output amplifier with long legs, for Tamarack",
            price=micro("9.80"),
            cost=micro("4.10"),
            supplier="Harlow Components",
            order_code="LL 8802",
            bin="B7",
        )
        self.order(job, amplifier, self.shop.days.working_before(self.today), "their order 77 204")
        shop.say(job, "It is the output amplifier; the part comes this week, it gets a little later.")

    # promised for today

    def tray_opens_by_itself(self) -> Iterator[datetime]:
        """Ready, not invoiced yet."""
        shop = self.shop
        yield self.ago(5, "15:05")
        job = self.take_in(
            "Osier 7",
            "20 4471",
            name="Odile Varenne",
            phone="01632 960225",
            email="odile.varenne@example.org",
            street="2 Heron Walk",
            fault="The tray opens by itself.",
            faults=("tray: sometimes",),
            marking="T 51190",
            came_with=("remote control",),
            limit="120",
            shelf="A 1",
            promised_on=self.ahead(0),
            promised_time="10:00",
        )
        yield self.ago(3, "10:10")
        shop.move(job, Stage.ON_THE_BENCH, "sanna")
        shop.climb(job, 1, who="sanna")
        shop.read(job, "load_time", "0.6", who="sanna")
        shop.use(job, "SW-TRAY", who="sanna")
        shop.begin_trial(
            job,
            "switch_clean",
            "tray switch renewed",
            suspect="tray_switch",
            outcome=TrialOutcome.CURED,
            left=Left.LEFT_SO,
            who="sanna",
        )
        shop.read(job, "load_time", "2.4", FINAL, who="sanna")
        shop.climb(job, 12, FINAL, who="sanna", tries=3)
        yield self.ago(3, "11:20")
        shop.case(job, CaseStep.CLOSED, "sanna")
        shop.safety_test(job, MainsClass.II, insulation="> 200", touch_current="0.04")
        shop.labour(job, "bench work: tray switch renewed", "0.75", who="sanna")
        shop.found(job, FaultGroup.LOADING, CauseFound.CONTACT, Outcome.MENDED, who="sanna")
        shop.move(job, Stage.READY, "sanna")
        shop.say(job, "It is ready and can be collected.")

    def skips_near_the_end(self) -> Iterator[datetime]:
        """Ready, invoiced, not paid."""
        shop = self.shop
        yield self.ago(8, "9:35")
        job = self.take_in(
            "Bramble C",
            "A 05512",
            name="Teodor Brelik",
            phone="01632 960940",
            street="17 Tidemark Row",
            fault="Skips near the end.",
            faults=("skips",),
            marking="P5 22904",
            came_with=("supply unit",),
            limit="150",
            shelf="A 3",
            promised_on=self.ahead(0),
            promised_time="12:00",
        )
        yield self.ago(4, "9:50")
        shop.move(job, Stage.ON_THE_BENCH)
        shop.climb(job, 11, tries=3)
        shop.read(job, "c1_outer", "240", tool="counter", seconds=30)
        shop.begin_trial(
            job,
            "tilt_set",
            "tilt set by two lines",
            suspect="tilt",
            outcome=TrialOutcome.CURED,
            left=Left.LEFT_SO,
        )
        shop.read(job, "c1_outer", "18", FINAL, tool="counter", seconds=30)
        shop.climb(job, 12, FINAL, tries=3)
        shop.case(job, CaseStep.CLOSED)
        shop.labour(job, "bench work: tilt set by two lines", "1.00")
        shop.found(job, FaultGroup.GEOMETRY, CauseFound.ADJUSTMENT, Outcome.MENDED)
        shop.move(job, Stage.READY)
        yield self.ago(2, "10:30")
        shop.issue(job)
        shop.say(job, "Ready. The invoice lies with it.")

    def stops_after_forty_minutes(self) -> Iterator[datetime]:
        """Runs in after its joints were resoldered."""
        shop = self.shop
        yield self.ago(7, "16:40")
        job = self.take_in(
            "Kelp 1",
            "5 700 118",
            name="Jun Okeland",
            phone="01632 960158",
            street="28 Saltpan Road",
            fault="Stops after forty minutes.",
            faults=("stops when warm: when warm",),
            marking="G3 52281",
            limit="200",
            shelf="B 4",
            promised_on=self.ahead(0),
            promised_time="17:00",
        )
        yield self.ago(2, "11:10")
        shop.move(job, Stage.ON_THE_BENCH)
        shop.climb(job, 9, warmth=Warmth.WARM, warm_minutes=45, tries=3, stopped_in=2)
        shop.case(job, CaseStep.OPENED)
        trial = shop.begin_trial(job, "resolder", "joints at the servo board resoldered", suspect="joints")
        yield self.ago(1, "15:30")
        shop.climb(job, 12, DURING, warmth=Warmth.WARM, warm_minutes=50, trial_id=trial, trial_side="after")
        shop.judge(trial, TrialOutcome.BETTER, Left.LEFT_SO)
        shop.move(job, Stage.RUNNING_IN)
        shop.note(job, "runs until tomorrow 16:10, then the final readings")
