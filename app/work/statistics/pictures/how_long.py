"""How long repairs last, drawn: a survival curve for each group with its band, and who is still watched below."""

from __future__ import annotations

from collections.abc import Sequence

from app.trade.sentence import Sentence, Value
from app.trade.statistics.comeback_rates import per_cent
from app.trade.statistics.picture import Axis, Curve, Curves, Panel, Scale
from app.trade.statistics.survival import Survival
from app.work.statistics.how_long import CurveRow, HowLong
from app.work.statistics.pictures.said_of_marks import faint, first_of, together, worth_drawing

HALF = 0.5


def panels_of_how_long(answer: HowLong) -> tuple[Panel, ...]:
    """One panel; the group with most repairs first."""
    if not answer.rows:
        return ()
    days = answer.question.window
    rows = worth_drawing(answer.rows, [row.few for row in answer.rows])
    inside = days <= answer.marks[-1]
    return (
        Curves(
            title=first_of(Sentence("Share of repairs that hold"), len(rows), len(answer.rows)),
            x=days_axis(answer.marks[-1]),
            y=share_axis([row.curve for row in rows]),
            curves=tuple(_curve(row, days) for row in rows),
            marks=answer.marks,
            risk_name=Sentence("still watched"),
            guide=float(days) if inside else None,
            guide_name=Sentence("{n} days", {"n": days}) if inside else None,
        ),
    )


def days_axis(most: float) -> Axis:
    """Days since handing back; a curve of one day is drawn, too."""
    return Axis(name=Sentence("days since it was handed back"), scale=Scale.DAYS, least=0.0, most=most or 1.0)


def share_axis(curves: Sequence[Survival]) -> Axis:
    """The share that holds: from a half on where no band comes down to it."""
    lowest = min((low for curve in curves for low in curve.low), default=1.0)
    least = HALF if lowest >= HALF else 0.0
    return Axis(name=Sentence("share that holds"), scale=Scale.SHARE, least=least, most=1.0)


def _curve(row: CurveRow, days: int) -> Curve:
    x, y, low, high = steps_of(row.curve)
    return Curve(
        key=row.label,
        name=row.name,
        x=x,
        y=y,
        until=row.curve.longest,
        told=told_of(row, days),
        low=low,
        high=high,
        at_risk=row.at_risk,
        ink=faint(row.few),
        jobs=row.jobs,
    )


def steps_of(
    curve: Survival,
) -> tuple[tuple[float, ...], tuple[float, ...], tuple[float, ...], tuple[float, ...]]:
    """Where a survival curve steps, its heights there, and its band; from the day of handing back on."""
    if curve.times and curve.times[0] == 0.0:
        return curve.times, curve.share, curve.low, curve.high
    band = curve.band_at(0.0)
    assert band is not None  # everything is watched on its first day
    low, high = band
    return (0.0, *curve.times), (1.0, *curve.share), (low, *curve.low), (high, *curve.high)


def told_of(row: CurveRow, days: int) -> Sentence:
    """How many, how many came back, how many hold at the window, and by when half came back."""
    told = Sentence(
        "{name}: {n} repairs watched, {came} came back.",
        {"name": row.name, "n": row.n, "came": row.came_back},
    )
    if row.holds is None or row.low is None or row.high is None:
        told = together(told, Sentence("None was watched for {days} days.", {"days": days}))
    else:
        values: dict[str, Value] = {"share": per_cent(row.holds), "days": days}
        band = {"low": per_cent(row.low), "high": per_cent(row.high)}
        hold = Sentence("{share} hold for {days} days (95 % interval {low} to {high}).", {**values, **band})
        told = together(told, hold)
    if row.median is not None:
        return together(told, Sentence("By day {days} half had come back.", {"days": round(row.median)}))
    return together(told, Sentence("More than half have not come back."))
