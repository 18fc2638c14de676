"""Job 6: an Osier 7 whose owner asks for the lid switch to be bridged; that is refused, and the slack belt renewed."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from app.trade.bench.kinds import FaultGroup, Means
from app.trade.bench.stages import CaseStep, CauseFound, Left, MainsClass, Outcome, Stage
from app.work.counter.requests import note_unsafe_request, refuse_unsafe_request
from demo_db.stories.telling import CURED, DURING, FINAL, Telling


def asks_for_the_lid_switch(t: Telling) -> Iterator[datetime]:
    """A stop at once; refused and closed so. The real fault is mended."""
    shop = t.shop
    yield t.at(12, 1, "9:30")
    received = shop.take_in(
        t.intake(
            name="Silvan Kettering",
            phone="01632 960733",
            street="19 Old Ferry Way",
            postcode="43125",
            city="Upper Tarn",
            serial="20 1184",
            maker="Ostrind",
            model="Osier 7",
            look="grey",
            mains_class=MainsClass.II,
            mains_voltage="230 V 50 Hz",
            type="Tirro A4",
            transport_serial="T 40172",
            fault="The tray comes out by itself and stays half open.",
            faults=("tray",),
            go_ahead_limit="120",
            shelf="A 1",
            promised_on=t.day(12, 4),
            promised_time="10:00",
        ),
        ticket=True,
    )
    job = received.job_id
    shop.noted["lid switch"] = received
    yield t.at(12, 1, "9:34")
    mirr = shop.people["mirr"]
    asked = note_unsafe_request(shop.book, mirr, job, "bridge the lid switch so it plays open").value
    shop.noted["lid switch asked"] = shop.clock()
    yield t.at(12, 1, "9:41")
    refuse_unsafe_request(shop.book, mirr, asked)
    shop.say(job, "Told him that the switch keeps the beam in and is not touched. The tray itself we mend.")
    yield t.at(12, 3, "9:50")
    shop.move(job, Stage.ON_THE_BENCH)
    shop.climb(job, 1, tries=3, stopped_in=3)
    slow = shop.read(job, "load_time", "7.4")
    yield t.at(12, 3, "10:10")
    trial = shop.begin_trial(job, "belt", "loading belt renewed", suspect="belt")
    t.before(trial, slow)
    shop.use(job, "BELT-48")
    yield t.at(12, 3, "10:35")
    shop.read(job, "load_time", "2.6", DURING, trial_id=trial, trial_side="after")
    shop.climb(job, 12, DURING, trial_id=trial, trial_side="after")
    shop.judge(trial, CURED, Left.LEFT_SO)
    yield t.at(12, 3, "11:00")
    shop.read(job, "load_time", "2.6", FINAL)
    shop.climb(job, 12, FINAL, tries=3)
    shop.case(job, CaseStep.CLOSED)
    yield t.at(12, 3, "11:20")
    t.safe(job, touch_current="0.05")
    shop.labour(job, "bench work: loading belt renewed", "0.50")
    shop.found(job, FaultGroup.LOADING, CauseFound.WORN, Outcome.MENDED)
    shop.move(job, Stage.READY)
    shop.say(job, "The tray runs again. It plays shut, as it has to.")
    yield t.at(12, 4, "10:02")
    shop.issue(job, file=True)
    shop.pay(job, shop.due(job), Means.CASH)
    yield t.at(12, 4, "10:06")
    shop.give_back(job, Outcome.MENDED, shown_and_told=True, receipt=True)
