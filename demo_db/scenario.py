"""The scenario's text files, read once into plain frozen values."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import Any

FOLDER = Path(__file__).parent / "texts"


@dataclass(frozen=True)
class Person:
    """One who works in the shop."""

    key: str
    name: str
    pin: str


@dataclass(frozen=True)
class Tool:
    """An instrument; accuracy empty where the quantity's usual one stands."""

    key: str
    name: str
    kind: str
    serial: str
    percent: str = ""
    digits: str = ""
    step: str = ""


@dataclass(frozen=True)
class StockPart:
    """A part with its net price, what it costs the shop, and what lay there when the book began."""

    code: str
    words: str
    price: str
    stock: int
    supplier: str = ""
    order_code: str = ""
    cost: str = ""
    bin: str = ""
    rating: str = ""
    must_carry: str = ""
    safety_critical: bool = False
    lead_days: int | None = None


@dataclass(frozen=True)
class TransportKind:
    """A transport type. ``comes_back`` is the share of mended players that return with the same fault."""

    name: str
    arrangement: str
    comes_back: float
    transit_lock: bool
    sheet: tuple[str, ...]
    note: str
    not_testable: tuple[int, ...] = ()
    coil: Mapping[str, str] = field(default_factory=dict)

    @property
    def letter(self) -> str:
        """S for a swing arm, T for a sled."""
        return "S" if self.arrangement.startswith("swing") else "T"


@dataclass(frozen=True)
class ServiceLimit:
    """A limit from a service document, in the unit shown, or as shares of the label's current."""

    type: str
    source: str
    quantity: str
    detail: str = ""
    low: str = ""
    high: str = ""
    share: tuple[float, float] | None = None
    must: bool = False


@dataclass(frozen=True)
class PlayerKind:
    """A player as it is made: ``serial`` and ``marking`` with # for each figure, ``of`` how many of a hundred."""

    maker: str
    model: str
    mains: str
    voltage: str
    looks: tuple[str, ...]
    serial: str
    transport: str
    marking: str
    label: tuple[Decimal, Decimal]
    of: int


@dataclass(frozen=True)
class CardText:
    """A know-how card: who wrote it, what it concerns, text by section."""

    who: str
    title: str
    sections: dict[str, str]
    type: str = ""
    maker: str = ""
    model: str = ""


@dataclass(frozen=True)
class Span:
    """A value drawn between two ends, with as many decimals as they are written with."""

    low: Decimal
    high: Decimal


@dataclass(frozen=True)
class Symptom:
    """A quantity that shows the fault: its value before and after, as a share of the label where ``share``."""

    quantity: str
    bad: Span
    good: Span
    tool: str
    detail: str = ""
    share: bool = False


@dataclass(frozen=True)
class Said:
    """The customer's words, the fault word picked, and how often it happens."""

    words: str
    fault_word: str
    how: str = "always"


@dataclass(frozen=True)
class Repair:
    """What goes wrong and what is done about it. ``rung`` are the ends of the highest rung reached on arrival."""

    key: str
    of: int
    arrangement: str
    said: tuple[Said, ...]
    rung: tuple[int, int]
    symptoms: tuple[Symptom, ...]
    change: str
    part: str
    hours: Span
    work: str
    group: str
    cause: str
    outcome: str
    again: float

    def fits(self, kind: TransportKind) -> bool:
        """Whether it can happen to this transport."""
        return self.arrangement in ("", kind.letter)

    @property
    def mends(self) -> bool:
        """Whether the player works afterwards."""
        return self.outcome.startswith("mended")


@dataclass(frozen=True)
class Scenario:
    """Everything in the folder."""

    settings: dict[str, Any]
    people: tuple[Person, ...]
    tools: tuple[Tool, ...]
    parts: tuple[StockPart, ...]
    transports: dict[str, TransportKind]
    limits: tuple[ServiceLimit, ...]
    players: tuple[PlayerKind, ...]
    kept_numbers: frozenset[str]
    repairs: tuple[Repair, ...]
    customers: dict[str, Any]
    counter: dict[str, Any]
    cards: tuple[CardText, ...]

    def part_for(self, repair: Repair, kind: TransportKind) -> str:
        """The code of the part that a repair takes on this transport; empty for none."""
        if repair.part == "pick-up":
            return f"PU-{kind.name.split()[-1]}"
        if repair.part == "spindle":
            return f"MOT-{kind.letter}"
        if repair.part == "coil resistor":
            return kind.coil["part"]
        return repair.part


@cache
def scenario() -> Scenario:
    """The scenario of the shop."""
    shop, repairs = _read("shop"), _read("repairs")["repairs"]
    transports, players = _read("transports"), _read("players")
    return Scenario(
        settings=shop["settings"],
        people=tuple(Person(**row) for row in shop["people"]),
        tools=tuple(Tool(**row) for row in shop["instruments"]),
        parts=tuple(StockPart(**row) for row in shop["parts"]),
        transports={row["name"]: TransportKind(**_tupled(row)) for row in transports["types"]},
        limits=tuple(
            ServiceLimit(type=group["type"], source=group["source"], **_tupled(row))
            for group in transports["limits"]
            for row in group["values"]
        ),
        players=tuple(
            PlayerKind(**{**_tupled(row), "label": _pair(row["label"])}) for row in players["players"]
        ),
        kept_numbers=frozenset(players["kept"]),
        repairs=tuple(_repair(row) for row in repairs),
        customers=_read("customers"),
        counter=_read("counter"),
        cards=tuple(CardText(**row) for row in _read("cards")["cards"]),
    )


def _read(name: str) -> dict[str, Any]:
    return tomllib.loads((FOLDER / f"{name}.toml").read_text(encoding="utf-8"))


def _tupled(row: dict[str, Any]) -> dict[str, Any]:
    return {key: tuple(value) if isinstance(value, list) else value for key, value in row.items()}


def _pair(ends: list[str]) -> tuple[Decimal, Decimal]:
    low, high = map(Decimal, ends)
    return low, high


def _span(ends: list[str]) -> Span:
    return Span(*_pair(ends))


def _repair(row: dict[str, Any]) -> Repair:
    outcome = row.get("outcome") or (
        "mended with a modification" if row["key"] == "coil_raised" else "mended"
    )
    return Repair(
        key=row["key"],
        of=row["of"],
        arrangement=row.get("arrangement", ""),
        said=tuple(Said(*said) for said in row["said"]),
        rung=(row["rung"][0], row["rung"][1]),
        symptoms=tuple(_symptom(list(symptom)) for symptom in row["readings"]),
        change=row.get("change", ""),
        part=row.get("part", ""),
        hours=_span(row.get("hours", ["0.50", "0.50"])),
        work=row.get("work", ""),
        group=row["group"],
        cause=row["cause"],
        outcome=outcome,
        again=row["again"],
    )


def _symptom(row: list[Any]) -> Symptom:
    """``[quantity, bad, good, tool, detail]``, with "share" in second place where both are shares of the label."""
    share = row[1] == "share"
    if share:
        del row[1]
    quantity, bad, good, tool, detail = (*row, "")[:5]
    return Symptom(quantity, _span(bad), _span(good), tool, detail, share)
