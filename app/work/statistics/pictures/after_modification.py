"""After a modification, drawn: survival and comebacks of changed players beside standard repairs, and readings."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Sequence

from app.trade.sentence import Measure, Sentence, Value
from app.trade.statistics.comeback_rates import per_cent, shown_p
from app.trade.statistics.picture import (
    Axis,
    Bar,
    Bars,
    Course,
    Curve,
    Curves,
    Panel,
    Point,
    Scale,
    Series,
)
from app.trade.statistics.survival import tidy_marks, worth_drawing_until
from app.work.statistics.after_modification import AfterModification, Changed, ChangedRow, ReadingPoint
from app.work.statistics.pictures.how_long import days_axis, share_axis, steps_of
from app.work.statistics.pictures.said_of_marks import faint, first_of, together

MOST_QUANTITIES = 3  # each with a panel of its own
MOST_TRANSPORTS = 4  # in one panel


def panels_after_modification(answer: AfterModification) -> tuple[Panel, ...]:
    """Curves and bars of the kinds of change beside the standard repairs like them (beside all, where none is told apart),
    then one course for each of the quantities read most."""
    if not answer.rows:
        return ()
    days = answer.question.window
    apart = any(row.kind is Changed.LIKE for row in answer.rows)
    rows = [row for row in answer.rows if not (apart and row.kind is Changed.STANDARD)]
    marks = tidy_marks(worth_drawing_until((row.curve for row in rows), days))
    inside = days <= marks[-1]
    curves = Curves(
        title=Sentence("Share of repairs that hold"),
        x=days_axis(marks[-1]),
        y=share_axis([row.curve for row in rows]),
        curves=tuple(_curve(row, days) for row in rows),
        guide=float(days) if inside else None,
        guide_name=Sentence("{n} days", {"n": days}) if inside else None,
    )
    bars = Bars(
        title=Sentence("Came back within {days} days", {"days": days}),
        axis=Axis(name=Sentence("share that came back"), scale=Scale.SHARE, least=0.0),
        bars=tuple(_bar(row, days) for row in answer.rows),
    )
    return curves, bars, *_courses(answer.readings)


def _curve(row: ChangedRow, days: int) -> Curve:
    x, y, low, high = steps_of(row.curve)
    told = Sentence(
        "{name}: {n} repairs watched, {came} came back.",
        {"name": row.name, "n": row.n, "came": row.curve.event_count},
    )
    holds, band = row.curve.at(days), row.curve.band_at(days)
    if holds is None or band is None:
        told = together(told, Sentence("None was watched for {days} days.", {"days": days}))
    else:
        values: dict[str, Value] = {
            "share": per_cent(holds),
            "days": days,
            "low": per_cent(band[0]),
            "high": per_cent(band[1]),
        }
        told = together(
            told, Sentence("{share} hold for {days} days (95 % interval {low} to {high}).", values)
        )
    return Curve(
        key=row.kind.name.lower(),
        name=row.name,
        x=x,
        y=y,
        until=row.curve.longest,
        told=together(told, _against(row)),
        low=low,
        high=high,
        ink=faint(row.few),
        jobs=row.jobs,
    )


def _against(row: ChangedRow) -> Sentence:
    if row.kind is Changed.STANDARD:
        return Sentence("The changed ones are compared with those like them among these.")
    if row.kind is Changed.LIKE:
        return Sentence("They had the transport type and the rung of a changed one.")
    if row.test is None or not row.test.degrees:
        return Sentence("No standard repair is like these, so nothing is compared.")
    return Sentence(
        "Against {n} standard repairs like these: log-rank p {p}. They were not drawn by lot.",
        {"n": row.like, "p": shown_p(row.test.p)},
    )


def _bar(row: ChangedRow, days: int) -> Bar:
    if row.share is None:
        none = Sentence("{name}: none of {n} handed back can be counted yet.", {"name": row.name, "n": row.n})
        return Bar(
            key=row.kind.name.lower(),
            name=row.name,
            value=None,
            told=none,
            ink=faint(few=True),
            jobs=row.jobs,
        )
    counts = {"name": row.name, "came": row.came_back, "could": row.could, "share": per_cent(row.share)}
    return Bar(
        key=row.kind.name.lower(),
        name=row.name,
        value=row.share,
        told=Sentence(
            "{name}: {came} of {could} came back within {days} days, {share} (95 % interval {low} to {high}).",
            {**counts, "days": days, "low": per_cent(row.low), "high": per_cent(row.high)},
        ),
        low=row.low,
        high=row.high,
        beside=Sentence("{share}, {came} of {could}", counts),
        ink=faint(row.few),
        jobs=row.jobs,
    )


def _courses(readings: Sequence[ReadingPoint]) -> tuple[Course, ...]:
    """The quantities that were read again on other days, those most often read first."""
    counts = Counter(point.quantity for point in readings)
    days = Counter(quantity for _, quantity, _ in {(p.transport_id, p.quantity, p.day) for p in readings})
    transports = Counter(quantity for _, quantity in {(p.transport_id, p.quantity) for p in readings})
    most = sorted(
        counts, key=lambda quantity: (transports[quantity] - days[quantity], -counts[quantity], quantity)
    )[:MOST_QUANTITIES]
    return tuple(_course([point for point in readings if point.quantity == quantity]) for quantity in most)


def _course(readings: Sequence[ReadingPoint]) -> Course:
    """The transports read on most days, of equal ones those read last."""
    of: defaultdict[int, list[ReadingPoint]] = defaultdict(list)
    for point in readings:
        of[point.transport_id].append(point)

    def order(transport: int) -> tuple[int, int, int, int]:
        days = {point.day for point in of[transport]}
        return -len(days), -len(of[transport]), -max(days).toordinal(), transport

    most = sorted(of, key=order)[:MOST_TRANSPORTS]
    name, unit = readings[0].name, readings[0].unit
    axis: Sentence = Sentence("{quantity} in {unit}", {"quantity": name, "unit": unit}) if unit else name
    title = Sentence("Readings of changed transports: {quantity}", {"quantity": name})
    return Course(
        title=first_of(title, len(most), len(of)),
        x=Axis(name=Sentence("day of the reading"), scale=Scale.DATE),
        y=Axis(name=axis, scale=Scale.NUMBER),
        series=tuple(_series(of[transport]) for transport in most),
    )


def _series(readings: Sequence[ReadingPoint]) -> Series:
    first = readings[0]
    name: Value = first.transport or Sentence("transport {id}", {"id": first.transport_id})
    return Series(
        key=str(first.transport_id),
        name=name,
        points=tuple(
            Point(
                key=f"{first.transport_id} {at}",
                x=float(one.day.toordinal()),
                y=float(one.shown),
                told=Sentence(
                    "{transport} on {day}: {quantity} {value}.",
                    {
                        "transport": name,
                        "day": one.day,
                        "quantity": one.name,
                        "value": Measure(one.shown, one.unit),
                    },
                ),
                jobs=(one.job,),
            )
            for at, one in enumerate(readings)
        ),
    )
