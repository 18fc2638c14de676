"""A bench with one player on it: swing-arm transport with a label, limits with sources, a meter, a part."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from app.trade.bench.kinds import Arrangement
from app.trade.bench.safety_limits import PROPOSED
from app.trade.bench.safety_test import Step
from app.trade.bench.stages import CaseStep, Collector, MainsClass, Moment, Outcome, Stage
from app.trade.counter.hand_back import HandBack
from app.trade.counter.taking_in import Intake
from app.trade.settings.bench import SAFETY_STANDARD
from app.work.bench.readings import ReadingEntry, record_reading
from app.work.bench.safety_tests import SafetyEntry, record_safety_test
from app.work.bench.sheet_of_job import job_sheet
from app.work.bench.start_ups import StartUpEntry, record_start_up
from app.work.bench.transport_life import transport_life
from app.work.bench.transports import change_label
from app.work.bench.work_done import note_case
from app.work.counter.hand_back import hand_back
from app.work.counter.stages import set_outcome, set_stage
from app.work.counter.taking_in import receive_unit
from app.work.office.settings import change_settings
from app.work.office.shop_lists import (
    InstrumentLine,
    LimitLine,
    TypeLine,
    save_instrument,
    save_limit,
    save_transport_type,
)
from app.work.shop_book import close_book, open_shop
from tests.work.conftest import Shop


@dataclass
class Bench:
    """The shop, and ids of what lies on the bench."""

    shop: Any
    job: int
    unit: int
    customer: int
    type: int
    transport: int
    meter: int

    @property
    def book(self) -> Any:
        """The open book."""
        return self.shop.book

    @property
    def tobbe(self) -> int:
        """The technician."""
        return int(self.shop.tobbe)

    @property
    def sheet(self) -> Any:
        """The job sheet as it is now."""
        return job_sheet(self.book, self.job)

    def rules(self) -> list[str]:
        """Rules whose flags stand on the sheet."""
        return [flag.rule for flag in self.sheet.flags]

    def gate(self, rule: str) -> Any:
        """The gate of a rule, or None when the job does not need it."""
        return next((gate for gate in self.sheet.gates if gate.rule == rule), None)

    def climb(self, rung: int, moment: Moment = Moment.ARRIVAL, **more: Any) -> int:
        """Record a climb of the ladder."""
        entry = StartUpEntry(rung=rung, moment=moment, **more)
        return record_start_up(self.book, self.tobbe, self.job, entry).value

    def read(self, quantity: str, typed: str, moment: Moment = Moment.ARRIVAL, **more: Any) -> Any:
        """Record a reading."""
        entry = ReadingEntry(quantity=quantity, typed=typed, moment=moment, **more)
        return record_reading(self.book, self.tobbe, self.job, entry).value

    def make_safe(self) -> None:
        """Enter a standard, close the case and sign a passed test."""
        limits = replace(PROPOSED, standard="EN 50678", edition="2020")
        change_settings(self.book, self.shop.ine, {SAFETY_STANDARD: limits})
        note_case(self.book, self.tobbe, self.job, CaseStep.CLOSED)
        self.later(minutes=5)
        entry = SafetyEntry(
            typed=((Step.INSULATION, "> 100"), (Step.TOUCH_CURRENT, "0.04")),
            in_order=((Step.VISUAL, True), (Step.FUNCTION, True)),
        )
        record_safety_test(self.book, self.shop.sanna, self.shop.pin("sanna"), self.job, entry)

    def close(self, outcome: Outcome = Outcome.MENDED) -> None:
        """See it play to the end, make the job ready and hand it back to the customer."""
        self.climb(12, Moment.FINAL)
        set_outcome(self.book, self.shop.mirr, self.job, outcome)
        set_stage(self.book, self.tobbe, self.job, Stage.READY)
        hand_back(
            self.book, self.shop.mirr, self.job, HandBack(outcome=outcome, collector=Collector.CUSTOMER)
        )

    def come_again(self, days: int) -> None:
        """The same player is taken in again so many days later; ``job`` is the new job."""
        self.later(days=days)
        intake = Intake(unit_id=self.unit, customer_id=self.customer, fault="It hangs again.")
        self.job = receive_unit(self.book, self.shop.mirr, intake).value.job_id

    def later(self, **by: float) -> None:
        """Let the clock go on."""
        self.shop.clock.advance(**by)


@pytest.fixture(scope="session")
def bench_template(
    shop_template: tuple[Path, dict[str, int]], tmp_path_factory: pytest.TempPathFactory
) -> tuple[Path, tuple[int, ...]]:
    """A closed book with a Larch 2 and its Velk A1 on the bench, made once; copied, never opened itself."""
    people = shop_template[1]
    path = tmp_path_factory.mktemp("bench") / "book.sqlite"
    shutil.copyfile(shop_template[0], path)
    book = open_shop(path, clock=lambda: datetime(2026, 3, 12, 9, 0, tzinfo=UTC))
    kind = save_transport_type(
        book, people["tobbe"], TypeLine(name="Velk A1", arrangement=Arrangement.SWING_ARM, sheet=("hf_eye",))
    ).value
    for line in (
        LimitLine(
            quantity="laser_current",
            transport_type_id=kind,
            relative_to="label",
            high=Decimal("1.2"),
            source="service document, p. 12",
        ),
        LimitLine(
            quantity="seek_time",
            transport_type_id=kind,
            high=Decimal("1.5"),
            source="service document, p. 14",
        ),
        LimitLine(
            quantity="arm_start_current",
            transport_type_id=kind,
            high=Decimal("0.030"),
            source="service document, p. 15",
        ),
        LimitLine(
            quantity="rail_dc",
            transport_type_id=kind,
            detail="+8 V",
            low=Decimal("7.6"),
            high=Decimal("8.4"),
            source="service document, p. 3",
        ),
    ):
        save_limit(book, people["tobbe"], line)
    meter = save_instrument(
        book,
        people["tobbe"],
        InstrumentLine(name="bench meter", calibrated_on=date(2025, 9, 1), due_on=date(2026, 9, 1)),
    ).value
    received = receive_unit(
        book,
        people["mirr"],
        Intake(
            name="Benedikt Arnsvik",
            phone="01632 960244",
            maker="Quellmar",
            model="Larch 2",
            serial="0420 158",
            mains_class=MainsClass.II,
            transport_type_id=kind,
            transport_serial="55 871",
            fault="Hangs when I jump to the last songs.",
        ),
    ).value
    set_stage(book, people["tobbe"], received.job_id, Stage.ON_THE_BENCH)
    sheet = job_sheet(book, received.job_id)
    life = transport_life(book, sheet.transport_id)
    change_label(book, people["tobbe"], life.id, "55 871", Decimal("0.048"), version=life.version)
    close_book(book)
    ids = (received.job_id, received.unit_id, received.customer_id, kind, sheet.transport_id, meter)
    return path, ids


@pytest.fixture
def bench(
    bench_template: tuple[Path, tuple[int, ...]],
    shop_template: tuple[Path, dict[str, int]],
    tmp_path: Path,
    clock: Any,
) -> Iterator[Bench]:
    """A fresh copy of that book, open for work."""
    path = tmp_path / "book.sqlite"
    shutil.copyfile(bench_template[0], path)
    book = open_shop(path, clock=clock)
    yield Bench(Shop(book, clock, path, **shop_template[1]), *bench_template[1])
    close_book(book)
