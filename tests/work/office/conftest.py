"""A job to be charged: taken in, worked on, in a shop with an hourly rate, a part and VAT of 19 and 7 %."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from app.trade.bench.stages import MainsClass, Stage
from app.trade.counter.taking_in import Intake
from app.trade.money import MICRO
from app.trade.settings import HOURLY_RATE


@dataclass
class Bench:
    """The shop with one job on the bench."""

    shop: Any
    book: Any
    who: int  # the owner
    job: int
    part: int


LARCH = Intake(
    name="Benedikt Arnsvik",
    phone="01632 960 142",
    serial="0420 158",
    maker="Quellmar",
    model="Larch 2",
    mains_class=MainsClass.BATTERY,
    fault="Hangs on the last songs.",
    promised_on=date(2026, 3, 20),
)


@pytest.fixture
def bench(shop: Any) -> Bench:
    """A job on the bench, an hour at 64.00 EUR, and a loading belt at 3.80 EUR."""
    from app.work.counter.stages import set_stage
    from app.work.counter.taking_in import receive_unit
    from app.work.office.parts import PartEntry, save_part
    from app.work.office.settings import change_settings
    from app.work.office.stock import receive_part

    change_settings(shop.book, shop.ine, {HOURLY_RATE: 64 * MICRO})
    job = receive_unit(shop.book, shop.mirr, LARCH).value.job_id
    set_stage(shop.book, shop.tobbe, job, Stage.ON_THE_BENCH)
    part = save_part(
        shop.book, shop.ine, PartEntry(code="B-22", words="Loading belt 22 mm", price=3_800_000)
    ).value
    receive_part(shop.book, shop.ine, part, Decimal(10))
    return Bench(shop, shop.book, shop.ine, job, part)


@pytest.fixture
def worked(bench: Bench) -> Bench:
    """The same after an hour and a half of work and one belt."""
    from app.work.bench.work_done import record_labour, use_part

    record_labour(bench.book, bench.shop.tobbe, bench.job, "Arm bearing cleaned", Decimal("1.5"))
    use_part(bench.book, bench.shop.tobbe, bench.job, bench.part, Decimal(1))
    return bench
