"""Jobs 2 and 9: Bramble C, once out of tilt with a disc inside, once with another type's pick-up."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from decimal import Decimal
from typing import Any

from app.trade.bench.evidence import Asked
from app.trade.bench.kinds import FaultGroup, Means, TransitLock
from app.trade.bench.modifications import Circuit, Kind
from app.trade.bench.stages import CaseStep, CauseFound, Left, MainsClass, Outcome, Stage
from app.work.bench.modifications import ModificationEntry, assess_modification
from app.work.bench.sheet_of_job import job_sheet
from app.work.bench.transports import note_transport, take_out
from app.work.counter.intake_changes import IntakeChanges, change_intake
from demo_db.hands import given
from demo_db.stories.telling import CURED, DURING, FINAL, Telling


def skips_at_the_end(t: Telling) -> Iterator[datetime]:
    """Job 2: transit lock not noted, a disc inside; tilt set, cured."""
    shop = t.shop
    yield t.at(11, 20, "11:10")
    received = shop.take_in(
        t.intake(
            name="Lotte Brandvik",
            phone="01632 960120",
            email="lotte.brandvik@example.org",
            street="5 Ropewalk Steps",
            postcode="43117",
            city="Mossgate",
            serial="A 03377",
            maker="Brelluk",
            model="Bramble C",
            look="blue",
            mains_class=MainsClass.EXTERNAL,
            mains_voltage="9 V",
            type="Ponnik S5",
            transport_serial="P5 17730",
            fault="The last songs always skip, on every disc.",
            faults=("skips",),
            came_with=("supply unit",),
            disc_inside="tray",
            go_ahead_limit="180",
            shelf="A 4",
            promised_on=t.day(11, 30),
        ),
        ticket=True,
    )
    job = received.job_id
    shop.noted["tilted"] = received
    shop.tag(job)
    yield t.at(11, 23, "9:25")
    shop.move(job, Stage.ON_THE_BENCH, "sanna")
    yield t.at(11, 23, "9:28")
    _note_lock(t, job, TransitLock.RELEASED)
    yield t.at(11, 23, "9:45")
    shop.ask(job, who="sanna", outer=Asked.SAID)
    shop.climb(job, 11, who="sanna", tries=3, stopped_in=3, disc="reference disc R2")
    shop.read(job, "c1_inner", "12", tool="counter", seconds=30, who="sanna")
    outer = shop.read(job, "c1_outer", "310", tool="counter", seconds=30, who="sanna")
    radial = shop.read(job, "tilt_rad", "6.0", who="sanna", place="on the scale, L 300 mm")
    tangential = shop.read(job, "tilt_tan", "1.0", who="sanna", place="on the scale, L 300 mm")
    yield t.at(11, 23, "10:40")
    trial = shop.begin_trial(job, "tilt_set", "tilt set by two lines", who="sanna", suspect="tilt")
    t.before(trial, outer, radial, tangential)
    yield t.at(11, 23, "11:25")
    after: dict[str, Any] = {"trial_id": trial, "trial_side": "after", "who": "sanna"}
    shop.read(job, "tilt_rad", "1.0", DURING, place="on the scale, L 300 mm", **after)
    shop.read(job, "tilt_tan", "0.5", DURING, place="on the scale, L 300 mm", **after)
    shop.read(job, "c1_outer", "24", DURING, tool="counter", seconds=30, **after)
    shop.climb(job, 12, DURING, tries=3, **after)
    shop.judge(trial, CURED, Left.LEFT_SO, "sanna")
    yield t.at(11, 23, "13:20")
    shop.read(job, "c1_outer", "24", FINAL, tool="counter", seconds=30, who="sanna")
    shop.read(job, "tilt_rad", "1.0", FINAL, place="on the scale, L 300 mm", who="sanna")
    shop.climb(job, 12, FINAL, who="sanna", tries=3, disc="disc over 70 minutes")
    shop.case(job, CaseStep.CLOSED, "sanna")
    shop.labour(job, "bench work: tilt set by two lines", "1.25", who="sanna")
    shop.found(job, FaultGroup.GEOMETRY, CauseFound.ADJUSTMENT, Outcome.MENDED, who="sanna")
    shop.move(job, Stage.READY, "sanna")
    shop.say(job, "Ready. Your disc was inside and comes back with it.")
    yield t.at(11, 27, "11:00")
    shop.issue(job, file=True)
    shop.pay(job, shop.due(job), Means.CARD)
    yield t.at(11, 27, "11:04")
    shop.give_back(
        job, Outcome.MENDED, things=given(("supply unit",), "tray"), shown_and_told=True, receipt=True
    )


def _note_lock(t: Telling, job: int, state: TransitLock) -> None:
    """The lock was looked at on the bench."""
    shop = t.shop
    version = job_sheet(shop.book, job).version
    change_intake(shop.book, shop.people["sanna"], job, version, IntakeChanges(transit_lock=state))


def another_type_inside(t: Telling) -> Iterator[datetime]:
    """Job 9: a Drevvo S8 where a Ponnik S5 belongs, driven at 128 % of its label, its trimmer turned blind."""
    shop = t.shop
    yield t.at(12, 10, "16:05")
    received = shop.take_in(
        t.intake(
            name="Esther Gaarder",
            phone="01632 960466",
            street="40 Weaver's End",
            postcode="43120",
            city="Hithersand",
            serial="A 01020",
            maker="Brelluk",
            model="Bramble C",
            look="silver",
            mains_class=MainsClass.EXTERNAL,
            mains_voltage="9 V",
            fault="Somebody repaired it once. Now it finds no disc.",
            faults=("reads no disc",),
            opened_before=True,
            transit_lock=TransitLock.RELEASED,
            came_with=("supply unit", "box"),
            go_ahead_limit="200",
            shelf="B 1",
            promised_on=t.day(12, 21),
        ),
        ticket=True,
    )
    job = received.job_id
    shop.noted["another type"] = received
    yield t.at(12, 14, "9:20")
    shop.move(job, Stage.ON_THE_BENCH)
    tobbe = shop.people["tobbe"]
    kind = shop.types["Drevvo S8"]
    note_transport(shop.book, tobbe, job, kind, "D8 2207", Decimal("0.062"), belongs_type="Ponnik S5")
    shop.climb(job, 5, tries=3, stopped_in=3)
    shop.read(job, "laser_current", "79.4", tool="shunt", warm_minutes=10)
    shop.read(job, "optical_power", "0.07", tool="light", warm_minutes=10)
    yield t.at(12, 14, "9:55")
    turned = shop.modify(
        job,
        ModificationEntry(
            kind=Kind.TRIMMER,
            circuit=Circuit.LASER_SUPPLY,
            where="VR2",
            ours=False,
            now="turned up, lacquer broken",
        ),
    )
    assess_modification(
        shop.book, tobbe, turned, "drives the wrong pick-up too hard; is set anew with the right one"
    )
    yield t.at(12, 14, "10:30")
    for rule in ("pile", "laser_up_big", "other_type"):
        shop.answer(job, rule, "the pick-up is renewed with the right type and the trimmer set by light")
    yield t.at(12, 14, "11:00")
    trial = shop.begin_trial(
        job,
        "pickup_renew",
        "pick-up renewed, the type that belongs there",
        suspect="laser_worn",
        order_reason="another type sits there: it has to come out whatever else is wrong",
    )
    take_out(shop.book, tobbe, job, shelf="donors")
    note_transport(shop.book, tobbe, job, shop.types["Ponnik S5"], "P5 60418", Decimal("0.0586"))
    shop.use(job, "PU-S5")
    yield t.at(12, 14, "12:20")
    shop.reverse(job, turned, note="set by light after the lens with the new pick-up")
    shop.read(job, "laser_current", "57.9", FINAL, tool="shunt", warm_minutes=10)
    shop.read(job, "optical_power", "0.18", FINAL, tool="light", warm_minutes=10)
    shop.read(job, "s_curve", "0.61", FINAL, tool="scope", disc="reference disc R2")
    shop.climb(job, 12, FINAL, tries=3, trial_id=trial, trial_side="after")
    shop.judge(trial, CURED, Left.LEFT_SO)
    shop.case(job, CaseStep.CLOSED)
    shop.labour(job, "bench work: pick-up renewed and set by light", "1.25")
    shop.found(job, FaultGroup.LIGHT, CauseFound.WORN, Outcome.MENDED)
    shop.move(job, Stage.READY)
    shop.say(job, "Ready. The wrong pick-up was in it; the right one is now.")
    yield t.at(12, 16, "17:10")
    shop.issue(job, file=True)
    shop.pay(job, shop.due(job), Means.CARD)
    yield t.at(12, 16, "17:15")
    shop.give_back(
        job, Outcome.MENDED, things=given(("supply unit", "box")), shown_and_told=True, receipt=True
    )
