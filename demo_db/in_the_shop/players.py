"""How a player comes to be in the shop these days, and what earlier jobs left: for each of their stories."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from decimal import Decimal
from typing import Any

from app.trade.bench.kinds import TransitLock
from app.trade.bench.stages import MainsClass
from app.trade.counter.taking_in import Intake
from app.work.bench.sheet_of_job import job_sheet
from app.work.bench.transport_life import transport_life
from app.work.bench.transports import change_label
from app.work.office.part_orders import OrderEntry, order_part
from app.work.office.parts import PartEntry, save_part
from demo_db.hands import Shop, faults, money
from demo_db.plan import PlannedJob
from demo_db.scenario import PlayerKind, Scenario
from demo_db.years import Known


@dataclass
class Players:
    """The days around ``today``, on which nothing has happened yet, and what earlier jobs left."""

    shop: Shop
    scenario: Scenario
    today: date
    known: dict[str, Known]
    planned: Sequence[PlannedJob]

    def ago(self, weekdays: int, clock: str) -> datetime:
        """An instant so many days before today, counted from Monday to Friday."""
        day = self.today
        for _ in range(weekdays):
            day = self.shop.days.working_before(day)
        return self.shop.days.at(day, clock)

    def ahead(self, open_days: int) -> date:
        """The open day so many days from today; today itself for 0, if the shop is open."""
        days = self.shop.days
        return days.after(self.today, open_days) if open_days else days.next_open(self.today)

    def take_in(self, model: str, serial: str, **fields: Any) -> int:
        """Take a player in, with ticket and tag, which are filed when somebody looks at them."""
        kind = self.kind_of(model, serial)
        said: dict[str, Any] = {
            "maker": kind.maker,
            "model": kind.model,
            "serial": serial,
            "look": kind.looks[0],
            "mains_class": MainsClass(kind.mains),
            "mains_voltage": kind.voltage,
            "postcode": "43117",
            "city": "Mossgate",
            "transit_lock": TransitLock.RELEASED
            if self.scenario.transports[kind.transport].transit_lock
            else TransitLock.NONE,
            "diagnosis_fee": money("45"),
            "diagnosis_fee_told": True,
            **fields,
        }
        said["faults"] = faults(*said["faults"])
        if "limit" in said:
            said["go_ahead_limit"] = money(said.pop("limit"))
        if marking := said.pop("marking", ""):
            said["transport_type_id"], said["transport_serial"] = self.shop.types[kind.transport], marking
        job = self.shop.take_in(Intake(**said), ticket=True, file=False).job_id
        self.shop.tag(job, file=False)
        return job

    def kind_of(self, model: str, serial: str) -> PlayerKind:
        """The kind of player that has this model and serial."""
        of_model = [kind for kind in self.scenario.players if kind.model == model]
        return next((kind for kind in of_model if kind.serial[:1] == serial[:1]), of_model[0])

    def label(self, job: int, milliampere: str) -> None:
        """Note the current on the label of the transport inside."""
        shop = self.shop
        life = transport_life(shop.book, shop.transport_in(job))
        current = Decimal(milliampere) / 1000
        change_label(shop.book, shop.people["tobbe"], life.id, life.marking, current, version=life.version)

    def order(self, job: int, part: PartEntry, expected_on: date, note: str = "") -> None:
        """Order a part that the shop does not keep, for a job that waits for it."""
        book, number = self.shop.book, job_sheet(self.shop.book, job).number
        part_id = save_part(book, self.shop.people["mirr"], part).value
        entry = OrderEntry(
            part_id=part_id, quantity=Decimal(1), expected_on=expected_on, job=number, note=note
        )
        order_part(book, self.shop.people["tobbe"], entry)

    def again(self, known: Known, **fields: Any) -> None:
        """Take a player in that has been here before."""
        said = {"shelf": "C 1", "promised_on": self.ahead(6), "marks": "sticker on the cover", **fields}
        said["faults"] = faults(*said["faults"])
        intake = Intake(customer_id=known.customer, unit_id=known.unit, **said)
        self.shop.tag(self.shop.take_in(intake, ticket=True, file=False).job_id, file=False)

    def came_back(self) -> Known:
        """A player that was mended for skipping in the last months and has not been here since."""
        days, back = self.shop.days, self.gone_since(timedelta(days=25))
        since = self.today - timedelta(days=150)
        for key, job in reversed(back.items()):
            skipped = job.mended and job.repair.group in ("light", "radial")
            if skipped and days.day_of(job.back) > since and not self.known[key].modification:
                return self.known[key]
        return self.known[next(reversed(back))]

    def gone_since(self, long: timedelta) -> dict[str, PlannedJob]:
        """The last job of each player that is gone for so long, by the key under which it is known."""
        last = {f"{job.unit.kind.maker} {job.unit.serial}": job for job in self.planned}
        return {key: job for key, job in last.items() if job.back < self.shop.clock() - long}
