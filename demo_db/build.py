"""Builds the demo shop: three years of its work up to ``until``, done through app.work as people do it."""

from __future__ import annotations

import heapq
import shutil
from collections.abc import Callable, Iterator, Sequence
from datetime import date, datetime, timedelta
from decimal import Decimal
from itertools import count
from pathlib import Path
from zoneinfo import ZoneInfo

from app.work.office.part_orders import (
    OrderEntry,
    give_up_order,
    order_part,
    order_parts,
    receive_order,
)
from app.work.office.parts import parts
from app.work.office.stock import count_part, scrap_part
from app.work.shop_book import close_book, open_shop
from demo_db.days import Days, StoryClock
from demo_db.hands import Shop
from demo_db.in_the_shop import InTheShop
from demo_db.money_owed import after_invoices
from demo_db.plan import Planner
from demo_db.scenario import scenario
from demo_db.settings_up import calibrate, renew_certificate, set_up
from demo_db.stories import bramble, kelp, larch, old_velk, osier, tamarack, unsafe, zelkova
from demo_db.stories.telling import Telling, moved_to
from demo_db.years import Known, Years

Tell = Callable[[str], None]
Story = Iterator[datetime]

ZONE = ZoneInfo("Europe/Berlin")
YEARS = timedelta(days=3 * 365)
IN_DETAIL = timedelta(days=300)  # younger jobs are written down with every reading
PLANNED = dict(customers=430, units=470, jobs=573)
SEED = 20
JOB_OF_THE_STORY = 2131  # the number of the first story's job; all others follow from it
LOW_STOCK, BOUGHT = 6, 10
ON_THE_WAY = timedelta(days=6)


def build(folder: Path, until: datetime, tell: Tell) -> Path:
    """Write FOLDER/book.sqlite and what belongs to it. Nothing happens in it on the day of ``until`` itself.

    A book that lies there already is replaced. ``tell`` is told now and then how far it is.
    """
    path = folder / "book.sqlite"
    folder.mkdir(parents=True, exist_ok=True)
    clear(folder)
    days = Days(ZONE)
    today = days.day_of(until)
    first = today - YEARS
    last = days.after(today, -1)
    texts = scenario()
    planned = Planner(texts, days, SEED).years(first, last, **PLANNED)
    clock = StoryClock(days.at(days.after(first, -8), "9:00"))
    book = open_shop(path, clock=clock, make=True, draft=True)
    try:
        shop = Shop(book, clock, days)
        known: dict[str, Known] = {}
        t = Telling(shop, moved_to(today))
        story_of_2131 = larch.hangs_on_the_last_songs(t)
        years = Years(shop, texts, until - IN_DETAIL, known, _scope_away(t))
        stories = [
            story_of_2131,
            *_told(t),
            *(years.live(job) for job in planned),
            *InTheShop(shop, texts, today, known, planned).stories(),
        ]
        begun = [(next(story), story) for story in stories]
        before = sum(instant < begun[0][0] for instant, _ in begun)
        certificate = date(t.day(11, 27).year - 1, 3, 3)
        set_up(shop, texts, first_job=JOB_OF_THE_STORY - before, certificate=certificate)
        keeping = [
            upkeep(shop, t, first, last),
            certified(shop, certificate),
            shelf_looked_through(shop, last),
            ordered_of_late(shop, last),
            after_invoices(shop, last),
        ]
        run([*begun, *((next(story), story) for story in keeping)], clock, _progress(tell, first, today))
    finally:
        close_book(book)
    return path


def _told(t: Telling) -> list[Story]:
    """The hand-written jobs beside the first."""
    return [
        bramble.skips_at_the_end(t),
        larch.comes_again_in_the_frost(t),
        kelp.starts_when_pushed(t),
        kelp.stays_as_donor(t),
        osier.asks_for_the_lid_switch(t),
        tamarack.two_resistors_of_somebody_elses(t),
        larch.no_fault_shown(t),
        bramble.another_type_inside(t),
        zelkova.foil_for_a_fuse(t),
        kelp.early_donor(t),
        *old_velk.wears_in_two_players(t),
        unsafe.goes_back_unsafe(t, unsafe.BRIDGED_FUSE),
        unsafe.goes_back_unsafe(t, unsafe.LIFTED_EARTH),
    ]


def clear(folder: Path) -> None:
    """Take an earlier demo shop away, with what belongs to it."""
    for old in folder.glob("book.*"):
        shutil.rmtree(old) if old.is_dir() else old.unlink()


