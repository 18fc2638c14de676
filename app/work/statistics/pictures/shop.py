"""The shop itself, drawn: jobs in and out week by week, stays, promises, work in hand, hours and turnover."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from app.trade.calendar.period import month_of
from app.trade.money import Money
from app.trade.sentence import Sentence
from app.trade.statistics.picture import Axis, Bar, Bars, Course, Panel, Point, Scale, Series
from app.work.statistics.pictures.said_of_marks import (
    MOST_BARS,
    days_of,
    first_of,
    hours_of,
    jobs_counted,
)
from app.work.statistics.shop import AgeRow, HoursRow, MonthRow, Promises, Shop, Stay, WeekRow

MOST_WEEKS = 104
MOST_MONTHS = 120


def panels_of_shop(answer: Shop) -> tuple[Panel, ...]:
    """The weeks first; a panel without anything in it is left out."""
    panels: list[Panel] = []
    if answer.rows:
        panels.append(_weeks(answer.rows, answer.last_day))
    panels += _stay(answer.stay)
    panels += _promises(answer.promises)
    if any(row.count for row in answer.in_hand):
        panels.append(
            Bars(
                title=Sentence("Work in hand, by the days since it was taken in"),
                axis=Axis(name=Sentence("jobs"), scale=Scale.COUNT, least=0.0),
                bars=tuple(_age(row) for row in answer.in_hand),
            )
        )
    if answer.technicians:
        panels.append(_hours(answer.technicians))
    if answer.turnover:
        panels.append(_turnover(answer.turnover, answer.last_day))
    return tuple(panels)


def _weeks(rows: Sequence[WeekRow], last: date) -> Course:
    """Week by week; one that is not over yet would only look as if fewer came, so it waits."""
    over = rows if rows[-1].first + timedelta(6) <= last else rows[:-1]
    shown = over[-MOST_WEEKS:] or rows
    title = Sentence("Jobs in and out, week by week")
    if len(over) > len(shown):
        title = Sentence(
            "Jobs in and out, the last {shown} of {all} weeks", {"shown": len(shown), "all": len(over)}
        )
    came = tuple(
        Point(
            key=row.first.isoformat(),
            x=float(row.first.toordinal()),
            y=float(row.taken_in),
            told=Sentence("Week from {day}: {n} taken in.", {"day": row.first, "n": row.taken_in}),
        )
        for row in shown
    )
    left = tuple(
        Point(
            key=row.first.isoformat(),
            x=float(row.first.toordinal()),
            y=float(row.handed_back),
            told=Sentence("Week from {day}: {n} handed back.", {"day": row.first, "n": row.handed_back}),
            jobs=row.jobs,
        )
        for row in shown
    )
    return Course(
        title=title,
        x=Axis(name=Sentence("weeks that are over") if over else Sentence("week"), scale=Scale.DATE),
        y=Axis(name=Sentence("jobs"), scale=Scale.COUNT, least=0.0),
        series=(
            Series(key="in", name=Sentence("taken in"), points=came),
            Series(key="out", name=Sentence("handed back"), points=left),
        ),
    )


def _stay(stay: Stay) -> list[Panel]:
    found = (
        ("median", Sentence("in the shop, half of them at most"), stay.median),
        ("ninth tenth", Sentence("in the shop, 9 of 10 at most"), stay.ninth_tenth),
        ("waiting median", Sentence("of it waiting, half of them at most"), stay.waiting_median),
        ("waiting ninth tenth", Sentence("of it waiting, 9 of 10 at most"), stay.waiting_ninth_tenth),
    )
    bars = []
    for key, name, days in found:
        if days is not None:
            shown = days_of(days)
            told = Sentence("{name}: {days}, of {n} jobs.", {"name": name, "days": shown, "n": stay.n})
            beside = Sentence("{value}", {"value": shown})
            bars.append(Bar(key=key, name=name, value=days, told=told, beside=beside))
    if not bars:
        return []
    axis = Axis(name=Sentence("days"), scale=Scale.DAYS, least=0.0)
    return [Bars(title=Sentence("How long jobs stay"), axis=axis, bars=tuple(bars))]


def _promises(promises: Promises) -> list[Panel]:
    all_jobs = promises.kept + promises.broken + promises.without
    if not all_jobs:
        return []
    found = (
        ("kept", Sentence("ready on the day promised"), promises.kept, ()),
        ("broken", Sentence("ready later than promised"), promises.broken, promises.broken_jobs),
        ("without", Sentence("without a promised day"), promises.without, ()),
    )
    bars = tuple(
        Bar(
            key=key,
            name=name,
            value=float(count),
            told=Sentence("{name}: {count} of {n} jobs.", {"name": name, "count": count, "n": all_jobs}),
            beside=Sentence("{value}", {"value": count}),
            jobs=jobs,
        )
        for key, name, count, jobs in found
    )
    axis = Axis(name=Sentence("jobs"), scale=Scale.COUNT, least=0.0)
    return [Bars(title=Sentence("Promised days"), axis=axis, bars=bars)]


def _age(row: AgeRow) -> Bar:
    if row.most is None:
        name = Sentence("{least} days and more", {"least": row.least})
    else:
        name = Sentence("{least} to {most} days", {"least": row.least, "most": row.most})
    return Bar(
        key=f"age {row.least}",
        name=name,
        value=float(row.count),
        told=Sentence("{name}: {jobs} in hand.", {"name": name, "jobs": jobs_counted(row.count)}),
        beside=Sentence("{value}", {"value": row.count}),
        jobs=row.jobs,
    )


def _hours(rows: Sequence[HoursRow]) -> Bars:
    order = sorted(rows, key=lambda row: (-row.hours, row.name))
    bars = tuple(
        Bar(
            key=f"hours {row.name}",
            name=row.name,
            value=float(row.hours),
            told=Sentence(
                "{name}: {hours} on {jobs}.",
                {"name": row.name, "hours": hours_of(row.hours), "jobs": jobs_counted(len(row.jobs))},
            ),
            beside=Sentence("{value}", {"value": hours_of(row.hours)}),
            jobs=row.jobs,
        )
        for row in order[:MOST_BARS]
    )
    return Bars(
        title=first_of(Sentence("Hours at work on jobs"), len(bars), len(order)),
        axis=Axis(name=Sentence("hours"), scale=Scale.NUMBER, least=0.0),
        bars=bars,
    )


def _turnover(rows: Sequence[MonthRow], last: date) -> Course:
    """Month by month; one without an invoice has nothing turned over and stands at 0, one not over yet waits."""
    net = {row.first: row.net for row in rows}
    currency = rows[0].net.currency
    months: list[date] = [min(net)]
    while months[-1] < max(net):
        months.append(month_of(months[-1], -1).first)
    over = months if month_of(months[-1]).last <= last else months[:-1]
    shown = over[-MOST_MONTHS:] or months
    title = Sentence("Turnover, month by month")
    if len(over) > len(shown):
        title = Sentence(
            "Turnover, the last {shown} of {all} months", {"shown": len(shown), "all": len(over)}
        )
    points = tuple(_month(first, net.get(first, Money(0, currency))) for first in shown)
    return Course(
        title=title,
        x=Axis(name=Sentence("months that are over") if over else Sentence("month"), scale=Scale.DATE),
        y=Axis(
            name=Sentence("turnover in {currency}, without VAT", {"currency": currency}),
            scale=Scale.NUMBER,
            least=0.0 if all(row.net.minor >= 0 for row in rows) else None,
        ),
        series=(Series(key="turnover", name=Sentence("turnover"), points=points),),
    )


def _month(first: date, net: Money) -> Point:
    return Point(
        key=f"month {first.isoformat()}",
        x=float(first.toordinal()),
        y=float(net.amount),
        told=Sentence("Month from {day}: {net} without VAT.", {"day": first, "net": net}),
    )
