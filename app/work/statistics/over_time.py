"""Better or worse over time: quarterly comeback rates on a p-chart, and trend tests over the repairs in their order."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from app.book.door import Book
from app.trade.calendar.period import quarter_of
from app.trade.sentence import Sentence
from app.trade.statistics.comeback_rates import FEWEST, LEVEL, shown_p
from app.trade.statistics.comebacks import Standing
from app.trade.statistics.control_chart import p_chart
from app.trade.statistics.growth import PowerLaw, TrendTest, laplace, military_handbook, power_law
from app.trade.statistics.proportions import holm
from app.work.statistics.answer import HOLM, Answer, Why, nothing_found, set_aside
from app.work.statistics.ground import ground_of
from app.work.statistics.question import Question
from app.work.statistics.steps import Step, Steps

if TYPE_CHECKING:
    from app.work.statistics.ground import Marks, Whole

OF = 12  # parts of the work, as they are told where nothing was kept


@dataclass(frozen=True, slots=True)
class QuarterRow:
    """One quarter of handing back, with its share (None without a repair) and the chart's limits for its number."""

    first: date
    last: date
    could: int
    came_back: int
    share: float | None
    low: float
    high: float
    outside: bool
    jobs: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class OverTime(Answer):
    """The quarters in order and the trend tests; None where no repair came back. ``adjusted`` are Holm's p of the two
    tests, Laplace's first. Time is counted in repairs: the k-th repair that came back stands at k - 1/2 of n."""

    rows: tuple[QuarterRow, ...]
    centre: float | None
    laplace: TrendTest | None
    military_handbook: TrendTest | None
    adjusted: tuple[float, ...]
    power_law: PowerLaw | None


def over_time(book: Book, question: Question, step: Step | None = None) -> OverTime:
    """Whether comebacks become more or fewer as repairs go on."""
    import numpy as np

    steps = Steps(step, OF)
    ground = ground_of(book, question, steps)
    steps.next()
    came = ground.stand(Standing.CAME_BACK)
    watched = np.flatnonzero(came | ground.stand(Standing.HELD))
    repairs = watched[np.lexsort((ground.job[watched], ground.left[watched]))]
    came = came[repairs]
    steps.next()
    rows, centre = _quarters(ground.left[repairs], ground.job[repairs], came)
    places = (np.flatnonzero(came) + 0.5).tolist()
    n = float(max(len(repairs), 1))
    tests = tuple(test for test in (laplace(places, n), military_handbook(places, n)) if test is not None)
    adjusted = tuple(holm([test.p for test in tests]))
    steps.next()
    outside = sum(row.outside for row in rows)
    said = [
        Sentence(
            "Only repairs watched for {days} days count; the youngest quarters wait.",
            {"days": question.window},
        )
    ]
    if outside == 1:
        said.append(Sentence("1 quarter lies outside the limits of the chart."))
    elif outside:
        said.append(Sentence("{count} quarters lie outside the limits of the chart.", {"count": outside}))
    return OverTime(
        question=question,
        headline=_headline(len(repairs), tests, adjusted)
        if rows
        else nothing_found(ground.first is not None),
        said=(*said, *question.definition.sentences(), *set_aside(ground.wrong)),
        why=Why(
            n=len(repairs),
            counted=Sentence("repairs watched for {days} days", {"days": question.window}),
            events=len(places),
            events_are=Sentence("came back"),
            method=(
                Sentence("Quarters on a p-chart with limits of three sigma."),
                Sentence(
                    "Laplace's test and that of MIL-HDBK-189, with repairs in their order in place of time, so that a "
                    "busier shop is not taken for a worse one; Holm's correction over both."
                ),
            ),
            source=(
                "NIST/SEMATECH e-Handbook 6.3.3.2 and 8.2.3.4",
                "D. R. Cox, P. A. W. Lewis, The Statistical Analysis of Series of Events (1966)",
                "MIL-HDBK-189 (1981)",
                HOLM,
            ),
        ),
        rows=rows,
        centre=centre,
        laplace=tests[0] if tests else None,
        military_handbook=tests[1] if tests else None,
        adjusted=adjusted,
        power_law=power_law(places, n),
    )


def _quarters(left: Whole, jobs: Whole, came: Marks) -> tuple[tuple[QuarterRow, ...], float | None]:
    """Every quarter from the first day of handing back to the last, those without a repair too; all in order of day."""
    import numpy as np

    if not len(left):
        return (), None
    periods, day = [], date.fromordinal(int(left[0]))
    while day.toordinal() <= left[-1]:
        periods.append(quarter_of(day))
        day = quarter_of(day, -1).first
    ends = np.searchsorted(left, [period.last.toordinal() for period in periods], side="right").tolist()
    parts = [slice(begun, end) for begun, end in zip((0, *ends), ends, strict=False)]
    chart = p_chart([(int(came[part].sum()), part.stop - part.start) for part in parts])
    rows = tuple(
        QuarterRow(
            period.first,
            period.last,
            point.n,
            point.x,
            point.share,
            point.low,
            point.high,
            point.outside,
            tuple(jobs[part].tolist()),
        )
        for period, point, part in zip(periods, chart.points, parts, strict=True)
    )
    return rows, chart.centre


def _headline(count: int, tests: tuple[TrendTest, ...], adjusted: tuple[float, ...]) -> Sentence:
    if count < FEWEST:
        return Sentence("Too few repairs to show a trend")
    if not tests:
        return Sentence("No repair came back")
    p, test = min(zip(adjusted, tests, strict=True), key=lambda one: one[0])
    if p >= LEVEL:
        return Sentence("No trend shown")
    if test.rising:
        return Sentence("Repairs come back more often as time goes on (p {p})", {"p": shown_p(p)})
    return Sentence("Repairs come back less often as time goes on (p {p})", {"p": shown_p(p)})
