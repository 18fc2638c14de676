"""Jobs 4 and 5: one Kelp 1 needs another transport, another one gives it. And a third becomes a donor of parts."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from decimal import Decimal

from app.trade.bench.evidence import Asked
from app.trade.bench.kinds import FaultGroup, Means
from app.trade.bench.stages import CaseStep, CauseFound, Left, MainsClass, Outcome, Stage, Waiting
from app.trade.office.invoice import LineKind
from app.work.bench.transports import put_in, take_out
from app.work.counter.stages import set_waiting
from app.work.office.stock import take_from_donor
from demo_db.stories.telling import CURED, FINAL, Telling


def starts_when_pushed(t: Telling) -> Iterator[datetime]:
    """Job 4: spindle and pick-up tired; it waits for another transport and gets the one of job 5."""
    shop = t.shop
    yield t.at(11, 26, "15:02")
    received = shop.take_in(
        t.intake(
            name="Jelle Heidekamp",
            phone="01632 960371",
            email="jelle.heidekamp@example.org",
            street="31 Tidemark Row",
            postcode="43117",
            city="Mossgate",
            serial="5 501 926",
            maker="Kestovar",
            model="Kelp 1",
            look="red",
            mains_class=MainsClass.II,
            mains_voltage="230 V 50 Hz",
            type="Grellin S3",
            transport_serial="G3 41077",
            fault="It only starts when I push the disc round with a finger.",
            faults=("spins wrongly",),
            go_ahead_limit="260",
            shelf="D 1",
            promised_on=t.day(12, 10),
        ),
        ticket=True,
    )
    job = received.job_id
    shop.noted["pushed"] = received
    yield t.at(11, 30, "9:30")
    shop.move(job, Stage.ON_THE_BENCH)
    t.label(job, "50.0")
    shop.ask(job, push=Asked.SAID)
    shop.climb(job, 6, tries=3, stopped_in=3, note="starts when the disc is pushed round")
    shop.read(job, "motor_current", "0", tool="meter")
    shop.read(job, "laser_current", "60.5", tool="shunt", warm_minutes=10)
    yield t.at(11, 30, "10:20")
    shop.note(job, "spindle has a dead spot and the pick-up is tired: another transport, not a new motor")
    shop.say(job, "The whole transport has to be replaced. We look for one; it may take two weeks.")
    set_waiting(shop.book, shop.people["tobbe"], job, Waiting.PART)
    yield t.at(12, 4, "10:10")
    take_out(shop.book, shop.people["tobbe"], job, shelf="scrap box")
    trial = shop.begin_trial(
        job, "transport_swap", "transport swapped for one from a donor", suspect="spindle_motor"
    )
    put_in(shop.book, shop.people["tobbe"], job, shop.noted["donor transport"])
    set_waiting(shop.book, shop.people["tobbe"], job, Waiting.NOTHING)
    yield t.at(12, 4, "11:20")
    shop.read(job, "motor_current", "84", FINAL, tool="meter")
    shop.read(job, "laser_current", "53.6", FINAL, tool="shunt", warm_minutes=10)
    shop.read(job, "seek_time", "2.4", FINAL)
    shop.read(job, "c1_inner", "9", FINAL, tool="counter", seconds=30)
    shop.climb(job, 12, FINAL, tries=3, trial_id=trial, trial_side="after")
    shop.judge(trial, CURED, Left.LEFT_SO)
    shop.case(job, CaseStep.CLOSED)
    yield t.at(12, 4, "14:00")
    t.safe(job, touch_current="0.06")
    shop.labour(job, "bench work: transport swapped and run in", "1.50")
    shop.charge(job, "transport Grellin S3 from a donor, tested", "41.65")
    shop.found(job, FaultGroup.SPINDLE, CauseFound.WORN, Outcome.MENDED)
    shop.move(job, Stage.READY)
    shop.say(job, "A transport turned up. Ready.")
    yield t.at(12, 8, "16:20")
    shop.issue(job, file=True)
    shop.pay(job, shop.due(job), Means.CARD)
    yield t.at(12, 8, "16:25")
    shop.give_back(job, Outcome.MENDED, shown_and_told=True, receipt=True)


def stays_as_donor(t: Telling) -> Iterator[datetime]:
    """Job 5: no sound, decoder and output would cost too much; the customer leaves the player."""
    shop = t.shop
    yield t.at(11, 27, "10:00")
    received = shop.take_in(
        t.intake(
            name="Wanda Oosterdal",
            phone="01632 960809",
            street="12 Saltpan Road",
            postcode="43122",
            city="Fennlow",
            serial="5 118 340",
            maker="Kestovar",
            model="Kelp 1",
            look="white",
            mains_class=MainsClass.II,
            mains_voltage="230 V 50 Hz",
            type="Grellin S3",
            transport_serial="G3 39512",
            fault="The time runs, but there is no sound at all.",
            faults=("no sound",),
            shelf="D 2",
            promised_on=t.day(12, 9),
        ),
        ticket=True,
    )
    job = received.job_id
    shop.noted["donor"] = received
    yield t.at(12, 1, "9:40")
    shop.move(job, Stage.ON_THE_BENCH, "sanna")
    transport = t.label(job, "52.0", who="sanna")
    shop.noted["donor transport"] = transport
    shop.climb(job, 9, who="sanna", note="time runs, no sound at either output")
    shop.note(job, "decoder and output stage: 4.5 h at least", "sanna")
    yield t.at(12, 1, "15:30")
    shop.say(job, "Decoder and output stage, about four and a half hours. Is that worth it?", asks=True)
    yield t.at(12, 2, "10:30")
    shop.agreed(job, "decoder and output stage, 4.5 h", "Wanda Oosterdal", yes=False)
    shop.agreed(job, "leaves the player to the shop as a donor, pays for the looking", "Wanda Oosterdal")
    shop.charge(job, "looking at the player, with report by telephone", "45.00", LineKind.FEE)
    shop.found(job, FaultGroup.SOUND, CauseFound.ELECTRICAL, Outcome.KEPT_AS_DONOR, who="sanna")
    take_out(shop.book, shop.people["sanna"], job, shelf="C 4")
    shop.issue(job, file=True)
    shop.pay(job, shop.due(job), Means.TRANSFER)
    yield t.at(12, 2, "10:50")
    shop.give_back(job, Outcome.KEPT_AS_DONOR, collector=None)


def early_donor(t: Telling) -> Iterator[datetime]:
    """An early Kelp 1 given up for its transformer: its Grellin S1 waits on the shelf with a note."""
    shop = t.shop
    yield t.at(8, 11, "14:40")
    received = shop.take_in(
        t.intake(
            name="Kiln Yard Studio",
            phone="01632 960655",
            street="2 Kiln Yard",
            postcode="43117",
            city="Mossgate",
            serial="4 090 771",
            maker="Kestovar",
            model="Kelp 1",
            look="black",
            mains_class=MainsClass.II,
            mains_voltage="230 V 50 Hz",
            type="Grellin S1",
            transport_serial="G1 20418",
            fault="Hummed, smelled, and went out.",
            faults=("no power",),
            smell="burnt",
            shelf="D 1",
        )
    )
    job = received.job_id
    yield t.at(8, 12, "10:15")
    shop.climb(job, 0)
    shop.note(job, "transformer burnt through; transport looks as new: keep it, laser not read yet")
    shop.agreed(job, "leaves the player to the shop", "Kiln Yard Studio")
    take_out(shop.book, shop.people["tobbe"], job, shelf="C 2")
    shop.found(job, FaultGroup.POWER, CauseFound.ELECTRICAL, Outcome.KEPT_AS_DONOR)
    yield t.at(8, 12, "10:40")
    shop.give_back(job, Outcome.KEPT_AS_DONOR, collector=None)
    yield t.at(8, 12, "11:20")
    for code, note in (("SW-TRAY", "clicks cleanly"), ("MOT-T", "runs true, brushes half worn")):
        part = shop.parts[code]
        take_from_donor(shop.book, shop.people["tobbe"], part, received.unit_id, Decimal(1), note=note)
