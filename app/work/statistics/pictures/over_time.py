"""Better or worse over time, drawn: quarters as dots between the limits within which chance alone moves them."""

from __future__ import annotations

from app.trade.calendar.period import MONTHS_OF_A_QUARTER
from app.trade.sentence import Sentence
from app.trade.statistics.comeback_rates import FEWEST, per_cent
from app.trade.statistics.picture import Axis, Course, Ink, Panel, Point, Scale, Series
from app.work.statistics.over_time import OverTime, QuarterRow
from app.work.statistics.pictures.said_of_marks import together


def panels_over_time(answer: OverTime) -> tuple[Panel, ...]:
    """One panel; a quarter without a repair leaves a gap."""
    points = tuple(_point(row, row.share) for row in answer.rows if row.share is not None)
    if not points or answer.centre is None:
        return ()
    centre = Sentence("all quarters together: {share}", {"share": per_cent(answer.centre, 1)})
    return (
        Course(
            title=Sentence(
                "Came back within {days} days, quarter by quarter", {"days": answer.question.window}
            ),
            x=Axis(
                name=Sentence("quarter of handing back"),
                scale=Scale.DATE,
                least=float(answer.rows[0].first.toordinal()),
                most=float(answer.rows[-1].last.toordinal() + 1),
            ),
            y=Axis(name=Sentence("share that came back"), scale=Scale.SHARE, least=0.0),
            series=(Series(key="quarters", name=Sentence("share that came back"), points=points),),
            centre=answer.centre,
            centre_name=centre,
        ),
    )


def _point(row: QuarterRow, share: float) -> Point:
    quarter = Sentence(
        "Quarter {number} of {year}",
        {"number": (row.first.month - 1) // MONTHS_OF_A_QUARTER + 1, "year": row.first.year},
    )
    told = Sentence(
        "{quarter}: {came} of {could} came back, {share}; chance alone moves it from {low} to {high}.",
        {
            "quarter": quarter,
            "came": row.came_back,
            "could": row.could,
            "share": per_cent(share),
            "low": per_cent(row.low),
            "high": per_cent(row.high),
        },
    )
    ink = Ink.FAINT if row.could < FEWEST else Ink.PLAIN
    if row.outside:
        above = share > row.high
        ink = Ink.MORE if above else Ink.LESS
        told = together(
            told,
            Sentence("It lies above the limits.") if above else Sentence("It lies below the limits."),
        )
    return Point(
        key=row.first.isoformat(),
        x=(row.first.toordinal() + row.last.toordinal()) / 2,
        y=share,
        told=told,
        low=row.low,
        high=row.high,
        ink=ink,
        jobs=row.jobs,
    )
