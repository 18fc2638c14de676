"""Job 7: a Tamarack bought used, its plate gone, two resistors of somebody else's across the one that sets the coil."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from decimal import Decimal
from typing import Any

from app.trade.bench.evidence import Asked
from app.trade.bench.kinds import FaultGroup, Means, Warmth
from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import CaseStep, CauseFound, Left, MainsClass, Outcome, Stage
from app.work.bench.modifications import assess_modification
from demo_db.stories.telling import CURED, DURING, FINAL, Telling, resistor


def two_resistors_of_somebody_elses(t: Telling) -> Iterator[datetime]:
    """Ine acknowledges the pile; the flex was the fault; one resistor goes, one stays at the customer's wish."""
    shop = t.shop
    yield t.at(12, 2, "11:20")
    received = shop.take_in(
        t.intake(
            name="Dagny Ravnkilde",
            phone="01632 960264",
            email="dagny.ravnkilde@example.org",
            street="3 Almshouse Green",
            postcode="43117",
            city="Mossgate",
            serial_unreadable=True,
            maker="Tavossa",
            model="Tamarack",
            look="champagne, plate missing",
            mains_class=MainsClass.NOT_KNOWN,
            type="Velk A2",
            transport_serial="61 204",
            fault="Bought it used. Skips near the end of long discs.",
            faults=("skips",),
            opened_before=True,
            transit_lock=t.released,
            go_ahead_limit="240",
            shelf="C 1",
            promised_on=t.day(12, 14),
        ),
        ticket=True,
    )
    job = received.job_id
    shop.noted["stacked"] = received
    yield t.at(12, 4, "9:30")
    shop.move(job, Stage.ON_THE_BENCH)
    shop.ask(job, outer=Asked.SAID)
    shop.climb(
        job, 11, tries=3, stopped_in=3, disc="disc over 70 minutes", warmth=Warmth.WARM, warm_minutes=40
    )
    across: dict[str, Any] = {
        "kind": Kind.PARALLEL,
        "circuit": Circuit.RADIAL_COIL,
        "law": Law.CURRENT,
        "ours": False,
        "current_before": Decimal("0.075"),
        "coil_resistance": Decimal("12.5"),
    }
    stays = shop.modify(job, resistor("R27", "8.2", "22", **across))
    goes = shop.modify(job, resistor("R27", "8.2", "39", **across))
    shop.noted["stacked stays"] = stays
    yield t.at(12, 4, "10:05")
    shop.answer(job, "coil_up_big", "seen; the 39 ohm comes out, the rest is decided after the arm is free")
    shop.answer(job, "pile", "two resistors by somebody else, looked at together")
    yield t.at(12, 4, "10:40")
    start = shop.read(job, "arm_start_current", "38", tool="supply", detail="outer end", place="level")
    trial = shop.begin_trial(job, "flex_dress", "flex led clear of the arm", suspect="flex_drag")
    t.before(trial, start)
    yield t.at(12, 4, "11:10")
    after: dict[str, Any] = {"trial_id": trial, "trial_side": "after"}
    shop.read(
        job, "arm_start_current", "21", DURING, tool="supply", detail="outer end", place="level", **after
    )
    shop.climb(job, 12, DURING, tries=3, disc="disc over 70 minutes", **after)
    shop.judge(trial, CURED, Left.LEFT_SO)
    yield t.at(12, 4, "11:40")
    shop.reverse(job, goes, note="39 ohm taken out")
    assess_modification(
        shop.book,
        shop.people["tobbe"],
        stays,
        "22 ohm across 8.2: current 1.373 times, coil and driver stay cool; stays at the customer's wish",
    )
    yield t.at(12, 4, "12:10")
    shop.agreed(job, "the 22 ohm stays in, told what it does", "Dagny Ravnkilde")
    yield t.at(12, 7, "9:40")
    shop.read(job, "radial_coil_r", "12.5", FINAL, tool="meter", room=Decimal(23))
    yield t.at(12, 7, "10:20")
    shop.read(job, "driver_temp", "57", FINAL, tool="thermo", warm_minutes=30)
    shop.read(job, "radial_coil_r", "13.6", FINAL, tool="meter", warm_minutes=30)
    shop.read(job, "dropout_passed", "0.75", FINAL, disc="disc with graded gaps")
    shop.read(job, "arm_start_current", "21", FINAL, tool="supply", detail="outer end", place="level")
    shop.climb(job, 12, FINAL, tries=3, disc="disc over 70 minutes", warmth=Warmth.WARM, warm_minutes=60)
    shop.case(job, CaseStep.CLOSED)
    yield t.at(12, 7, "11:00")
    shop.safety_test(job, MainsClass.II, named=True, insulation="> 200", touch_current="0.06")
    shop.labour(job, "bench work: flex led anew, resistor taken out, warm run", "1.75")
    shop.found(job, FaultGroup.RADIAL, CauseFound.CONTACT, Outcome.MENDED)
    yield t.at(12, 7, "11:20")
    shop.issue(job, file=True)
    shop.move(job, Stage.READY)
    shop.say(job, "Ready. One of the two resistors is out, the other is named on the invoice.")
    yield t.at(12, 11, "15:40")
    shop.pay(job, shop.due(job), Means.CARD)
    yield t.at(12, 11, "15:45")
    shop.give_back(job, Outcome.MENDED, shown_and_told=True, receipt=True)
