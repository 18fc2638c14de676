"""Jobs 1 and 3: a Larch 2 that stalls on long seeks, and comes again in the frost. Job 8: one that shows no fault."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from decimal import Decimal
from typing import Any

from app.trade.bench.evidence import Asked
from app.trade.bench.kinds import FaultGroup, Means, Warmth
from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import CaseStep, CauseFound, Left, MainsClass, Outcome, Stage
from app.trade.office.guarantee import Answer
from app.trade.office.invoice import LineKind
from app.work.bench.readings import correct_reading
from app.work.office.charges import give_discount
from demo_db.estimating import answered
from demo_db.hands import VAT_FULL, given, micro
from demo_db.photos import photo
from demo_db.stories.larch_estimate import two_ways
from demo_db.stories.telling import BETTER, CURED, DURING, FINAL, NOTHING, Telling, resistor

LIST_OF_WORK = "bench work: bring-up and four trials"


def hangs_on_the_last_songs(t: Telling) -> Iterator[datetime]:
    """Job 2131: mended with a modification, agreed by telephone before it was done; cause not established."""
    shop = t.shop
    yield t.at(11, 19, "10:20")
    received = shop.take_in(
        t.intake(
            name="Benedikt Arnsvik",
            phone="01632 960244",
            email="b.arnsvik@example.org",
            street="Flat 2, 18 Nowhere Lane",
            postcode="43117",
            city="Mossgate",
            ring_when="after 16:00",
            serial="0420 158",
            maker="Quellmar",
            model="Larch 2",
            look="black",
            mains_class=MainsClass.II,
            mains_voltage="230 V 50 Hz",
            type="Velk A1",
            transport_serial="55 871",
            fault="Plays nicely from the start, but when I jump to the last songs it hangs for ages and then stops.",
            faults=("other",),
            marks="scratch on the cover, front left; chip on the front, right corner",
            opened_before=False,
            screws_missing=False,
            transit_lock=t.released,
            came_with=("remote control", "two batteries"),
            go_ahead_limit="270",
            deposit="40",
            deposit_means=Means.CASH,
            shelf="B 3",
            promised_on=t.day(11, 27),
        ),
        ticket=True,
    )
    job = received.job_id
    shop.noted["larch"] = received
    shop.tag(job)
    yield t.at(11, 24, "9:20")
    shop.move(job, Stage.ON_THE_BENCH)
    t.label(job, "48.0")
    yield t.at(11, 24, "9:55")
    warm: dict[str, Any] = {
        "warmth": Warmth.WARM,
        "warm_minutes": 35,
        "room": Decimal(21),
        "disc": "reference disc R2",
    }
    shop.ask(job, warm=Asked.DENIED, drop=Asked.DENIED)
    shop.climb(job, 10, tries=3, stopped_in=3, **warm)
    shop.read(job, "laser_current", "51.2", tool="shunt", warm_minutes=35)
    shop.read(job, "hf_eye", "1.08", tool="scope", disc="reference disc R2")
    shop.read(job, "focus_offset", "12", tool="meter")
    offset = shop.read(job, "radial_offset", "-38", tool="meter")
    drive = shop.read(job, "radial_drive", "228", tool="scope", place="r 40 mm")
    yield t.at(11, 24, "10:35")
    shop.read(job, "arm_start_current", "28.4; 30.4; 32.4", tool="supply", place="level")
    slip = shop.read(job, "seek_time", "0.48")
    shop.read(job, "c1_inner", "12", tool="counter", seconds=30, disc="reference disc R2")
    shop.read(job, "rail_dc", "7.96", tool="meter", detail="+8 V")
    yield t.at(11, 24, "10:51")
    correct = correct_reading(shop.book, shop.people["tobbe"], slip, "4.8", "decimal mark in the wrong place")
    seek = correct.value.id

    yield t.at(11, 24, "11:20")
    trial = shop.begin_trial(
        job, "flex_dress", "flex led in a wider bow", reference="W2", suspect="flex_drag"
    )
    t.before(trial, seek)
    yield t.at(11, 24, "11:35")
    _after(t, job, trial, seek="4.7", rung=10)
    shop.judge(trial, NOTHING, Left.PUT_BACK)

    yield t.at(11, 24, "11:50")
    trial = shop.begin_trial(
        job, "resolder", "joints at the radial driver resoldered", reference="IC203", suspect="joints"
    )
    shop.read(job, "seek_time", "4.7", DURING, trial_id=trial, trial_side="before")
    yield t.at(11, 24, "12:40")
    _after(t, job, trial, seek="4.8", rung=10)
    shop.judge(trial, NOTHING, Left.LEFT_SO)

    yield t.at(11, 24, "13:30")
    trial = shop.begin_trial(
        job, "radial_set", "radial offset set at VR5, within the service data", suspect="wobble"
    )
    t.before(trial, offset)
    shop.read(job, "seek_time", "4.8", DURING, trial_id=trial, trial_side="before")
    yield t.at(11, 24, "13:50")
    shop.read(job, "radial_offset", "-4", DURING, tool="meter", trial_id=trial, trial_side="after")
    _after(t, job, trial, seek="4.7", rung=10)
    shop.judge(trial, NOTHING, Left.LEFT_SO)

    yield t.at(11, 24, "13:58")
    asked = two_ways(t, job)
    yield t.at(11, 24, "14:05")
    answered(
        shop,
        job,
        asked,
        "B",
        "Benedikt Arnsvik",
        words="The second one. If it doesn't help, ring me before you order.",
    )

    yield t.at(11, 24, "14:12")
    trial = shop.begin_trial(
        job,
        "coil_current",
        "coil current raised",
        reference="R314",
        suspect="radial_magnet",
        order_reason="promised for Friday, transport would have to come out",
    )
    t.before(trial, drive)
    shop.read(job, "seek_time", "4.7", DURING, trial_id=trial, trial_side="before")
    photo(shop, job, "R314", "6.8", "R314 as the maker fitted it, 6.8 Ω")
    raised = shop.modify(
        job,
        resistor(
            "R314",
            "6.8",
            "5.6",
            kind=Kind.REPLACED,
            circuit=Circuit.RADIAL_COIL,
            law=Law.CURRENT,
            maker_tolerance=Decimal(5),
            new_tolerance=Decimal(5),
            rating=Decimal("0.6"),
            power=Decimal("0.053"),
            current_before=Decimal("0.080"),
            coil_resistance=Decimal("14.0"),
            why="three other changes made no difference; with this one it seeks and plays to the end",
            way_back="fit 6.8 Ω at R314 again, then read radial drive and seek time",
            trial_id=trial,
        ),
    )
    shop.noted["larch raised"] = raised
    shop.use(job, "R-5R6")
    shop.agreed(
        job,
        "R314 5.6 for 6.8 ohm, 21 % more coil current, can be undone",
        "Benedikt Arnsvik",
        modification=raised,
        said_at=t.at(11, 24, "14:05"),
    )
    photo(shop, job, "R314", "5.6", "R314 with 5.6 Ω in its place")
    yield t.at(11, 24, "14:40")
    shop.read(
        job, "radial_drive", "188", DURING, tool="scope", trial_id=trial, trial_side="after", place="r 40 mm"
    )
    _after(t, job, trial, seek="1.3", rung=12)
    shop.judge(trial, BETTER, Left.LEFT_INSIDE)
    yield t.at(11, 24, "15:10")
    shop.move(job, Stage.RUNNING_IN)

    yield t.at(11, 26, "14:00")
    shop.read(job, "radial_coil_r", "14.0", FINAL, tool="meter", room=Decimal(22))
    yield t.at(11, 26, "14:40")
    shop.read(job, "driver_temp", "48", FINAL, tool="thermo", warm_minutes=30)
    shop.read(job, "radial_coil_r", "14.5", FINAL, tool="meter", warm_minutes=30)
    shop.read(job, "dropout_passed", "0.75", FINAL, disc="disc with graded gaps")
    shop.read(job, "seek_time", "1.3", FINAL)
    shop.climb(job, 12, FINAL, tries=3, **{**warm, "warm_minutes": 60})
    shop.case(job, CaseStep.CLOSED)
    yield t.at(11, 26, "15:20")
    t.safe(job)
    shop.labour(job, LIST_OF_WORK, "2.25")
    shop.charge(job, "solder and small parts, joints at the radial driver", "2.14")
    shop.charge(job, "printed care booklet", "6.96", low=True)
    give_discount(shop.book, shop.people["ine"], job, "discount for the wait", micro("10"), VAT_FULL)
    shop.found(job, FaultGroup.RADIAL, CauseFound.NOT_ESTABLISHED, Outcome.MENDED_MODIFIED)
    yield t.at(11, 26, "16:10")
    shop.issue(job, file=True)
    shop.report(job)
    shop.move(job, Stage.READY)
    shop.say(job, "Ready, with the change we spoke of. The invoice names it.")
    yield t.at(11, 27, "16:36")
    shop.pay(job, shop.due(job), Means.CARD)
    yield t.at(11, 27, "16:40")
    shop.give_back(
        job,
        Outcome.MENDED_MODIFIED,
        things=given(("remote control", "two batteries")),
        shown_and_told=True,
        receipt=True,
    )
    yield t.at(11, 30, "11:20")
    shop.credit(job, "printed care booklet", "the care booklet was out of stock and was not handed over")


def _after(t: Telling, job: int, trial: int, *, seek: str, rung: int) -> None:
    """Seek time and rung after a trial."""
    t.shop.read(job, "seek_time", seek, DURING, trial_id=trial, trial_side="after")
    t.shop.climb(
        job,
        rung,
        DURING,
        trial_id=trial,
        trial_side="after",
        tries=3,
        warmth=Warmth.WARM,
        warm_minutes=60,
        room=Decimal(21),
        disc="reference disc R2",
    )


def comes_again_in_the_frost(t: Telling) -> Iterator[datetime]:
    """Job 3: the same player 47 days later; dried oil in the arm is found, and the change is put back."""
    shop = t.shop
    yield t.at(1, 13, "9:41")
    former = shop.noted["larch"]
    received = shop.take_in(
        t.intake(
            customer_id=former.customer_id,
            unit_id=former.unit_id,
            serial="0420 158",
            fault="Since the frost it hangs again until it has played a while.",
            faults=("other: sometimes",),
            marks="scratch on the cover, front left; chip on the front, right corner",
            transit_lock=t.released,
            came_with=("mains lead", "remote control"),
            shelf="C 4",
            ring_when="after 17:00",
            promised_on=t.day(1, 22),
            comeback_of_id=former.job_id,
        ),
        ticket=True,
    )
    job = received.job_id
    shop.noted["larch again"] = received
    shop.tag(job)
    yield t.at(1, 14, "9:10")
    shop.move(job, Stage.ON_THE_BENCH)
    cold: dict[str, Any] = {
        "warmth": Warmth.COLD,
        "room": Decimal(16),
        "disc": "reference disc R2",
        "tries": 5,
    }
    warm: dict[str, Any] = {
        "warmth": Warmth.WARM,
        "warm_minutes": 40,
        "room": Decimal(18),
        "disc": "reference disc R2",
        "tries": 5,
    }
    shop.ask(job, cold=Asked.SAID, tap=Asked.DENIED)
    shop.climb(job, 10, stopped_in=4, **cold)
    yield t.at(1, 14, "10:05")
    shop.climb(job, 12, DURING, stopped_in=0, **warm)
    shop.read(job, "rail_dc", "7.98", tool="meter", detail="+8 V")
    shop.read(job, "rail_ripple", "18", tool="scope", detail="+8 V")
    start = shop.read(job, "arm_start_current", "40; 41; 42", tool="supply", place="level", room=Decimal(16))
    drive = shop.read(job, "radial_drive", "253", tool="scope", place="r 40 mm")
    yield t.at(1, 14, "11:30")
    trial = shop.begin_trial(
        job, "arm_clean", "arm bearing cleaned: dried oil", reference="arm bearing", suspect="arm_drag"
    )
    t.before(trial, start, drive)
    yield t.at(1, 14, "12:50")
    shop.read(
        job, "arm_start_current", "17; 18; 19", DURING, tool="supply", trial_id=trial, trial_side="after"
    )
    shop.read(
        job, "radial_drive", "111", DURING, tool="scope", trial_id=trial, trial_side="after", place="r 40 mm"
    )
    yield t.at(1, 15, "9:05")
    shop.climb(job, 12, DURING, stopped_in=0, trial_id=trial, trial_side="after", **cold)
    shop.judge(trial, CURED, Left.LEFT_SO)
    yield t.at(1, 15, "9:40")
    shop.reverse(job, shop.noted["larch raised"], note="the arm itself was the fault: dried oil")
    shop.read(job, "radial_drive", "135", DURING, tool="scope", place="r 40 mm")
    shop.read(job, "seek_time", "0.9", DURING)
    shop.move(job, Stage.RUNNING_IN)
    yield t.at(1, 16, "9:05")
    shop.climb(job, 12, FINAL, stopped_in=0, **cold)
    yield t.at(1, 16, "10:20")
    shop.climb(job, 12, FINAL, stopped_in=0, **{**warm, "warm_minutes": 60})
    shop.read(job, "arm_start_current", "17; 18; 19", FINAL, tool="supply", place="level")
    shop.read(job, "radial_drive", "135", FINAL, tool="scope", place="r 40 mm")
    shop.read(job, "seek_time", "0.9", FINAL)
    shop.case(job, CaseStep.CLOSED)
    yield t.at(1, 16, "10:50")
    t.safe(job)
    shop.labour(job, "arm bearing cleaned, change put back, cold and warm run", "2.00", charged=False)
    shop.found(
        job, FaultGroup.RADIAL, CauseFound.GREASE, Outcome.MENDED, cause_note="dried oil in the arm bearing"
    )
    shop.answer(job, "comeback", "guarantee, no charge")
    shop.decide_guarantee(job, Answer.NO_INVOICE, "the arm was dry already in November; nothing to charge")
    shop.move(job, Stage.READY)
    shop.say(job, "Ready, no charge. What we changed in November is put back.")
    yield t.at(1, 16, "12:30")
    shop.give_back(
        job, Outcome.MENDED, things=given(("mains lead", "remote control")), shown_and_told=True, receipt=True
    )


def no_fault_shown(t: Telling) -> Iterator[datetime]:
    """Job 8: four hours and three discs, everything within; the customer's disc has a mark."""
    shop = t.shop
    yield t.at(11, 30, "11:05")
    received = shop.take_in(
        t.intake(
            name="Uwe Klinkert",
            phone="01632 960518",
            street="7 Heron Walk",
            postcode="43120",
            city="Hithersand",
            serial="0431 207",
            maker="Quellmar",
            model="Larch 2",
            look="silver",
            mains_class=MainsClass.II,
            mains_voltage="230 V 50 Hz",
            type="Velk A1",
            transport_serial="55 402",
            fault="Skips at the same place. Always the same song.",
            faults=("skips",),
            transit_lock=t.released,
            came_with=("one disc, in its case",),
            shelf="A 2",
            promised_on=t.day(12, 8),
        ),
        ticket=True,
    )
    job = received.job_id
    shop.noted["no fault"] = received
    yield t.at(12, 1, "9:15")
    shop.move(job, Stage.ON_THE_BENCH, "sanna")
    t.label(job, "47.5", who="sanna")
    shop.ask(job, who="sanna", spot=Asked.SAID)
    shop.climb(job, 12, who="sanna", disc="reference disc R2", warmth=Warmth.WARM, warm_minutes=30)
    shop.read(job, "laser_current", "49.6", tool="shunt", who="sanna")
    shop.read(job, "hf_eye", "1.12", tool="scope", who="sanna", disc="reference disc R2")
    shop.read(job, "jitter", "24", who="sanna", disc="reference disc R2", place="11T")
    shop.read(job, "c1_inner", "6", tool="counter", seconds=30, who="sanna", disc="reference disc R2")
    shop.read(job, "seek_time", "0.8", who="sanna")
    yield t.at(12, 1, "11:40")
    shop.read(
        job,
        "c1_middle",
        "880",
        DURING,
        tool="counter",
        seconds=30,
        who="sanna",
        disc="the customer's disc, at the mark",
    )
    shop.note(job, "four hours, three discs, not one skip; the customer's own disc has a mark", "sanna")
    yield t.at(12, 1, "13:30")
    shop.climb(job, 12, FINAL, who="sanna", disc="three discs", warmth=Warmth.WARM, warm_minutes=240)
    shop.case(job, CaseStep.CLOSED, "sanna")
    yield t.at(12, 1, "14:00")
    t.safe(job, touch_current="0.03")
    shop.charge(job, "fault looked for over four hours, none shown", "45.00", LineKind.FEE)
    shop.found(job, FaultGroup.DISC, CauseFound.DISC, Outcome.NO_FAULT_SHOWN, who="sanna")
    shop.move(job, Stage.READY, "sanna")
    shop.say(job, "The player is fine. The disc has a mark at that song; bring it along, we show it.")
    yield t.at(12, 2, "15:10")
    shop.issue(job, file=True)
    shop.pay(job, shop.due(job), Means.CASH)
    yield t.at(12, 2, "15:14")
    shop.give_back(
        job,
        Outcome.NO_FAULT_SHOWN,
        things=given(("one disc, in its case",)),
        shown_and_told=True,
        receipt=True,
    )