def run(
    stories: Sequence[tuple[datetime, Story]], clock: StoryClock, tell: Callable[[datetime], None]
) -> None:
    """Let all stories happen side by side, in the order of time. Each comes with its first instant."""
    order = count()
    waiting = [(instant, next(order), story) for instant, story in stories]
    heapq.heapify(waiting)
    while waiting:
        instant, _, story = heapq.heappop(waiting)
        clock.go_to(instant)
        tell(instant)
        if (later := next(story, None)) is not None:
            heapq.heappush(waiting, (later, next(order), story))


def shelf_looked_through(shop: Shop, day: date) -> Story:
    """Belts have gone hard and a box of switches is not where it was, so both are to be ordered."""
    yield shop.days.at(day, "16:40")
    for line in parts(shop.book):
        if line.code == "BELT-62" and line.on_hand > 2:
            scrap_part(shop.book, shop.people["tobbe"], line.id, line.on_hand - 2, note="crack when bent")
        elif line.code == "SW-TRAY":
            count_part(shop.book, shop.people["tobbe"], line.id, Decimal(1), note="box not found")


def ordered_of_late(shop: Shop, last: date) -> Story:
    """Pick-ups that nobody has any more are given up; of felt rings some have come, the rest is to come."""
    book, mirr = shop.book, shop.people["mirr"]
    yield shop.days.at(shop.days.working_before(last - timedelta(days=60)), "10:20")
    pick_ups = OrderEntry(part_id=shop.parts["PU-A7"], quantity=Decimal(4), supplier="Tidewrack Spares")
    asked = order_part(book, mirr, pick_ups).value
    yield shop.days.at(shop.days.working_before(last - timedelta(days=45)), "11:05")
    give_up_order(book, mirr, asked, "the last ones are sold")
    yield shop.days.at(shop.days.working_before(last - timedelta(days=15)), "9:40")
    here = shop.days.next_working(last + timedelta(days=6))
    felt = OrderEntry(part_id=shop.parts["FOAM"], quantity=Decimal(30), expected_on=here)
    rings = order_part(book, mirr, felt).value
    yield shop.days.at(shop.days.working_before(last - timedelta(days=6)), "10:15")
    receive_order(book, mirr, rings, Decimal(20), note="10 follow")


def upkeep(shop: Shop, t: Telling, first: date, last: date) -> Story:
    """Instruments go to be calibrated before they are due, but for the oscilloscope once; parts are ordered and come."""
    due, back = _scope_away(t)
    day, calibrated = first, first - timedelta(days=300)
    while (day := shop.days.next_working(day + timedelta(days=28))) < last:
        yield shop.days.at(day, "9:05")
        kept = frozenset(shop.parts.values())
        there = [line for line in parts(shop.book) if line.id in kept]
        low = [line for line in there if line.on_hand + line.on_order < LOW_STOCK]
        here = shop.days.next_working(day + ON_THE_WAY)
        entries = [
            OrderEntry(part_id=line.id, quantity=LOW_STOCK + BOUGHT - line.on_hand, expected_on=here)
            for line in low
        ]
        orders = order_parts(shop.book, shop.people["mirr"], entries).value
        if day - calibrated > timedelta(days=330):
            calibrated = day
            for key in shop.tools:
                if key != "scope":
                    calibrate(shop, key)
            if not due < day <= back:
                calibrate(shop, "scope", min(due, day + timedelta(days=365)) if day <= due else None)
        if back < day <= back + timedelta(days=28):
            calibrate(shop, "scope")
        if orders and here < last:
            yield shop.days.at(here, "9:10")
            for order, entry in zip(orders, entries, strict=True):
                receive_order(shop.book, shop.people["mirr"], order, entry.quantity)


def _scope_away(t: Telling) -> tuple[date, date]:
    """The days on which the oscilloscope is past its date: overdue by twelve when job 9 is read with it."""
    return t.day(12, 2), t.day(12, 16)


def certified(shop: Shop, day: date) -> Story:
    """Sanna's certificate is renewed on the day on which the old one ends."""
    yield shop.days.at(shop.days.next_open(day), "9:02")
    renew_certificate(shop, day)


def _progress(tell: Tell, first: date, today: date) -> Callable[[datetime], None]:
    said = first.year - 1

    def told(instant: datetime) -> None:
        nonlocal said
        if instant.year > said:
            said = instant.year
            tell(f"Building the demo shop: {said}")

    return told
