"""Pictures made up for the painters: few marks, every feature once."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

import pytest
from pytestqt.qtbot import QtBot

from app.screens.kit.plots.kinds import view_of
from app.screens.kit.plots.panel import PanelView
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
    Panel,
    Point,
    Scale,
    Series,
)

SHARE = Axis(name=Sentence("share that came back"), scale=Scale.SHARE, least=0)


def bar(name: str, value: float | None, ink: Ink = Ink.PLAIN, *, jobs: tuple[int, ...] = (7, 8)) -> Bar:
    """A bar with an interval and a diamond, where it has a value."""
    there = value is not None
    return Bar(
        key=name,
        name=name,
        value=value,
        told=Sentence("{name} is told.", {"name": name}),
        low=value / 2 if there else None,
        high=min(value * 1.6, 1.0) if there else None,
        other=0.1 if there else None,
        beside=Sentence("{n} of 33", {"n": 9}) if there else None,
        ink=ink,
        jobs=jobs if there else (),
    )


BARS = Bars(
    title=Sentence("Came back within 180 days"),
    axis=SHARE,
    bars=(
        bar("Ponnik S5", 0.27, Ink.MORE),
        bar("Velk A1", 0.14),
        bar("Murn A7", 0.14, Ink.FAINT),
        bar("Grellin S3", 0.04, Ink.LESS),
        bar("nothing yet", None),
    ),
)


def curve(name: str, *ys: float, ink: Ink = Ink.PLAIN) -> Curve:
    """A curve that begins at 1 and steps to each of ``ys`` every 100 days."""
    y = (1.0, *ys)
    return Curve(
        key=name,
        name=name,
        x=tuple(100.0 * i for i in range(len(y))),
        y=y,
        until=100.0 * len(y),
        told=Sentence("{name} as a whole.", {"name": name}),
        low=tuple(v - 0.05 for v in y),
        high=tuple(min(v + 0.05, 1.0) for v in y),
        at_risk=(40, 20, 5),
        ink=ink,
        jobs=(1, 2),
    )


CURVES = Curves(
    title=Sentence("How long repairs last"),
    x=Axis(name=Sentence("days since it was handed back"), scale=Scale.DAYS, least=0),
    y=Axis(name=Sentence("share that holds"), scale=Scale.SHARE, least=0, most=1),
    curves=(curve("Velk A1", 0.9, 0.8, 0.7), curve("Ponnik S5", 0.7, 0.5, 0.4)),
    marks=(0.0, 150.0, 350.0),
    risk_name=Sentence("still watched"),
    guide=180.0,
    guide_name=Sentence("window"),
)


def quarter(at: int, y: float, ink: Ink = Ink.PLAIN) -> Point:
    """A quarter of a chart with limits."""
    day = date(2024 + at // 4, 1 + at % 4 * 3, 15)
    return Point(
        key=f"q{at}",
        x=float(day.toordinal()),
        y=y,
        told=Sentence("Quarter {n} is told.", {"n": at}),
        low=0.02,
        high=0.2 + 0.01 * at,
        ink=ink,
        jobs=(at,),
    )


COURSE = Course(
    title=Sentence("Quarter by quarter"),
    x=Axis(name=Sentence("quarter of handing back"), scale=Scale.DATE),
    y=SHARE,
    series=(
        Series(
            key="all",
            name="share that came back",
            points=(
                quarter(0, 0.1),
                quarter(1, 0.3, Ink.MORE),
                quarter(2, 0.12, Ink.FAINT),
                quarter(3, 0.0, Ink.LESS),
                quarter(4, 0.11),
            ),
        ),
    ),
    centre=0.12,
    centre_name=Sentence("all together"),
)

GRID = Grid(
    title=Sentence("Where it stopped and what cured it"),
    rows_are=Sentence("stopped at"),
    columns_are=Sentence("cured by"),
    rows=("3 focus", "4 spindle"),
    columns=("lens cleaned", "laser renewed", "sled greased"),
    cells=(
        Cell(row=1, column=0, count=2, told=Sentence("two"), jobs=(4,)),
        Cell(row=0, column=0, count=9, told=Sentence("nine"), jobs=(1, 2)),
        Cell(row=0, column=2, count=0, told=Sentence("none")),
    ),
)

Shown = Callable[..., PanelView]


@pytest.fixture
def shown(qtbot: QtBot) -> Shown:
    """Shows a panel as wide as the page beside a margin, or as asked."""

    def show(panel: Panel, width: int = 838) -> PanelView:
        view = view_of(panel, 0)
        qtbot.addWidget(view)
        view.resize(width, view.heightForWidth(width))
        view.show()
        return view

    return show
