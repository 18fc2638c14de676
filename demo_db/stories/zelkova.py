"""Job 10: a Zelkova 9 with foil where its fuse should be, and an earth that is too high."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from app.trade.bench.kinds import FaultGroup, Means
from app.trade.bench.modifications import Circuit, Kind
from app.trade.bench.stages import CaseStep, CauseFound, Left, MainsClass, Outcome, Stage
from app.work.bench.modifications import ModificationEntry, assess_modification
from demo_db.hands import given
from demo_db.stories.telling import CURED, FINAL, Telling


def foil_for_a_fuse(t: Telling) -> Iterator[datetime]:
    """Two stops from the first minute, a failed test; right fuse, diode and cord, tested anew, and handed back."""
    shop = t.shop
    yield t.at(12, 3, "16:30")
    received = shop.take_in(
        t.intake(
            name="Harald Moltzau",
            phone="01632 960597",
            street="8 Sluice Lane",
            postcode="43129",
            city="Tidemarle",
            serial="Z 07 331",
            maker="Zindermoor",
            model="Zelkova 9",
            look="brushed steel",
            mains_class=MainsClass.I,
            mains_voltage="230 V 50 Hz",
            type="Murn A7",
            transport_serial="60 214",
            fault="Dead. It hummed loudly before.",
            faults=("no power",),
            transit_lock=t.released,
            came_with=("mains lead",),
            go_ahead_limit="150",
            shelf="D 2",
            promised_on=t.day(12, 16),
        ),
        ticket=True,
    )
    job = received.job_id
    shop.noted["foil"] = received
    tobbe = shop.people["tobbe"]
    yield t.at(12, 7, "9:30")
    shop.move(job, Stage.ON_THE_BENCH)
    shop.climb(job, 0, tries=1)
    bridged = shop.modify(
        job,
        ModificationEntry(
            kind=Kind.FUSE,
            circuit=Circuit.FUSE,
            where="F1",
            was="T 315 mA, 250 V",
            now="bridged with foil",
            ours=False,
        ),
    )
    assess_modification(
        shop.book, tobbe, bridged, "foil out, cause to be found before the right fuse goes in"
    )
    shop.case(job, CaseStep.CLOSED)
    yield t.at(12, 7, "10:15")
    shop.safety_test(
        job, MainsClass.I, pe_resistance="0.31", insulation="> 100", pe_current="0.24", touch_current="0.02"
    )
    shop.noted["foil failed"] = shop.clock()
    yield t.at(12, 7, "10:40")
    shop.case(job, CaseStep.OPENED)
    shop.note(job, "D4 shorted; the cord is worn at the plug")
    trial = shop.begin_trial(
        job,
        "mains_part",
        "fuse of the right type, diode and cord renewed",
        reference="F1, D4",
        suspect="mains_side",
    )
    for code in ("FUSE-315", "DIODE", "CORD-I"):
        shop.use(job, code)
    yield t.at(12, 7, "11:50")
    shop.reverse(job, bridged, note="D4 shorted, renewed", tried=True)
    shop.labour(job, "bench work: short found, mains parts renewed", "1.50")
    yield t.at(12, 7, "12:05")
    shop.say(job, "We are near the 150 that we agreed; with the cord it comes to a little more.", asks=True)
    yield t.at(12, 7, "15:20")
    shop.agreed(job, "repair of the mains side with a new cord, up to 200.00", "Harald Moltzau", euro="200")
    yield t.at(12, 8, "9:30")
    shop.labour(job, "warm run and tests", "0.25")
    shop.climb(job, 12, FINAL, tries=3, trial_id=trial, trial_side="after")
    shop.judge(trial, CURED, Left.LEFT_SO)
    shop.case(job, CaseStep.CLOSED)
    yield t.at(12, 8, "10:10")
    shop.safety_test(
        job, MainsClass.I, pe_resistance="0.12", insulation="> 100", pe_current="0.21", touch_current="0.02"
    )
    shop.found(job, FaultGroup.POWER, CauseFound.ELECTRICAL, Outcome.MENDED)
    shop.move(job, Stage.READY)
    shop.say(job, "Ready, with a new cord and the right fuse.")
    yield t.at(12, 14, "16:50")
    shop.issue(job, file=True)
    shop.pay(job, shop.due(job), Means.TRANSFER)
    yield t.at(12, 14, "16:55")
    shop.give_back(job, Outcome.MENDED, things=given(("mains lead",)), shown_and_told=True, receipt=True)
