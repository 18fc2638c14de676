"""Panels to be painted: few and many groups, names as long as they may get, right-to-left letters."""

from __future__ import annotations

from dataclasses import replace

from app.trade.sentence import Sentence
from app.trade.statistics.picture import (
    Axis,
    Bar,
    Bars,
    Cell,
    Course,
    Curve,
    Curves,
    Grid,
    Ink,
    Picture,
    Point,
    Scale,
    Series,
)

LONG = "Überlängenlaufwerk mit Zusatz " * 10
HEBREW = "מנגנון 12"
SHARE = Axis(name=Sentence("share that came back"), scale=Scale.SHARE, least=0.0)
JOBS = Axis(name=Sentence("jobs"), scale=Scale.COUNT, least=0.0)
DAYS = Axis(name=Sentence("days since it was handed back"), scale=Scale.DAYS, least=0.0, most=360.0)
TIME = Axis(name=Sentence("week"), scale=Scale.DATE)
TOLD = Sentence("A mark.")


def bars(count=3, names=(), axis=SHARE, **more):
    made = tuple(
        Bar(
            key=str(at),
            name=names[at] if at < len(names) else f"Velk A{at}",
            value=0.4 / (at + 1),
            told=TOLD,
            beside=Sentence("{came} of {could}", {"came": at, "could": 50}),
            **more,
        )
        for at in range(count)
    )
    return Bars(title=Sentence("Came back within 180 days"), axis=axis, bars=made)


def rates(count=3, names=()):
    panel = bars(count, names)
    inks = (Ink.MORE, Ink.LESS, Ink.FAINT, Ink.PLAIN)
    made = tuple(
        replace(bar, low=bar.value * 0.7, high=bar.value * 1.4, other=0.1, ink=inks[at % 4])
        for at, bar in enumerate(panel.bars)
    )
    return replace(panel, bars=made)


def pareto(count=5):
    panel = bars(count, axis=JOBS)
    made = tuple(
        replace(bar, value=float(20 - at), reached=(at + 1) / count, ink=Ink.PLAIN)
        for at, bar in enumerate(panel.bars)
    )
    return replace(panel, bars=made)


def curve(at, name="", banded=True, **more):
    heights = (1.0, 0.9 - at * 0.05, 0.8 - at * 0.05)
    return Curve(
        key=str(at),
        name=name or f"Grellin S{at}",
        x=(0.0, 40.0 + at, 90.0),
        y=heights,
        until=330.0,
        told=TOLD,
        low=tuple(height * 0.9 for height in heights) if banded else (),
        high=tuple(min(1.0, height * 1.05) for height in heights) if banded else (),
        **more,
    )


def curves(count=2, names=(), at_risk=True, **more):
    marks = (0.0, 90.0, 180.0, 270.0, 360.0) if at_risk else ()
    made = tuple(
        curve(
            at,
            names[at] if at < len(names) else "",
            at_risk=tuple(1200 - 250 * place for place in range(5)) if at_risk else (),
            ink=Ink.FAINT if at == 1 else Ink.PLAIN,
        )
        for at in range(count)
    )
    return Curves(
        title=Sentence("Share of repairs that hold"),
        x=DAYS,
        y=Axis(name=Sentence("share that holds"), scale=Scale.SHARE, least=0.0, most=1.0),
        curves=made,
        marks=marks,
        risk_name=Sentence("still watched") if at_risk else None,
        **more,
    )


def course(count=1, points=12, limits=False, inks=(), **more):
    series = tuple(
        Series(
            key=str(at),
            name=f"Tirro A{at}",
            points=tuple(
                Point(
                    key=f"{at} {place}",
                    x=738_000.0 + 91 * place,
                    y=0.1 + 0.02 * ((place * (at + 3)) % 7),
                    told=TOLD,
                    low=0.05 if limits else None,
                    high=0.3 + 0.01 * (place % 2) if limits else None,
                    ink=inks[place % len(inks)] if inks else Ink.PLAIN,
                )
                for place in range(points)
            ),
        )
        for at in range(count)
    )
    y = Axis(name=Sentence("share that came back"), scale=Scale.SHARE, least=0.0)
    return Course(title=Sentence("Quarter by quarter"), x=TIME, y=y, series=series, **more)


def grid(rows=4, columns=5, names=()):
    return Grid(
        title=Sentence("Cures by the rung"),
        rows_are=Sentence("stopped at"),
        columns_are=Sentence("cured by"),
        rows=tuple(names[at] if at < len(names) else f"{12 - at} rung" for at in range(rows)),
        columns=tuple(f"cure {at} renewed" for at in range(columns)),
        cells=tuple(
            Cell(row=at % rows, column=at % columns, count=1 + 9 * at, told=TOLD)
            for at in range(min(rows, columns))
        ),
    )


def picture(*panels):
    return Picture(title=Sentence("One transport type comes back more often than the rest"), panels=panels)
