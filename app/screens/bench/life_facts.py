"""A transport's life as its line draws it: stays as bands, jobs as ticks, one quantity as a curve."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime, tzinfo

from app.screens.bench.reading_rows import limit_words
from app.screens.kit.life_line import LifeBand, LifeFacts, LifeJob, LifeLimit
from app.screens.kit.life_line import LifeReading as Point
from app.screens.language import day, number, say
from app.trade.calendar.promise import local_day
from app.work.bench.transport_life import FittingSpan, LifeReading, TransportLife

Curve = tuple[str, str]  # quantity and detail


def curves_of(life: TransportLife) -> list[Curve]:
    """What was read of it, the most often read first."""
    counted: dict[Curve, int] = {}
    for reading in life.readings:
        counted[reading.quantity, reading.detail] = counted.get((reading.quantity, reading.detail), 0) + 1
    return sorted(counted, key=lambda curve: -counted[curve])


def of_curve(life: TransportLife, curve: Curve | None) -> list[LifeReading]:
    """The readings of one curve, in the order of time."""
    return [r for r in life.readings if (r.quantity, r.detail) == curve]


def life_facts(life: TransportLife, curve: Curve | None, today: date, zone: tzinfo) -> LifeFacts:
    """The drawing of one transport with one curve."""
    readings = of_curve(life, curve)
    days = [local_day(span.since, zone) for span in life.spans]
    days += [local_day(r.at, zone) for r in readings]
    days += [local_day(job.taken_in, zone) for span in life.spans for job in span.jobs]
    start = min(days, default=today)
    points = _points(life.spans, readings, zone)
    last = readings[-1] if readings else None
    return LifeFacts(
        start=start,
        end=max(today, start),
        today=today,
        bands=_bands(life, today, zone),
        jobs=_jobs(life.spans, zone),
        unit=last.unit if last is not None else "",
        readings=points,
        limit=_limit(last),
        reference=_label(life, curve),
        sentence=summary_words(life, today, zone),
    )


def summary_words(life: TransportLife, today: date, zone: tzinfo) -> str:
    """Units, time and jobs of its life in one line, and where it is now."""
    units = len({span.unit_id for span in life.spans})
    jobs = len({job.id for span in life.spans for job in span.jobs})
    here = next((span for span in life.spans if span.until is None), None)
    if here is not None:
        where = say(
            "now in {unit}",
            unit=f"{here.unit}, {say('serial {serial}', serial=here.serial)}" if here.serial else here.unit,
        )
    elif life.shelf:
        where = say("now on shelf {shelf}", shelf=life.shelf)
    else:
        where = say("now in no player")
    counted = [
        say("1 player") if units == 1 else say("{n} players", n=units),
        say("1 job") if jobs == 1 else say("{n} jobs", n=jobs),
    ]
    if life.spans:
        first = local_day(life.spans[0].since, zone)
        counted.append(say("here since {day}", day=day(first, "MMM y")))
    return f"{', '.join([*counted, where])}."


def _bands(life: TransportLife, today: date, zone: tzinfo) -> tuple[LifeBand, ...]:
    bands: list[LifeBand] = []
    before: date | None = None
    for span in life.spans:
        since = local_day(span.since, zone)
        if before is not None and since > before:
            bands.append(LifeBand("", say("shelf"), before, since))
        before = local_day(span.until, zone) if span.until is not None else None
        bands.append(LifeBand(span.unit, span.serial, since, before))
    if before is not None and before < today:
        bands.append(LifeBand("", say("shelf"), before, None))
    return tuple(bands)


def _jobs(spans: Sequence[FittingSpan], zone: tzinfo) -> tuple[LifeJob, ...]:
    seen: dict[int, LifeJob] = {}
    for span in spans:
        for job in span.jobs:
            seen.setdefault(job.id, LifeJob(str(job.number), local_day(job.taken_in, zone), job.id))
    return tuple(sorted(seen.values(), key=lambda job: job.day))


def span_at(spans: Sequence[FittingSpan], at: datetime) -> int:
    """The stay in which an instant lies; -1 for the shelf."""
    for i, span in enumerate(spans):
        if span.since <= at and (span.until is None or at <= span.until):
            return i
    return -1


def _points(spans: Sequence[FittingSpan], readings: Sequence[LifeReading], zone: tzinfo) -> tuple[Point, ...]:
    """Labelled at the first and the last of each stay, and at the present one."""
    stays = [span_at(spans, reading.at) for reading in readings]
    points = []
    for i, reading in enumerate(readings):
        first = i == 0 or stays[i - 1] != stays[i]
        last = i == len(readings) - 1 or stays[i + 1] != stays[i]
        label = number(reading.value) if first or last else ""
        points.append(
            Point(
                local_day(reading.at, zone),
                float(reading.value),
                float(2 * reading.uncertainty),
                label,
                stays[i],
            )
        )
    return tuple(points)


def _limit(last: LifeReading | None) -> LifeLimit | None:
    if last is None or (last.high is None and last.low is None):
        return None
    upper = last.high is not None
    end = last.high if upper else last.low
    assert end is not None
    words = limit_words(None, end) if upper else limit_words(end, None)
    source = (words, say(last.limit_source)) if last.limit_source else (words,)
    return LifeLimit(float(end), source, upper)


def _label(life: TransportLife, curve: Curve | None) -> tuple[float, str] | None:
    if life.label is None or curve is None or curve[0] != "laser_current":
        return None
    return float(life.label.value), say("label {value}", value=life.label.value)
