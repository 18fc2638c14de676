"""Players that keep coming, drawn: the mean number of later visits over time, and those with the most visits."""

from __future__ import annotations

from app.trade.sentence import Sentence, Value
from app.trade.statistics.definition import Followed
from app.trade.statistics.picture import Axis, Bar, Bars, Curve, Curves, Panel, Scale
from app.work.statistics.keep_coming import YEAR, Frequent, KeepComing, MeanRow
from app.work.statistics.pictures.said_of_marks import faint, figures_of, first_of, together, worth_drawing


def panels_of_keep_coming(answer: KeepComing) -> tuple[Panel, ...]:
    """The curves, and the bars of the most frequent where any came again."""
    if not answer.rows:
        return ()
    rows = worth_drawing(answer.rows, [row.few for row in answer.rows])
    of_unit = answer.question.followed is Followed.UNIT
    curves = Curves(
        title=first_of(
            Sentence("Mean number of later visits of a player")
            if of_unit
            else Sentence("Mean number of later visits of a transport"),
            len(rows),
            len(answer.rows),
        ),
        x=Axis(
            name=Sentence("days since it was first handed back"),
            scale=Scale.DAYS,
            least=0.0,
            most=answer.marks[-1] or 1.0,
        ),
        y=Axis(name=Sentence("later visits for each"), scale=Scale.NUMBER, least=0.0),
        curves=tuple(_curve(row) for row in rows),
        marks=answer.marks,
        risk_name=Sentence("still watched"),
    )
    if not answer.most:
        return (curves,)
    title = Sentence("Players with most visits") if of_unit else Sentence("Transports with most visits")
    axis = Axis(name=Sentence("visits"), scale=Scale.COUNT, least=0.0)
    return curves, Bars(title=title, axis=axis, bars=tuple(_bar(one) for one in answer.most))


def _curve(row: MeanRow) -> Curve:
    curve = row.curve
    ahead = () if curve.times and curve.times[0] == 0.0 else (0.0,)
    banded = curve.low is not None and curve.high is not None
    return Curve(
        key=row.label,
        name=row.name,
        x=(*ahead, *curve.times),
        y=(*ahead, *curve.mean),
        until=curve.longest,
        told=_told(row),
        low=(*ahead, *(curve.low or ())) if banded else (),
        high=(*ahead, *(curve.high or ())) if banded else (),
        at_risk=row.at_risk,
        ink=faint(row.few),
        jobs=row.jobs,
    )


def _told(row: MeanRow) -> Sentence:
    told = Sentence(
        "{name}: {visits} later visits of {n}.", {"name": row.name, "visits": row.visits, "n": row.units}
    )
    if row.year_mean is None:
        return together(told, Sentence("None was watched for a year."))
    values: dict[str, Value] = {"mean": figures_of(row.year_mean)}
    if row.year_low is None or row.year_high is None:
        return together(told, Sentence("Within {days} days {mean} for each.", {"days": YEAR, **values}))
    values |= {"days": YEAR, "low": figures_of(row.year_low), "high": figures_of(row.year_high)}
    return together(
        told, Sentence("Within {days} days {mean} for each (95 % interval {low} to {high}).", values)
    )


def _bar(one: Frequent) -> Bar:
    name: Value = one.name
    if one.serial:
        name = Sentence("{name}, {serial}", {"name": one.name, "serial": one.serial})
    told = Sentence(
        "{name}: {visits} visits, taken in for the last time on {last}.",
        {"name": name, "visits": one.visits, "last": one.last},
    )
    return Bar(
        key=f"most {one.id}",
        name=name,
        value=float(one.visits),
        told=told,
        beside=Sentence("{visits}, the last on {last}", {"visits": one.visits, "last": one.last}),
        jobs=one.jobs,
    )
