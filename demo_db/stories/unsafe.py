"""Two players that went back unrepaired and unsafe: a bridged fuse and a lifted earth, both repairs declined."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from app.trade.bench.kinds import FaultGroup, Means
from app.trade.bench.modifications import Circuit, Kind
from app.trade.bench.stages import CaseStep, CauseFound, MainsClass, Outcome, Stage
from app.trade.counter.hand_back import UnsafeWay
from app.trade.office.invoice import LineKind
from app.work.bench.modifications import ModificationEntry
from app.work.counter.unsafe_return import decide_unsafe_return
from demo_db.hands import given
from demo_db.stories.telling import Telling

REASON = (
    "It is the customer's player. The repair and every other way we offered were declined. The law here was "
    "looked at first: it does not let us keep it. It goes back unrepaired, marked, the plug tagged."
)


@dataclass(frozen=True)
class Danger:
    """What was found, in which player, and when (month and day of taking in, of looking and of handing back)."""

    name: str
    phone: str
    street: str
    maker: str
    model: str
    look: str
    serial: str
    mains: MainsClass
    type: str
    marking: str
    said: str
    offered: str
    found: ModificationEntry
    days: tuple[tuple[int, int], tuple[int, int], tuple[int, int]]


BRIDGED_FUSE = Danger(
    name="Pia Skarsholm",
    phone="01632 960902",
    street="23 Cooper's Rise",
    maker="Quellmar",
    model="Larch 2",
    look="black",
    serial="0417 733",
    mains=MainsClass.II,
    type="Velk A1",
    marking="55 120",
    said="It went out with a bang. A friend made it work again, but now it gets very warm.",
    offered="the right fuse, the cause found, and a full test",
    found=ModificationEntry(
        kind=Kind.FUSE,
        circuit=Circuit.FUSE,
        where="F1",
        was="T 250 mA, 250 V",
        now="bridged with a strand of wire",
        ours=False,
    ),
    days=((7, 7), (7, 8), (7, 14)),
)
LIFTED_EARTH = Danger(
    name="Egon Wiltshear",
    phone="01632 960050",
    street="61 Limekiln Close",
    maker="Zindermoor",
    model="Zelkova 9",
    look="brushed steel",
    serial="Z 04 118",
    mains=MainsClass.I,
    type="Murn A7",
    marking="60 077",
    said="There was a hum in the loudspeakers, that is gone now. But it skips.",
    offered="the earth put back, the hum cured at its cause, and a full test",
    found=ModificationEntry(
        kind=Kind.WIRING,
        circuit=Circuit.EARTH,
        where="mains inlet",
        was="earth wire to the chassis",
        now="earth wire cut and taped",
        ours=False,
    ),
    days=((9, 8), (9, 9), (9, 15)),
)


def goes_back_unsafe(t: Telling, danger: Danger) -> Iterator[datetime]:
    """Declined; the owner decides; only the fee is charged; the stop stays open on the player."""
    shop = t.shop
    taken_in, looked, back = danger.days
    yield t.at(*taken_in, "10:40")
    received = shop.take_in(
        t.intake(
            name=danger.name,
            phone=danger.phone,
            street=danger.street,
            postcode="43117",
            city="Mossgate",
            serial=danger.serial,
            maker=danger.maker,
            model=danger.model,
            look=danger.look,
            mains_class=danger.mains,
            mains_voltage="230 V 50 Hz",
            type=danger.type,
            transport_serial=danger.marking,
            fault=danger.said,
            faults=("other",),
            opened_before=True,
            transit_lock=t.released,
            came_with=("mains lead",),
            shelf="D 2",
        )
    )
    job = received.job_id
    shop.noted[danger.serial] = received
    yield t.at(*looked, "9:40")
    shop.move(job, Stage.ON_THE_BENCH)
    shop.modify(job, danger.found)
    shop.case(job, CaseStep.CLOSED)
    yield t.at(*looked, "11:00")
    shop.say(job, f"Told what was found and how dangerous it is. Offered: {danger.offered}.", asks=True)
    yield t.at(*looked, "16:30")
    shop.agreed(job, danger.offered, danger.name, yes=False, euro="160")
    shop.agreed(job, "left here, or scrapped", danger.name, yes=False)
    shop.charge(job, "looking at the player, with report by telephone", "45.00", LineKind.FEE)
    shop.found(job, FaultGroup.POWER, CauseFound.EARLIER_WORK, Outcome.DECLINED)
    yield t.at(*back, "17:20")
    decided = decide_unsafe_return(
        shop.book,
        shop.people["ine"],
        shop.pins["ine"],
        job,
        outcome=Outcome.DECLINED,
        reason=REASON,
        law_looked_at=True,
    )
    shop.file(decided.value.sheet_id)
    shop.issue(job, file=True)
    shop.pay(job, shop.due(job), Means.CASH)
    yield t.at(*back, "17:30")
    shop.give_back(
        job,
        Outcome.DECLINED,
        things=given(("mains lead",)),
        shown_and_told=True,
        receipt=True,
        unsafe=UnsafeWay(reason=REASON, law_looked_at=True, signed=True, plug_tagged=True, case_shut=True),
    )
