"""Readings of a large book, read and judged by the rules under the limits of the shop."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from app.book.bench.job_facts import RUNG_OF_POWER
from app.book.tables import Job, Transport
from app.trade.bench.bound import Bound
from app.trade.bench.facts import ReadingFact
from app.trade.bench.quantities import Quantity
from app.trade.bench.stages import Moment
from app.trade.bench.typed_value import TypedValue, parse_value
from app.trade.bench.uncertainty import Accuracy, reading_u
from app.trade.bench.units import Unit
from app.trade.bench.verdict import Limit, judge
from app.trade.sentence import Measure
from app.work.bench.readings import limit_for
from demo_db.hands import Shop
from demo_db.plan import PlannedReading
from demo_db.scenario import Scenario, Tool

COIL_READINGS = (("driver_temp", ""), ("radial_coil_r", ""), ("dropout_passed", ""))
Key = tuple[str, str, str]  # transport type, quantity, detail


@dataclass
class Judge:
    """Knows the limits that hold in the shop and judges under them."""

    shop: Shop
    quantities: Mapping[str, Quantity]
    tools: Mapping[str, Tool]
    limits: dict[Key, tuple[Any, Limit | None]]

    @classmethod
    def of(cls, shop: Shop, texts: Scenario, quantities: Mapping[str, Quantity]) -> Judge:
        """Look up the limit of every quantity that is read, on every type of transport."""
        asked = {(one.quantity, one.detail) for repair in texts.repairs for one in repair.symptoms}
        with shop.book.ask() as session:
            limits = {
                (kind, *what): _limit(session, shop.types[kind], quantities[what[0]], what[1])
                for kind in texts.transports
                for what in sorted(asked | set(COIL_READINGS))
            }
        return cls(shop, quantities, {tool.key: tool for tool in texts.tools}, limits)

    def read(
        self, kind: str, label: Decimal, planned: PlannedReading, **conditions: Any
    ) -> tuple[dict[str, Any], ReadingFact]:
        """The columns of a reading, and the same as the rules see it. ``label`` is the transport's, in A."""
        quantity = self.quantities[planned.quantity]
        typed = parse_value(planned.typed, quantity.entry)
        assert typed.value is not None
        u = self._uncertainty(quantity, planned.tool, typed)
        row, limit = self._limit(kind, planned, label)
        verdict = None if limit is None else judge(typed.value, u or Decimal(0), limit, typed.bound)
        columns: dict[str, Any] = {
            "quantity": planned.quantity,
            "detail": planned.detail,
            "typed": typed.typed,
            "value": float(typed.value),
            "digits": typed.value,
            "unit": typed.unit.shown,
            "bound": typed.bound.value,
            "uncertainty": None if u is None else float(u),
            "instrument_id": self.shop.tools[planned.tool] if planned.tool else None,
            **conditions,
        }
        if verdict is not None:
            columns |= {
                "verdict": verdict.word.value,
                "probability": verdict.probability,
                "limit_id": None if row is None else row.id,
                "limit_low": verdict.limit.low,
                "limit_high": verdict.limit.high,
                "limit_source": verdict.limit.source,
                "limit_must": verdict.limit.must,
                "rule": f"{verdict.rule}, {verdict.rule_version}",
            }
        unit = typed.unit
        fact = ReadingFact(
            quantity=planned.quantity,
            name=quantity.name,
            value=Measure(_shown(typed.value, unit), unit.shown),
            moment=conditions["moment"],
            at=conditions["at"],
            u=Decimal(0) if u is None else unit.to_shown(Decimal(repr(float(u)))),
            low=None if verdict is None or verdict.limit.low is None else _shown(verdict.limit.low, unit),
            high=None if verdict is None or verdict.limit.high is None else _shown(verdict.limit.high, unit),
            verdict=None if verdict is None else verdict.word,
            within=None if verdict is None else Decimal(repr(verdict.probability)),
            must=verdict is not None and verdict.limit.must,
            place=planned.detail,
            warm_minutes=conditions.get("warm_minutes"),
            room=conditions.get("room"),
        )
        return columns, fact

    def powered(self, facts: Iterable[ReadingFact]) -> bool:
        """Whether one of them was read with the power on."""
        return any(self.quantities[fact.quantity].needs >= RUNG_OF_POWER for fact in facts)

    def _limit(self, kind: str, planned: PlannedReading, label: Decimal) -> tuple[Any, Limit | None]:
        row, limit = self.limits[kind, planned.quantity, planned.detail]
        if row is None or limit is None or row.relative_to != "label":
            return row, limit
        low, high = (None if end is None else end * label for end in (limit.low, limit.high))
        return row, Limit(low, high, limit.source, limit.version, limit.must)

    def _uncertainty(self, quantity: Quantity, tool: str, typed: TypedValue) -> Decimal | None:
        if typed.value is None or typed.bound is not Bound.EXACT:
            return None
        known = self.tools.get(tool)
        if known is None or not known.percent or not isinstance(quantity.model, Accuracy):
            return quantity.uncertainty([typed.value]).u
        step = Decimal(known.step) if known.step else quantity.model.step
        model = Accuracy(Decimal(known.percent), Decimal(known.digits or 0), step)
        return reading_u(model, quantity.repeatability, typed.value).u


def finals_wanted(facts: Iterable[ReadingFact]) -> tuple[tuple[str, Any], ...]:
    """What was outside on arrival is to be read again at the end."""
    wanted = {
        fact.quantity: fact.name
        for fact in facts
        if fact.moment is Moment.ARRIVAL and fact.verdict is not None and fact.verdict.outside
    }
    return tuple(wanted.items())


def _limit(session: Any, kind: int, quantity: Quantity, detail: str) -> tuple[Any, Limit | None]:
    """With a label of 1 A, so that a limit that goes by the label comes as its share."""
    nowhere = Job(unit_id=0)  # no limit of the scenario goes by the model of the player
    return limit_for(session, nowhere, Transport(type_id=kind, label_current=Decimal(1)), quantity, detail)


def _shown(value: Decimal, unit: Unit) -> Decimal:
    shown = unit.to_shown(value)
    return shown.quantize(Decimal(1)) if shown == shown.to_integral() else shown.normalize()
