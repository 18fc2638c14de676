"""A Velk A1 through the years: its laser wears, and it goes from a player with a burnt transformer into another."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta

from app.trade.bench.kinds import FaultGroup, Means
from app.trade.bench.stages import CaseStep, CauseFound, Left, MainsClass, Outcome, Stage
from app.work.bench.transports import move_transport, renew_part
from demo_db.stories.telling import CURED, FINAL, Telling

LARCH = dict(
    maker="Quellmar",
    model="Larch 2",
    mains_class=MainsClass.II,
    mains_voltage="230 V 50 Hz",
    type="Velk A1",
)


def wears_in_two_players(t: Telling) -> list[Iterator[datetime]]:
    """Six visits in three years, each a story. Its laser current rises by some 2 mA a year towards a fifth over its
    label."""
    return [
        _comes_first(t),
        _comes_again(t, 775, "9:05", "Takes long to find the first track.", "other", "50.9"),
        _given_up(t),
        _given_another(t),
        _comes_again(t, 205, "9:20", "Whistles while it plays.", "noise", "54.4", motor=True),
        _comes_again(t, 62, "9:08", "Skips now and then.", "skips", "55.0"),
    ]


def _comes_first(t: Telling) -> Iterator[datetime]:
    yield _at(t, 1020, "9:12")
    received = t.shop.noted["old velk"] = t.shop.take_in(
        t.intake(
            **LARCH,
            transit_lock=t.released,
            name="Ysolde Brackwater",
            phone="01632 960517",
            street="8 Netmender Lane",
            postcode="43119",
            city="Mossgate",
            serial="0403 019",
            look="black",
            transport_serial="55 190",
            fault="Skips on discs that are new and shiny.",
            faults=("skips",),
        )
    )
    yield from _looked_after(t, received.job_id, 1019, "49.2", label="48.0")


def _comes_again(
    t: Telling, days: int, clock: str, fault: str, word: str, current: str, *, motor: bool = False
) -> Iterator[datetime]:
    yield _at(t, days, clock)
    job = _taken_in_again(t, fault, word)
    yield from _looked_after(t, job, days - 1, current, motor=motor)


def _taken_in_again(t: Telling, fault: str, word: str) -> int:
    known = t.shop.noted["old velk"]
    again = t.intake(
        customer_id=known.customer_id,
        unit_id=known.unit_id,
        fault=fault,
        faults=(word,),
        transit_lock=t.released,
    )
    return t.shop.take_in(again).job_id


def _at(t: Telling, days: int, clock: str) -> datetime:
    """So many days before the first story's week, at a time of day."""
    return t.shop.days.at(t.shop.days.next_working(t.day(11, 20) - timedelta(days=days)), clock)


def _read(t: Telling, job: int, current: str) -> None:
    t.shop.read(job, "laser_current", current, FINAL, tool="shunt", warm_minutes=10)


def _looked_after(
    t: Telling, job: int, days: int, current: str, *, label: str = "", motor: bool = False
) -> Iterator[datetime]:
    """A small mend that cures: lens cleaned, or the spindle motor renewed; the laser read as always."""
    shop = t.shop
    yield _at(t, days, "9:40")
    shop.move(job, Stage.ON_THE_BENCH)
    if label:
        t.label(job, label)
    shop.climb(job, 11 if motor else 10, tries=3, stopped_in=2)
    if motor:
        shop.read(job, "motor_current", "238", tool="meter")
    yield _at(t, days, "10:05")
    change = ("spindle_renew", "spindle motor renewed") if motor else ("clean_lens", "lens cleaned")
    trial = shop.begin_trial(job, *change, suspect="spindle_motor" if motor else "lens_dirt")
    if motor:
        renew_part(shop.book, shop.people["tobbe"], job, "spindle motor")
    else:
        shop.case(job, CaseStep.OPENED)
    yield _at(t, days, "10:50")
    _read(t, job, current)
    if motor:
        shop.read(job, "motor_current", "92", FINAL, tool="meter")
    shop.climb(job, 12, FINAL, tries=3, trial_id=trial, trial_side="after")
    shop.judge(trial, CURED, Left.LEFT_SO)
    what = (FaultGroup.SPINDLE, CauseFound.WORN) if motor else (FaultGroup.LIGHT, CauseFound.DIRT)
    yield from _back(t, job, days, "bench work: " + change[1], *what)


def _given_up(t: Telling) -> Iterator[datetime]:
    """The transformer is burnt; the player stays here as a donor with its transport in it."""
    shop = t.shop
    yield _at(t, 560, "9:25")
    job = _taken_in_again(t, "Hummed, smelled and went out.", "no power")
    shop.noted["worn transport"] = shop.transport_in(job)
    yield _at(t, 559, "10:10")
    shop.climb(job, 0)
    shop.note(job, "transformer burnt through; its transport is sound and stays in until somebody needs it")
    shop.agreed(job, "leaves the player to the shop as a donor", "Ysolde Brackwater")
    shop.found(job, FaultGroup.POWER, CauseFound.ELECTRICAL, Outcome.KEPT_AS_DONOR)
    yield _at(t, 559, "10:40")
    shop.give_back(job, Outcome.KEPT_AS_DONOR, collector=None)


def _given_another(t: Telling) -> Iterator[datetime]:
    """A fall broke the lens off: the donor's transport goes in, in one step, the broken one into a box."""
    shop = t.shop
    yield _at(t, 430, "9:15")
    received = shop.noted["old velk"] = shop.take_in(
        t.intake(
            **LARCH,
            transit_lock=t.released,
            name="Corin Haverlock",
            phone="01632 960588",
            street="27 Kelpie Row",
            postcode="43117",
            city="Mossgate",
            serial="0426 118",
            look="silver",
            transport_serial="55 604",
            fault="Fell from the shelf; now no disc is read.",
            faults=("reads no disc",),
        )
    )
    job = received.job_id
    yield _at(t, 429, "9:30")
    shop.move(job, Stage.ON_THE_BENCH)
    shop.climb(job, 4, tries=3, stopped_in=3, note="lens hangs on one wire")
    yield _at(t, 429, "10:00")
    trial = shop.begin_trial(
        job, "transport_swap", "transport swapped for one from a donor", suspect="lens_susp"
    )
    move_transport(shop.book, shop.people["tobbe"], job, shop.noted["worn transport"], shelf="scrap box")
    yield _at(t, 429, "11:00")
    _read(t, job, "52.6")
    shop.read(job, "seek_time", "1.2", FINAL)
    shop.climb(job, 12, FINAL, tries=3, trial_id=trial, trial_side="after")
    shop.judge(trial, CURED, Left.LEFT_SO)
    yield from _back(
        t, job, 429, "bench work: transport swapped and run in", FaultGroup.FOCUS, CauseFound.DAMAGE
    )


def _back(
    t: Telling, job: int, days: int, work: str, group: FaultGroup, cause: CauseFound
) -> Iterator[datetime]:
    """Shut, tested, paid and handed back the same week."""
    shop = t.shop
    shop.case(job, CaseStep.CLOSED)
    yield _at(t, days, "14:10")
    t.safe(job)
    shop.labour(job, work, "0.75")
    shop.found(job, group, cause, Outcome.MENDED)
    shop.move(job, Stage.READY)
    yield _at(t, days - 2, "16:05")
    shop.issue(job)
    shop.pay(job, shop.due(job), Means.CARD)
    yield _at(t, days - 2, "16:10")
    shop.give_back(job, Outcome.MENDED, shown_and_told=True)
