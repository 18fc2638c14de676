"""Builds a large book for measuring: the plan of the demo shop over twenty years, laid down in bulk.

Finished visits have customer, player, transport, readings and handing back; the newest stand on the bench.
Invoices, papers, trials and modifications are not among it: the demo shop has those, done by people's deeds.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from functools import cached_property
from itertools import islice
from pathlib import Path
from typing import Any, TypeVar

from app.book.bulk import Laying, Values, lay_down
from app.trade.bench.kinds import FaultGroup, HowOften, TransitLock
from app.trade.bench.quantities import Quantity
from app.trade.bench.stages import CauseFound, Collector, MainsClass, Moment, Outcome, Stage, Waiting
from app.trade.bench.typed_value import parse_value
from app.trade.people.phone import digits
from app.trade.people.serial import serial_key
from app.trade.sentence import Sentence
from app.work.office.quantity_list import quantity_list
from app.work.shop_book import close_book, open_shop
from demo_db.build import ZONE, clear
from demo_db.days import Days, StoryClock
from demo_db.hands import Shop
from demo_db.people import PlannedCustomer
from demo_db.plan import PlannedJob, PlannedReading, PlannedUnit, Planner
from demo_db.scenario import Scenario, scenario
from demo_db.settings_up import set_up

K = TypeVar("K", bound=Hashable)
Read = tuple[PlannedReading, Moment, datetime]

JOBS, SEED = 100_000, 20
CUSTOMERS_IN_TEN, UNITS_IN_TEN = 6, 7  # to ten jobs
SPAN = timedelta(days=20 * 365)
ON_THE_BENCH = 40  # at most; of few jobs one in ten
READINGS_OF_NEWEST = 50  # the job whose sheet is measured
FIRST_JOB = 1001


def build_many(folder: Path, until: datetime, jobs: int = JOBS, seed: int = SEED) -> Path:
    """Write FOLDER/book.sqlite with so many jobs; the same seed and day give the same. Replaces an earlier one."""
    folder.mkdir(parents=True, exist_ok=True)
    clear(folder)
    path = folder / "book.sqlite"
    days = Days(ZONE)
    last = days.after(days.day_of(until), -1)
    texts = _without_modifications(scenario())
    planned = Planner(texts, days, seed).years(
        last - SPAN,
        last,
        customers=max(1, jobs * CUSTOMERS_IN_TEN // 10),
        units=max(1, jobs * UNITS_IN_TEN // 10),
        jobs=jobs,
    )
    clock = StoryClock(days.at(last, "9:00"))
    book = open_shop(path, clock=clock, make=True, draft=True)
    try:
        shop = Shop(book, clock, days)
        set_up(shop, texts, first_job=FIRST_JOB, certificate=last)
        known = {one.id: one for one in quantity_list(book)}
        clock.go_to(until)
        with lay_down(book, shop.people["mirr"], Sentence("took in a player")) as laying:
            Many(shop, texts, known, planned, laying).lay()
    finally:
        close_book(book)
    return path


def _without_modifications(texts: Scenario) -> Scenario:
    left_out = Outcome.MENDED_MODIFIED
    return replace(texts, repairs=tuple(one for one in texts.repairs if one.outcome != left_out))


@dataclass
class Many:
    """Turns planned jobs into rows."""

    shop: Shop
    texts: Scenario
    quantities: dict[str, Quantity]
    jobs: Sequence[PlannedJob]
    laying: Laying

    def lay(self) -> None:
        """Lay down everything, in the order in which one row points at another."""
        numbers = self.laying.take_numbers("job", len(self.jobs), FIRST_JOB)
        self.laying.lay("customers", self._customers())
        self.laying.lay("units", self._units())
        self.laying.lay("transports", self._transports())
        self.laying.lay("jobs", self._job_rows(numbers))
        self.laying.lay("fittings", self._fittings())
        self.laying.lay("reported_faults", self._faults())
        self.laying.lay("readings", self._readings())
        self.laying.lay("hand_backs", self._hand_backs())

    # which there are, each with its key in the order of first coming

    @cached_property
    def _people(self) -> dict[int, int]:
        return _keyed([id(job.unit.owner) for job in self.jobs], self.laying.free_key("customers"))

    @cached_property
    def _machines(self) -> dict[int, int]:
        return _keyed([id(job.unit) for job in self.jobs], self.laying.free_key("units"))

    @cached_property
    def _first_transport(self) -> int:
        return self.laying.free_key("transports")

    @cached_property
    def _first_job(self) -> int:
        return self.laying.free_key("jobs")

    @cached_property
    def _here_from(self) -> int:
        """The place of the first job that still stands on the bench."""
        return len(self.jobs) - min(ON_THE_BENCH, len(self.jobs) // 10)

    def _first_visits(self) -> Iterator[tuple[int, int, PlannedJob]]:
        """Place and job of each player's first visit, under the player's key."""
        seen: set[int] = set()
        for at, job in enumerate(self.jobs):
            key = self._machines[id(job.unit)]
            if key not in seen:
                seen.add(key)
                yield key, at, job

    def _transport(self, unit: PlannedUnit) -> int:
        """One transport in each player, in the same order."""
        return self._first_transport + self._machines[id(unit)] - next(iter(self._machines.values()))

    # rows

    def _customers(self) -> Iterator[Values]:
        seen: set[int] = set()
        for job in self.jobs:
            key = self._people[id(job.unit.owner)]
            if key not in seen:
                seen.add(key)
                yield {"id": key, **_card(job.unit.owner), "created_at": job.taken_in}

    def _units(self) -> Iterator[Values]:
        for key, _, job in self._first_visits():
            kind = job.unit.kind
            yield {
                "id": key,
                "maker": kind.maker,
                "model": kind.model,
                "serial": job.unit.serial,
                "serial_key": serial_key(job.unit.serial),
                "mains_class": MainsClass(kind.mains),
                "mains_voltage": kind.voltage,
                "look": job.unit.look,
                "customer_id": self._people[id(job.unit.owner)],
                "created_at": job.taken_in,
            }

    def _transports(self) -> Iterator[Values]:
        for _, _, job in self._first_visits():
            yield {
                "id": self._transport(job.unit),
                "type_id": self.shop.types[job.unit.kind.transport],
                "marking": job.unit.marking,
                "label_current": job.unit.label / 1000,
                "created_at": job.taken_in,
            }

    def _fittings(self) -> Iterator[Values]:
        first = self.laying.free_key("fittings")
        for count, (key, at, job) in enumerate(self._first_visits()):
            yield {
                "id": first + count,
                "transport_id": self._transport(job.unit),
                "unit_id": key,
                "fitted_at": job.taken_in,
                "fitted_job_id": self._first_job + at,
            }

    def _job_rows(self, numbers: range) -> Iterator[Values]:
        for at, (number, job) in enumerate(zip(numbers, self.jobs, strict=True)):
            yield {
                "id": self._first_job + at,
                "number": number,
                "unit_id": self._machines[id(job.unit)],
                "customer_id": self._people[id(job.unit.owner)],
                "waiting": Waiting.NOTHING,
                "taken_in_at": job.taken_in,
                "taken_in_by": self.shop.people["mirr"],
                "promised_on": job.promised,
                "fault": job.said.words,
                "marks": job.marks,
                "transit_lock": self._lock(job),
                "shelf": job.shelf,
                "go_ahead_limit": job.limit,
                **(_still_here() if at >= self._here_from else _ended(job)),
            }

    def _lock(self, job: PlannedJob) -> TransitLock:
        has_one = self.texts.transports[job.unit.kind.transport].transit_lock
        return TransitLock.RELEASED if has_one else TransitLock.NONE

    def _faults(self) -> Iterator[Values]:
        first = self.laying.free_key("reported_faults")
        for at, job in enumerate(self.jobs):
            said = job.said
            yield {
                "id": first + at,
                "job_id": self._first_job + at,
                "word": said.fault_word,
                "how": HowOften(said.how),
            }

    def _readings(self) -> Iterator[Values]:
        key = self.laying.free_key("readings")
        for at, job in enumerate(self.jobs):
            for planned, moment, instant in self._read_of(at, job):
                yield {
                    "id": key,
                    "job_id": self._first_job + at,
                    "transport_id": self._transport(job.unit),
                    "moment": moment,
                    "at": instant,
                    "by": self.shop.people[job.technician],
                    **self._value(planned),
                }
                key += 1

    def _read_of(self, at: int, job: PlannedJob) -> list[Read]:
        """What was read at this visit; of the newest job, readings of others of its kind fill the sheet."""
        read: list[Read] = [(one, Moment.ARRIVAL, job.begun) for one in job.before]
        if at < self._here_from and job.mended:
            read += [(one, Moment.FINAL, job.done) for one in job.after]
        if at == len(self.jobs) - 1:
            alike = (one for other in reversed(self.jobs) for one in other.before)
            read += [(one, Moment.DURING, job.begun) for one in islice(alike, READINGS_OF_NEWEST - len(read))]
        return read

    def _value(self, planned: PlannedReading) -> dict[str, Any]:
        typed = parse_value(planned.typed, self.quantities[planned.quantity].entry)
        return {
            "quantity": planned.quantity,
            "detail": planned.detail,
            "typed": typed.typed,
            "value": None if typed.value is None else float(typed.value),
            "digits": typed.value,
            "unit": typed.unit.shown,
            "bound": typed.bound.value,
            "instrument_id": self.shop.tools[planned.tool] if planned.tool else None,
        }

    def _hand_backs(self) -> Iterator[Values]:
        first = self.laying.free_key("hand_backs")
        for at, job in enumerate(self.jobs[: self._here_from]):
            yield {
                "id": first + at,
                "job_id": self._first_job + at,
                "at": job.back,
                "by": self.shop.people["mirr"],
                "collector": Collector.CUSTOMER,
                "shown_and_told": job.mended,
            }


def _keyed(things: Sequence[K], first: int) -> dict[K, int]:
    return {thing: first + at for at, thing in enumerate(dict.fromkeys(things))}


def _card(owner: PlannedCustomer) -> dict[str, Any]:
    return {
        "name": owner.name,
        "phone": owner.phone,
        "phone_digits": digits(owner.phone),
        "email": owner.email,
        "street": owner.street,
        "postcode": owner.postcode,
        "city": owner.city,
        "ring_when": owner.ring_when,
    }


def _still_here() -> dict[str, Any]:
    return {"stage": Stage.ON_THE_BENCH}


def _ended(job: PlannedJob) -> dict[str, Any]:
    return {
        "stage": Stage.HANDED_BACK,
        "outcome": Outcome(job.repair.outcome),
        "fault_group": FaultGroup(job.repair.group),
        "cause": CauseFound(job.repair.cause),
        "ready_at": job.done,
        "handed_back_at": job.back,
    }
