"""One quantity of a transport through its life, and what its readings foretell."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, tzinfo
from decimal import Decimal

from app.trade.bench.forecast import Forecast, forecast
from app.trade.bench.line_breaks import change_parts, renewal_parts
from app.trade.calendar.promise import local_day
from app.trade.sentence import Sentence
from app.work.bench.transport_life import LifeReading, TransportLife


@dataclass(frozen=True, slots=True)
class LifeCurve:
    """Readings of one quantity in the order of time. The forecast rests on those since ``parted_at``, when a change
    began the quantity anew (``parted_by`` names it); None: on all. A lower bound is no value and is left out."""

    quantity: str
    detail: str
    name: Sentence
    unit: str
    readings: tuple[LifeReading, ...]
    forecast: Forecast
    low: Decimal | None  # limits as of the last reading
    high: Decimal | None
    limit_source: str
    parted_at: datetime | None = None
    parted_by: Sentence | None = None

    @property
    def key(self) -> tuple[str, str]:
        """What tells it from the others: quantity and detail."""
        return (self.quantity, self.detail)


def life_curves(life: TransportLife, zone: tzinfo) -> tuple[LifeCurve, ...]:
    """Every quantity that was read of it, the most often read first; days are those of ``zone``."""
    runs: dict[tuple[str, str], list[LifeReading]] = {}
    for reading in life.readings:
        runs.setdefault((reading.quantity, reading.detail), []).append(reading)
    return tuple(_curve(life, run, zone) for run in sorted(runs.values(), key=len, reverse=True))


def _curve(life: TransportLife, run: list[LifeReading], zone: tzinfo) -> LifeCurve:
    last = run[-1]
    parted = _parted(life, last)
    kept = [r for r in run if not r.bound and (parted is None or r.at >= parted[0])]
    return LifeCurve(
        quantity=last.quantity,
        detail=last.detail,
        name=last.name,
        unit=last.unit,
        readings=tuple(run),
        forecast=forecast(
            [local_day(r.at, zone) for r in kept], [r.value for r in kept], last.low, last.high
        ),
        low=last.low,
        high=last.high,
        limit_source=last.limit_source,
        parted_at=None if parted is None else parted[0],
        parted_by=None if parted is None else parted[1],
    )


def _parted(life: TransportLife, last: LifeReading) -> tuple[datetime, Sentence] | None:
    """The latest change before the last reading that began the quantity anew, with its words."""
    found: list[tuple[datetime, Sentence]] = []
    for change in life.modifications:
        if change_parts(last.quantity, change.circuit):
            found.append((change.at, change.words))
            if change.reversed_at is not None:
                found.append((change.reversed_at, Sentence("put back: {change}", {"change": change.words})))
    for part in life.renewed:
        if renewal_parts(last.quantity, part.label is not None):
            found.append((part.at, Sentence("renewed: {part}", {"part": part.words})))
    return max((one for one in found if one[0] <= last.at), key=lambda one: one[0], default=None)
