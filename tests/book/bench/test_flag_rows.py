"""Flag rows keep in step with the rules, also where the book knows little."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from sqlalchemy import select

from app.book.tables import Flag
from app.trade.bench.flag import Subject
from app.trade.bench.stages import Moment, Stage
from app.trade.counter.taking_in import Intake
from app.work.bench.readings import ReadingEntry, record_reading
from app.work.counter.stages import set_stage
from app.work.counter.taking_in import receive_unit
from app.work.office.shop_lists import LimitLine, save_limit
from tests.work.conftest import cheap_pins, shop, shop_template

__all__ = ["cheap_pins", "shop", "shop_template"]


def flags(shop: Any) -> list[Any]:
    with shop.book.ask() as session:
        return list(session.execute(select(*Flag.__table__.columns).order_by(Flag.id)))


def job_without_transport(shop: Any) -> int:
    intake = Intake(name="Odile Varenne", serial="20 1184", maker="Ostrind", model="Osier 7", fault="dead")
    job = int(receive_unit(shop.book, shop.mirr, intake).value.job_id)
    set_stage(shop.book, shop.tobbe, job, Stage.ON_THE_BENCH)
    return job


def read(shop: Any, job: int, quantity: str, typed: str) -> None:
    entry = ReadingEntry(quantity=quantity, typed=typed, moment=Moment.DURING)
    record_reading(shop.book, shop.tobbe, job, entry)


def test_a_laser_flag_without_a_noted_transport_hangs_on_the_unit_and_stands_once(shop: Any) -> None:
    save_limit(
        shop.book,
        shop.tobbe,
        LimitLine(
            quantity="optical_power",
            unit_maker="Ostrind",
            unit_model="Osier 7",
            high=Decimal("0.0003"),
            source="service document, p. 9",
        ),
    )
    job = job_without_transport(shop)
    for typed in ("0.60", "0.60", "0.62"):  # mW, twice the limit
        read(shop, job, "optical_power", typed)
    standing = [flag for flag in flags(shop) if flag.cleared_at is None and flag.rule == "laser_up_big"]
    assert [flag.subject for flag in standing] == [Subject.UNIT]
    assert standing[0].unit_id is not None
    read(shop, job, "optical_power", "0.20")
    assert not [f for f in flags(shop) if f.cleared_at is None and f.rule == "laser_up_big"]


def test_a_reading_that_says_nothing_new_leaves_the_flag_rows_alone(shop: Any) -> None:
    job = job_without_transport(shop)
    read(shop, job, "seek_time", "1.2")
    before = [(f.id, f.rule, f.raised_at, f.cleared_at) for f in flags(shop)]
    shop.clock.advance(minutes=5)
    entry = ReadingEntry(quantity="seek_time", typed="1.3", moment=Moment.DURING)
    changes = record_reading(shop.book, shop.tobbe, job, entry).changes
    assert changes.kinds == {"readings"}
    assert [(f.id, f.rule, f.raised_at, f.cleared_at) for f in flags(shop)] == before
