"""A transport's life as its line draws it: stays as bands, jobs and changes as marks, one quantity plotted."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime, timedelta, tzinfo

from app.screens.bench.forecast_words import forecast_words
from app.screens.bench.reading_rows import limit_words, uncertainty_words, verdict_words
from app.screens.kit.life import LifeBand, LifeChange, LifeFacts, LifeJob, LifeLimit
from app.screens.kit.life import LifeReading as Point
from app.screens.language import day, moment, number, say
from app.trade.bench.forecast import Forecast, Pace
from app.trade.bench.verdict import VerdictWord
from app.trade.calendar.promise import local_day
from app.work.bench.life_curves import LifeCurve
from app.work.bench.transport_life import FittingSpan, LifeReading, TransportLife

DRAWN = (Pace.FREE, Pace.BEYOND, Pace.REACHES, Pace.FAR)  # a line that shows no trend is not drawn
POINTS = 40  # of a band, which is curved
_VERDICTS = {
    VerdictWord.WITHIN: "within",
    VerdictWord.CLOSE: "close",
    VerdictWord.HIGH: "outside",
    VerdictWord.LOW: "outside",
}


def life_facts(life: TransportLife, curve: LifeCurve | None, today: date, zone: tzinfo) -> LifeFacts:
    """The drawing of one transport with one quantity."""
    readings = curve.readings if curve is not None else ()
    days = [local_day(span.since, zone) for span in life.spans]
    days += [local_day(r.at, zone) for r in readings]
    days += [local_day(job.taken_in, zone) for span in life.spans for job in span.jobs]
    start = min(days, default=today)
    found = curve.forecast if curve is not None else None
    end = max(today, start) if found is None else _end(found, start, today)
    return LifeFacts(
        start=start,
        end=end,
        today=today,
        bands=_bands(life, today, zone),
        jobs=_jobs(life.spans, zone),
        changes=_changes(life, start, zone),
        unit=curve.unit if curve is not None else "",
        readings=_points(life.spans, readings, zone),
        limits=_limits(curve, zone) if curve is not None else (),
        reference=_label(life, curve),
        trend=_trend(found, end) if found is not None else (),
        reaches=_bracket(found, today) if found is not None else None,
        sentence=summary_words(life, today, zone)
        if curve is None
        else f"{say(curve.name)}: {forecast_words(curve, today, zone)}",
    )


def _end(found: Forecast, start: date, today: date) -> date:
    """Where the axis ends: some way beyond the crossing or beyond today, never beyond what anything is said of."""
    if found.pace not in DRAWN or found.reach is None or found.reach <= today:
        return max(today, start)
    ahead = found.latest or (found.reach if found.pace is Pace.REACHES else today)
    some_way = max(today, ahead) + (max(today, ahead) - start) / 8
    return min(found.reach, some_way)


def _trend(found: Forecast, end: date) -> tuple[tuple[date, float, float, float], ...]:
    if found.pace not in DRAWN or found.first is None or found.reach is None:
        return ()
    last = min(end, found.reach)
    whole = (last - found.first).days
    steps = sorted({round(i * whole / POINTS) for i in range(POINTS + 1)})
    return tuple((d, *found.band(d)) for d in (found.first + timedelta(days=n) for n in steps))


def _bracket(found: Forecast, today: date) -> tuple[date, date | None, str] | None:
    """From when to when the band meets the limit, as far as it is ahead."""
    if found.pace is not Pace.REACHES or found.crosses is None or found.crosses <= today:
        return None
    return (max(found.earliest or today, today), found.latest, say("reaches limit"))


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
            taken = local_day(job.taken_in, zone)
            told = say(
                "Job {number}, taken in {day}: {fault}", number=str(job.number), day=taken, fault=job.fault
            )
            if job.outcome is not None:
                told = f"{told}, {say(job.outcome.value)}"
            seen.setdefault(job.id, LifeJob(str(job.number), taken, job.id, told))
    return tuple(sorted(seen.values(), key=lambda job: job.day))


def _changes(life: TransportLife, start: date, zone: tzinfo) -> tuple[LifeChange, ...]:
    """Modifications and renewed parts in the order of time; those of a player say so."""
    made = []
    for change in life.modifications:
        words = say(change.words)
        since = local_day(change.at, zone)
        until = local_day(change.reversed_at, zone) if change.reversed_at is not None else None
        inside = (
            say("{what}, from {since}, still inside", what=words, since=since)
            if until is None
            else say("{what}, from {since} to {until}", what=words, since=since, until=until)
        )
        told = say("{told}; a change of {player}", told=inside, player=change.unit) if change.unit else inside
        made.append(LifeChange(short_words(words), max(since, start), until, False, change.job_id, told))
    for part in life.renewed:
        on = local_day(part.at, zone)
        told = say("Renewed {day}: {part}", day=on, part=part.words)
        made.append(LifeChange(part.words, max(on, start), None, True, part.job_id, told))
    return tuple(sorted(made, key=lambda change: change.day))


def short_words(words: str) -> str:
    """What stands beside a mark: where the change is, without its numbers."""
    return words.split(":")[0].split(" (")[0]


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
        points.append(
            Point(
                local_day(reading.at, zone),
                float(reading.value),
                float(2 * reading.uncertainty),
                number(reading.value) if first or last else "",
                stays[i],
                _VERDICTS.get(reading.verdict, "") if reading.verdict is not None else "",
                told_of(reading),
            )
        )
    return tuple(points)


def told_of(reading: LifeReading) -> str:
    """A reading in one line: value, uncertainty, verdict, day, job."""
    value = f"{number(reading.value)} {uncertainty_words(reading.uncertainty)}".strip()
    verdict = verdict_words(reading.verdict, None).text if reading.verdict is not None else ""
    parts = [
        f"{value} {reading.unit}".strip(),
        verdict,
        limit_words(reading.low, reading.high),
        moment(reading.at, "d MMM y"),
    ]
    return ", ".join([*(part for part in parts if part), say("job {number}", number=str(reading.job_number))])


def _limits(curve: LifeCurve, zone: tzinfo) -> tuple[LifeLimit, ...]:
    """Both ends as of the last reading, each with the steps of former days."""
    made = []
    for upper, end in ((True, curve.high), (False, curve.low)):
        if end is None:
            continue
        words = limit_words(None, end) if upper else limit_words(end, None)
        source = (words, say(curve.limit_source)) if curve.limit_source else (words,)
        steps: list[tuple[date, float]] = []
        for reading in curve.readings:
            then = reading.high if upper else reading.low
            if then is not None and (not steps or steps[-1][1] != float(then)):
                steps.append((local_day(reading.at, zone), float(then)))
        made.append(LifeLimit(float(end), source, upper, tuple(steps) if len(steps) > 1 else ()))
    return tuple(made)


def _label(life: TransportLife, curve: LifeCurve | None) -> tuple[float, str] | None:
    if life.label is None or curve is None or curve.quantity != "laser_current":
        return None
    return float(life.label.value), say("label {value}", value=life.label.value)
