"""The players that are promised for later days, and one that nobody promised yet."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta
from decimal import Decimal
from typing import Any

from app.trade.bench.kinds import TransitLock, Warmth
from app.trade.bench.stages import (
    Left,
    Moment,
    Stage,
    TrialOutcome,
)
from app.trade.office.estimate import OptionEntry
from app.work.bench.readings import correct_reading
from app.work.bench.trials import take_as_before
from app.work.office.parts import PartEntry
from demo_db.estimating import estimate, fixed, hours, part
from demo_db.hands import Shop, micro
from demo_db.in_the_shop.players import Players

DURING = Moment.DURING


class Later(Players):
    """The stories of those that have time."""

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
        self.label(job, "47.0")
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
        trial = shop.begin_trial(
            job, "flex_dress", "flex led in a wider bow", reference="W2", suspect="flex_drag"
        )
        take_as_before(shop.book, shop.people["tobbe"], trial, (right,))
        after: dict[str, Any] = {"trial_id": trial, "trial_side": "after"}
        shop.read(job, "seek_time", "4.1", DURING, **after)
        shop.climb(job, 10, DURING, tries=3, **warm, **after)
        shop.judge(trial, TrialOutcome.NO_DIFFERENCE, Left.PUT_BACK)
        yield self.ago(1, "10:20")
        trial = shop.begin_trial(
            job, "radial_set", "radial offset set at VR5, within the service data", suspect="wobble"
        )
        take_as_before(shop.book, shop.people["tobbe"], trial, (offset,))
        after = {"trial_id": trial, "trial_side": "after"}
        shop.read(job, "radial_offset", "-3", DURING, tool="meter", **after)
        shop.read(job, "seek_time", "4.2", DURING, **after)
        shop.climb(job, 10, DURING, tries=3, **warm, **after)
        shop.judge(trial, TrialOutcome.NO_DIFFERENCE, Left.LEFT_SO)
        shop.labour(job, "bench work: bring-up and two trials", "1.25")

    def display_dark(self) -> Iterator[datetime]:
        """An estimate that the customer has not answered for six days."""
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
        yield self.ago(6, "13:40")
        shop.move(job, Stage.ON_THE_BENCH, "sanna")
        shop.climb(job, 12, who="sanna")
        shop.note(job, "display stays dark, its supply is there: the controller gives no clock", "sanna")
        yield self.ago(6, "16:15")
        renewed = OptionEntry(
            title="display controller renewed",
            what="Renew the controller of the display; everything else stays as it is.",
            risk="The display itself was not seen working; if it is dead, too, we ring before going on.",
            guarantee="6 months on work and part",
            ready="a week after your answer",
        )
        lines = (
            hours("bench work", "1"),
            part("display controller", "34.50"),
            fixed("electrical safety test after repair, with record", "14.28"),
        )
        intro = "It plays every disc to the end. The display stays dark, though its supply is there."
        estimate(shop, job, intro, ((renewed, lines),))

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
            customer_id=customer_of(self.shop, with_us),
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
        self.label(job, "56.0")
        shop.climb(job, 11, tries=3)
        shop.read(job, "laser_current", "69.9", tool="shunt", warm_minutes=10)
        shop.read(job, "optical_power", "0.08", tool="light", warm_minutes=10)
        shop.note(job, "pick-up tired: more current, less light. New one ordered")
        pick_up = PartEntry(
            code="PU-S5-C",
            words="pick-up for Ponnik S5 with the cable of Bramble C",
            price=micro("39.00"),
            cost=micro("22.50"),
            supplier="Tidewrack Spares",
            order_code="S5-P C",
            bin="C4",
            lead_days=28,
        )
        self.order(job, pick_up, self.ahead(3))

    def will_not_eject(self) -> Iterator[datetime]:
        """Has been here before: a modification of ours is inside."""
        yield self.ago(3, "11:25")
        back = self.gone_since(timedelta(days=20))
        modified = [key for key in back if self.known[key].modification]
        known = self.known[(modified or list(back))[-1]]
        self.again(known, fault="It will not give the disc back.", faults=("tray",), disc_inside="tray")

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
        self.again(
            self.came_back(),
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


def customer_of(shop: Shop, job: int) -> int:
    from app.work.bench.sheet_of_job import job_sheet

    return job_sheet(shop.book, job).customer_id
