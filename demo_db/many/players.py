"""The customers and players of a large book: each goes in when it first comes, and is known from then on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from types import SimpleNamespace
from typing import Any

from app.book.tables import Customer, Transport, TransportType, Unit
from app.trade.bench.facts import SafetyTestFact
from app.trade.bench.kinds import Arrangement, TransitLock
from app.trade.bench.modifications import Modification
from app.trade.bench.stages import MainsClass
from app.trade.people.phone import digits
from app.trade.people.serial import serial_key
from demo_db.hands import Shop
from demo_db.many.flags import OnPlayer
from demo_db.many.rows import Rows
from demo_db.people import PlannedCustomer
from demo_db.plan import PlannedJob
from demo_db.scenario import Scenario, TransportKind


@dataclass(frozen=True)
class Former:
    """What a later visit says of this one."""

    key: int
    number: int
    handed_back: date
    helped: str


@dataclass
class Player:
    """A player with its transport and owner: their keys and columns, and what earlier visits left."""

    customer: int
    unit: int
    transport: int
    kind: TransportKind
    mains: MainsClass
    label: Decimal  # A
    inside: tuple[Customer, Unit, Transport, TransportType]
    flags: OnPlayer
    former: Former | None = None
    tests: list[SafetyTestFact] = field(default_factory=list)
    tested: list[SimpleNamespace] = field(default_factory=list)  # rows of those tests
    steps: list[SimpleNamespace] = field(default_factory=list)  # and of the last one's steps
    modifications: list[Modification] = field(default_factory=list)
    changed: list[dict[str, Any]] = field(default_factory=list)  # rows of those modifications
    agreed: dict[int, Any] = field(default_factory=dict)  # yes to each

    @property
    def lock(self) -> TransitLock:
        """As the counter finds it."""
        return TransitLock.RELEASED if self.kind.transit_lock else TransitLock.NONE


class Players:
    """Everybody and everything that came so far."""

    def __init__(self, shop: Shop, texts: Scenario, rows: Rows, last_labels: Mapping[int, Decimal]) -> None:
        self._shop = shop
        self._texts = texts
        self._rows = rows
        self._last_labels = last_labels
        self._customers: dict[int, tuple[int, Customer]] = {}
        self._players: dict[int, Player] = {}

    def of(self, job: PlannedJob) -> tuple[Player, bool]:
        """The player of this visit, and whether it is here for the first time."""
        known = self._players.get(id(job.unit))
        if known is not None:
            return known, False
        new = self._players[id(job.unit)] = self._new(job)
        return new, True

    def _new(self, job: PlannedJob) -> Player:
        planned = job.unit
        kind = self._texts.transports[planned.kind.transport]
        customer, card = self._customer(planned.owner, job)
        unit = {
            "maker": planned.kind.maker,
            "model": planned.kind.model,
            "serial": planned.serial,
            "serial_key": serial_key(planned.serial),
            "mains_class": MainsClass(planned.kind.mains),
            "mains_voltage": planned.kind.voltage,
            "look": planned.look,
            "customer_id": customer,
            "created_at": job.taken_in,
        }
        transport = {
            "type_id": self._shop.types[kind.name],
            "marking": planned.marking,
            "label_current": self._last_labels.get(id(planned), planned.label) / 1000,
            "created_at": job.taken_in,
        }
        unit_key = self._rows.add("units", **unit)
        transport_key = self._rows.add("transports", **transport)
        return Player(
            customer,
            unit_key,
            transport_key,
            kind,
            unit["mains_class"],
            planned.label / 1000,
            (
                card,
                Unit(id=unit_key, serial_unreadable=False, **unit),
                Transport(id=transport_key, **transport),
                TransportType(name=kind.name, arrangement=Arrangement(kind.arrangement)),
            ),
            OnPlayer(unit_key, transport_key),
        )

    def _customer(self, owner: PlannedCustomer, job: PlannedJob) -> tuple[int, Customer]:
        known = self._customers.get(id(owner))
        if known is None:
            card = _card(owner)
            key = self._rows.add("customers", **card, created_at=job.taken_in)
            known = self._customers[id(owner)] = key, Customer(id=key, language="", country="", **card)
        return known


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
