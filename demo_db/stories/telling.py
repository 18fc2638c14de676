"""What every story stands on: its shop, and its days moved by whole weeks so that they end last week."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from decimal import Decimal
from typing import Any

from app.trade.bench.kinds import TransitLock
from app.trade.bench.stages import MainsClass, Moment, TrialOutcome
from app.trade.counter.taking_in import Intake
from app.work.bench.modifications import ModificationEntry
from app.work.bench.transport_life import transport_life
from app.work.bench.transports import change_label
from app.work.bench.trials import take_as_before
from demo_db.hands import Shop, faults, money

LAST_DAY = date(2027, 1, 13)  # the Wednesday on which the player of the first story comes again
WEEK = timedelta(days=7)
ARRIVAL, DURING, FINAL = Moment.ARRIVAL, Moment.DURING, Moment.FINAL
CURED, BETTER, NOTHING = TrialOutcome.CURED, TrialOutcome.BETTER, TrialOutcome.NO_DIFFERENCE


def moved_to(until: date) -> timedelta:
    """By how much the stories move, so that the last one ends in the last whole week before ``until``."""
    monday = until - timedelta(days=until.weekday())
    wednesday = monday - WEEK + timedelta(days=2)
    return wednesday - LAST_DAY


@dataclass
class Telling:
    """The shop in which a story happens, and how far its days are moved."""

    shop: Shop
    moved: timedelta
    released = TransitLock.RELEASED

    def day(self, month: int, day: int) -> date:
        """A day of the story: January is of the year after."""
        return date(2027 if month < 6 else 2026, month, day) + self.moved

    def at(self, month: int, day: int, clock: str) -> datetime:
        """An instant of the story."""
        return self.shop.days.at(self.day(month, day), clock)

    def intake(self, **fields: Any) -> Intake:
        """A form as Mirr fills it in: plain words for faults, euros for money."""
        said: dict[str, Any] = {"diagnosis_fee": money("45"), "diagnosis_fee_told": True, **fields}
        said["faults"] = faults(*said.get("faults", ()))
        for name in ("go_ahead_limit", "deposit"):
            if name in said:
                said[name] = money(said[name])
        if "type" in said:
            said["transport_type_id"] = self.shop.types[said.pop("type")]
        return Intake(**said)

    def label(self, job: int, milliampere: str, *, who: str = "tobbe") -> int:
        """Note the current printed on the transport inside; gives its key."""
        shop = self.shop
        transport = shop.transport_in(job)
        life = transport_life(shop.book, transport)
        current = Decimal(milliampere) / 1000
        change_label(shop.book, shop.people[who], transport, life.marking, current, version=life.version)
        return transport

    def before(self, trial: int, *readings: int) -> None:
        """Take readings of the arrival as those before a trial."""
        take_as_before(self.shop.book, self.shop.people["tobbe"], trial, readings)

    def safe(self, job: int, mains: MainsClass = MainsClass.II, **typed: Any) -> None:
        """Sanna's test, with usual values where none are told."""
        usual = {"insulation": "> 100", "touch_current": "0.04"}
        self.shop.safety_test(job, mains, **{**usual, **typed})


def resistor(where: str, maker: str, new: str, **more: Any) -> ModificationEntry:
    """A resistor that sets the current of a coil."""
    return ModificationEntry(where=where, maker_value=Decimal(maker), new_value=Decimal(new), **more)
