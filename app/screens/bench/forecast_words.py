"""What a quantity of a transport foretells, in words: the pace, the limit and between when, or why nothing is said."""

from __future__ import annotations

from datetime import date, tzinfo
from decimal import Decimal

from app.screens.language import day, say
from app.trade.bench.forecast import FEWEST_READINGS, Forecast, Pace
from app.trade.calendar.promise import local_day
from app.trade.sentence import Measure
from app.work.bench.life_curves import LifeCurve


def forecast_words(curve: LifeCurve, today: date, zone: tzinfo) -> str:
    """The sentence over the plot."""
    told = _told(curve, today)
    if curve.parted_at is not None and curve.parted_by is not None and curve.forecast.pace is Pace.TOO_FEW:
        since = day(local_day(curve.parted_at, zone))
        counted = say("Counted since {day} ({what}).", day=since, what=say(curve.parted_by))
        return f"{told} {counted}"
    return told


def _told(curve: LifeCurve, today: date) -> str:
    found = curve.forecast
    match found.pace:
        case Pace.TOO_FEW:
            return say(
                "Too few readings to say: {n} of the {needed} that a trend needs.",
                n=found.count,
                needed=FEWEST_READINGS,
            )
        case Pace.ONE_DAY:
            return say("Too little time to say: all {n} readings are of one day.", n=found.count)
        case Pace.LEVEL:
            low, high = a_year(found, curve.unit)
            return say(
                "No trend shown: the {n} readings agree with a level line ({low} to {high} a year, 95\u00a0%).",
                n=found.count,
                low=low,
                high=high,
            )
        case Pace.FREE:
            return f"{_pace(curve)} {say('No limit lies ahead of it.')}"
        case Pace.BEYOND:
            return f"{_pace(curve)} {_beyond(curve)}"
        case Pace.FAR:
            return f"{_pace(curve)} {_far(curve, today)}"
    return f"{_pace(curve)} {_reaches(curve, today)}"


def _pace(curve: LifeCurve) -> str:
    """56.0 mA, rising 1.1 mA a year."""
    slope = (curve.forecast.a_year or (0.0, 0.0, 0.0))[1]
    last = Measure(curve.readings[-1].value, curve.unit)
    pace = Measure(three_figures(abs(slope)), curve.unit)
    if slope > 0:
        return say("{last}, rising by {pace} a year.", last=last, pace=pace)
    return say("{last}, falling by {pace} a year.", last=last, pace=pace)


def _limit(curve: LifeCurve) -> Measure:
    assert curve.forecast.limit is not None
    return Measure(curve.forecast.limit, curve.unit)


def _month(of: date) -> str:
    return day(of, "MMMM y")


def _beyond(curve: LifeCurve) -> str:
    crossed = curve.forecast.crosses
    if crossed is None:
        return say("It lies beyond the limit of {limit} from the first reading on.", limit=_limit(curve))
    return say("It crossed the limit of {limit} around {month}.", limit=_limit(curve), month=_month(crossed))


def _far(curve: LifeCurve, today: date) -> str:
    found = curve.forecast
    assert found.reach is not None
    if found.reach < today:
        return say("Its readings are too old to say anything of today.")
    if found.earliest is not None and found.earliest > today:
        return say(
            "At this pace it keeps its limit of {limit} until {until}, though it could reach it from {month} on;"
            " beyond, these readings say nothing.",
            limit=_limit(curve),
            until=_month(found.reach),
            month=_month(found.earliest),
        )
    return say(
        "At this pace it keeps its limit of {limit} until {until}; beyond, these readings say nothing.",
        limit=_limit(curve),
        until=_month(found.reach),
    )


def _reaches(curve: LifeCurve, today: date) -> str:
    found = curve.forecast
    assert found.crosses is not None
    limit, month = _limit(curve), _month(found.crosses)
    if found.crosses <= today:
        return say(
            "By this line it has crossed the limit of {limit} around {month}.", limit=limit, month=month
        )
    begins = found.earliest is None or found.earliest <= today
    first = say("today") if begins or found.earliest is None else _month(found.earliest)
    if found.latest is None:
        return say(
            "At this pace it crosses the limit of {limit} around {month}, not before {first} (95\u00a0%); "
            "how late, these readings do not say.",
            limit=limit,
            month=month,
            first=first,
        )
    return say(
        "At this pace it crosses the limit of {limit} around {month}, between {first} and {last} (95\u00a0%).",
        limit=limit,
        month=month,
        first=first,
        last=_month(found.latest),
    )


def a_year(found: Forecast, unit: str) -> tuple[Measure, Measure]:
    """Between which slopes a year the true one lies, with their signs."""
    low, _, high = found.a_year or (0.0, 0.0, 0.0)
    return (
        Measure(three_figures(low), unit, signed=True),
        Measure(three_figures(high), unit, signed=True),
    )


def why_facts(curve: LifeCurve, zone: tzinfo) -> list[tuple[str, str]]:
    """What the forecast rests on, as pairs of word and value; empty without a line."""
    found = curve.forecast
    if found.line is None or found.first is None or found.last is None or found.reach is None:
        return []
    low, high = a_year(found, curve.unit)
    scatter = Measure(three_figures(found.line.scatter), curve.unit)
    facts = [
        (
            say("Readings used"),
            say("{n}, {first} to {last}", n=found.count, first=found.first, last=found.last),
        ),
        (say("Slope a year (95\u00a0%)"), say("{low} to {high}", low=low, high=high)),
        (say("Scatter around the line"), say("{scatter}", scatter=scatter)),
        (say("Nothing is said after"), day(found.reach)),
    ]
    expanded = 2 * curve.readings[-1].uncertainty
    if expanded:
        told = Measure(three_figures(float(expanded)), curve.unit)
        facts.append(
            (say("Not in the band"), say("what all readings may be off together, up to ±{u}", u=told))
        )
    if curve.parted_at is not None and curve.parted_by is not None:
        since = day(local_day(curve.parted_at, zone))
        facts.append((say("Counted since"), say("{day}, {what}", day=since, what=say(curve.parted_by))))
    return facts


def three_figures(value: float) -> Decimal:
    """Three significant figures, a nought at the end too, written without a power of ten."""
    rounded = Decimal(f"{value:#.3g}")
    return Decimal(format(rounded, "f"))
