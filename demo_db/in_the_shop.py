"""The fourteen players that are in the shop when the demo is opened: in every stage, some late, one held by a stop."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from decimal import Decimal
from typing import Any

from app.trade.bench.kinds import FaultGroup, TransitLock, Warmth
from app.trade.bench.modifications import Circuit, Kind
from app.trade.bench.stages import (
    CaseStep,
    CauseFound,
    MainsClass,
    Moment,
    Outcome,
    Stage,
    TrialOutcome,
    Waiting,
)
from app.trade.counter.taking_in import Intake
from app.work.bench.modifications import ModificationEntry
from app.work.bench.readings import correct_reading
from app.work.bench.transports import change_label, transport_life
from app.work.bench.trials import take_as_before
from app.work.counter.stages import set_waiting
from demo_db.hands import Shop, faults, money
from demo_db.plan import PlannedJob
from demo_db.scenario import PlayerKind, Scenario
from demo_db.years import Known

ARRIVAL, DURING, FINAL = Moment.ARRIVAL, Moment.DURING, Moment.FINAL


@dataclass
class InTheShop:
    """The days around ``today``, on which nothing has happened yet, and what earlier jobs left."""

    shop: Shop
    scenario: Scenario
    today: date
    known: dict[str, Known]
    planned: Sequence[PlannedJob]

    def stories(self) -> list[Iterator[datetime]]:
        """One for each player."""
        return [
            self.dead_after_a_storm(),
            self.no_sound_on_the_left(),
            self.tray_opens_by_itself(),
            self.skips_near_the_end(),
            self.stops_after_forty_minutes(),
            self.loses_its_place(),
            self.display_dark(),
            self.loud_scraping(),
            self.remote_does_nothing(),
            self.jumps_on_the_last_tracks(),
            self.will_not_eject(),
            self.hums(),
            self.skips_again(),
            self.from_an_attic(),
        ]

    def ago(self, weekdays: int, clock: str) -> datetime:
        """An instant so many days before today, counted from Monday to Friday."""
        day = self.today
        for _ in range(weekdays):
            day = self.shop.days.working_before(day)
        return self.shop.days.at(day, clock)

    def ahead(self, open_days: int) -> date:
        """The open day so many days from today; today itself for 0, if the shop is open."""
        days = self.shop.days
        return days.after(self.today, open_days) if open_days else days.next_open(self.today)

    def take_in(self, model: str, serial: str, **fields: Any) -> int:
        """Take a player in, with its ticket."""
        kind = self._kind(model, serial)
        said: dict[str, Any] = {
            "maker": kind.maker,
            "model": kind.model,
            "serial": serial,
            "look": kind.looks[0],
            "mains_class": MainsClass(kind.mains),
            "mains_voltage": kind.voltage,
            "postcode": "43117",
            "city": "Mossgate",
            "transit_lock": TransitLock.RELEASED
            if self.scenario.transports[kind.transport].transit_lock
            else TransitLock.NONE,
            "diagnosis_fee": money("45"),
            "diagnosis_fee_told": True,
            **fields,
        }
        said["faults"] = faults(*said["faults"])
        if "limit" in said:
            said["go_ahead_limit"] = money(said.pop("limit"))
        if marking := said.pop("marking", ""):
            said["transport_type_id"], said["transport_serial"] = self.shop.types[kind.transport], marking
        job = self.shop.take_in(Intake(**said), ticket=True).job_id
        self.shop.tag(job)
        return job

    def _kind(self, model: str, serial: str) -> PlayerKind:
        of_model = [kind for kind in self.scenario.players if kind.model == model]
        return next((kind for kind in of_model if kind.serial[:1] == serial[:1]), of_model[0])

    def _label(self, job: int, milliampere: str) -> None:
        shop = self.shop
        life = transport_life(shop.book, shop.transport_in(job))
        current = Decimal(milliampere) / 1000
        change_label(shop.book, shop.people["tobbe"], life.id, life.marking, current, version=life.version)

    def _wait(self, job: int, waiting: Waiting) -> None:
        set_waiting(self.shop.book, self.shop.people["tobbe"], job, waiting)

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
        self._wait(job, Waiting.PART)
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
            outcome=TrialOutcome.CURED,
            left="left so",
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
        shop.begin_trial(job, "tilt_set", "tilt set by two lines", outcome=TrialOutcome.CURED, left="left so")
        shop.read(job, "c1_outer", "18", FINAL, tool="counter", seconds=30)
        shop.climb(job, 12, FINAL, tries=3)
        shop.case(job, CaseStep.CLOSED)
        shop.labour(job, "bench work: tilt set by two lines", "1.00")
        shop.found(job, FaultGroup.GEOMETRY, CauseFound.ADJUSTMENT, Outcome.MENDED)
        shop.move(job, Stage.READY)
        yield self.ago(2, "10:30")
        shop.issue(job, file=True)
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
        trial = shop.begin_trial(job, "resolder", "joints at the servo board resoldered")
        yield self.ago(1, "15:30")
        shop.climb(job, 12, DURING, warmth=Warmth.WARM, warm_minutes=50, trial_id=trial, trial_side="after")
        shop.judge(trial, TrialOutcome.BETTER, "left so")
        shop.move(job, Stage.RUNNING_IN)
        shop.note(job, "runs until tomorrow 16:10, then the final readings")

    # later

    def loses_its_place(self) -> Iterator[datetime]:
        """In the middle of the work: readings, one too close to call, one struck out, two trials that did nothing."""
        shop = self.shop
        yield self.ago(6, "10:15")
        job = self.take_in(
            "Larch 2",
            "0422 906",
            name="Signe Marholm",
            phone="01632 960417",
            email="signe.marholm@example.org",
            street="6 Limekiln Close",
            ring_when="after 16:00",
            fault="It loses its place when I jump far. Straight through it is fine.",
            faults=("skips",),
            marking="55 764",
            came_with=("remote control",),
            limit="260",
            shelf="B 3",
            promised_on=self.ahead(2),
        )
        shop.noted["midway"] = job
        yield self.ago(2, "9:20")
        shop.move(job, Stage.ON_THE_BENCH)
        self._label(job, "47.0")
        warm: dict[str, Any] = {
            "warmth": Warmth.WARM,
            "warm_minutes": 35,
            "room": Decimal(21),
            "disc": "reference disc R2",
        }
        shop.climb(job, 10, tries=3, stopped_in=3, **warm)
        shop.read(job, "laser_current", "50.3", tool="shunt", warm_minutes=35)
        shop.read(job, "hf_eye", "1.04", tool="scope", disc="reference disc R2")
        shop.read(job, "focus_offset", "9", tool="meter")
        offset = shop.read(job, "radial_offset", "-31", tool="meter")
        shop.read(job, "radial_drive", "216", tool="scope", place="r 40 mm")
        shop.read(job, "arm_start_current", "29.0; 30.5; 32.0", tool="supply", place="level")
        yield self.ago(2, "10:02")
        slip = shop.read(job, "seek_time", "42")
        right = correct_reading(
            shop.book, shop.people["tobbe"], slip, "4.2", "decimal mark forgotten"
        ).value.id
        shop.read(job, "c1_inner", "10", tool="counter", seconds=30, disc="reference disc R2")
        shop.read(job, "rail_dc", "8.04", tool="meter", detail="+8 V")
        yield self.ago(2, "11:15")
        trial = shop.begin_trial(job, "flex_dress", "flex led in a wider bow", reference="W2")
        take_as_before(shop.book, shop.people["tobbe"], trial, (right,))
        after: dict[str, Any] = {"trial_id": trial, "trial_side": "after"}
        shop.read(job, "seek_time", "4.1", DURING, **after)
        shop.climb(job, 10, DURING, tries=3, **warm, **after)
        shop.judge(trial, TrialOutcome.NO_DIFFERENCE, "put back")
        yield self.ago(1, "10:20")
        trial = shop.begin_trial(job, "radial_set", "radial offset set at VR5, within the service data")
        take_as_before(shop.book, shop.people["tobbe"], trial, (offset,))
        after = {"trial_id": trial, "trial_side": "after"}
        shop.read(job, "radial_offset", "-3", DURING, tool="meter", **after)
        shop.read(job, "seek_time", "4.2", DURING, **after)
        shop.climb(job, 10, DURING, tries=3, **warm, **after)
        shop.judge(trial, TrialOutcome.NO_DIFFERENCE, "left so")
        shop.labour(job, "bench work: bring-up and two trials", "1.25")

    def display_dark(self) -> Iterator[datetime]:
        """Waits for the customer's answer."""
        shop = self.shop
        yield self.ago(7, "12:30")
        job = self.take_in(
            "Tamarack",
            "TM 77204",
            name="Mirela Dobroscu",
            phone="01632 960773",
            street="52 Cooper's Rise",
            fault="The display is dark, the disc plays.",
            faults=("display",),
            marking="61 415",
            limit="90",
            shelf="C 3",
            promised_on=self.ahead(2),
        )
        yield self.ago(3, "13:40")
        shop.move(job, Stage.ON_THE_BENCH, "sanna")
        shop.climb(job, 12, who="sanna")
        shop.note(job, "display controller; with the part it comes to about 120", "sanna")
        yield self.ago(2, "16:15")
        shop.say(job, "The display controller has to be renewed, about 120 with VAT. Shall we?", asks=True)

    def loud_scraping(self) -> Iterator[datetime]:
        """Just begun."""
        shop = self.shop
        yield self.ago(5, "10:45")
        job = self.take_in(
            "Osier 7",
            "10 7745",
            name="Mossgate Choir",
            phone="01632 960604",
            street="1 Almshouse Green",
            fault="Loud scraping at the start.",
            faults=("noise",),
            marking="T 30087",
            came_with=("mains lead", "box"),
            limit="140",
            shelf="B 1",
            promised_on=self.ahead(3),
        )
        yield self.ago(1, "14:20")
        shop.move(job, Stage.ON_THE_BENCH)
        shop.climb(job, 11, tries=3, note="scrapes for ten seconds, then quiet")
        shop.read(job, "disc_runout", "0.90")

    def remote_does_nothing(self) -> Iterator[datetime]:
        """Taken in; of the customer whose other player is held."""
        yield self.ago(4, "17:10")
        with_us = self.shop.noted["storm"]
        self.take_in(
            "Larch 2",
            "0431 511",
            customer_id=_customer_of(self.shop, with_us),
            fault="The remote does nothing.",
            faults=("other",),
            came_with=("remote control",),
            shelf="A 2",
            promised_on=self.ahead(4),
        )

    def jumps_on_the_last_tracks(self) -> Iterator[datetime]:
        """Waits for a pick-up."""
        shop = self.shop
        yield self.ago(6, "15:50")
        job = self.take_in(
            "Bramble C",
            "A 01077",
            name="Greta Lindqvarn",
            phone="01632 960839",
            street="70 Harbourmaster's Hill",
            fault="It jumps on the last tracks.",
            faults=("skips",),
            marking="P5 31118",
            came_with=("supply unit",),
            limit="190",
            shelf="A 4",
            promised_on=self.ahead(5),
        )
        yield self.ago(3, "9:30")
        shop.move(job, Stage.ON_THE_BENCH)
        self._label(job, "56.0")
        shop.climb(job, 11, tries=3)
        shop.read(job, "laser_current", "69.9", tool="shunt", warm_minutes=10)
        shop.read(job, "optical_power", "0.08", tool="light", warm_minutes=10)
        shop.note(job, "pick-up tired: more current, less light. New one ordered")
        self._wait(job, Waiting.PART)

    def will_not_eject(self) -> Iterator[datetime]:
        """Has been here before: a modification of ours is inside."""
        yield self.ago(3, "11:25")
        back = self._gone_since(timedelta(days=20))
        modified = [key for key in back if self.known[key].modification]
        known = self.known[(modified or list(back))[-1]]
        self._again(known, fault="It will not give the disc back.", faults=("tray",), disc_inside="tray")

    def hums(self) -> Iterator[datetime]:
        """Taken in."""
        yield self.ago(3, "16:50")
        self.take_in(
            "Kelp 1",
            "4 417 330",
            name="Elke Vandermuelen",
            phone="01632 960062",
            street="15 Kiln Yard",
            fault="A hum when the disc turns.",
            faults=("noise",),
            shelf="C 2",
            promised_on=self.ahead(7),
        )

    def skips_again(self) -> Iterator[datetime]:
        """A comeback that the book proposes."""
        yield self.ago(2, "10:50")
        self._again(
            self._came_back(),
            fault="Skips if a door shuts. As before, only worse.",
            faults=("skips",),
            shelf="A 3",
        )

    def from_an_attic(self) -> Iterator[datetime]:
        """No day promised: an estimate first."""
        shop = self.shop
        yield self.ago(1, "16:30")
        job = self.take_in(
            "Zelkova 9",
            "Z 11 560",
            name="Idris Calloway",
            phone="01632 960191",
            street="33 Nowhere Lane",
            fault="From an attic, never tried. Is it worth anything?",
            faults=("other",),
            transit_lock=TransitLock.NOT_LOOKED,
            rust="a little, at the screws",
            shelf="D 1",
        )
        yield self.ago(1, "16:40")
        shop.say(job, "We look at it and tell you what it would cost before anything is done.", asks=True)

    def _again(self, known: Known, **fields: Any) -> None:
        said = {"shelf": "C 1", "promised_on": self.ahead(6), "marks": "sticker on the cover", **fields}
        said["faults"] = faults(*said["faults"])
        received = self.shop.take_in(
            Intake(customer_id=known.customer, unit_id=known.unit, **said), ticket=True
        )
        self.shop.tag(received.job_id)

    def _came_back(self) -> Known:
        """A player that was mended for skipping in the last months and has not been here since."""
        days, back = self.shop.days, self._gone_since(timedelta(days=25))
        since = self.today - timedelta(days=150)
        for key, job in reversed(back.items()):
            skipped = job.mended and job.repair.group in ("light", "radial")
            if skipped and days.day_of(job.back) > since and not self.known[key].modification:
                return self.known[key]
        return self.known[next(reversed(back))]

    def _gone_since(self, long: timedelta) -> dict[str, PlannedJob]:
        """The last job of each player that is gone for so long, by the key under which it is known."""
        last = {f"{job.unit.kind.maker} {job.unit.serial}": job for job in self.planned}
        return {key: job for key, job in last.items() if job.back < self.shop.clock() - long}


def _customer_of(shop: Shop, job: int) -> int:
    from app.work.bench.sheet_of_job import job_sheet

    return job_sheet(shop.book, job).customer_id
