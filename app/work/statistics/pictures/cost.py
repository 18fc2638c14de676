"""What comebacks cost, drawn: charges lost, hours and parts of guarantee work, and hours of jobs not repaired."""

from __future__ import annotations

from collections.abc import Callable

from app.trade.sentence import Sentence, Value
from app.trade.statistics.picture import Axis, Bar, Bars, Panel, Scale
from app.work.statistics.cost import Cost, CostRow, UnrepairedRow
from app.work.statistics.pictures.said_of_marks import MOST_BARS, first_of, hours_of, jobs_counted


def panels_of_cost(answer: Cost) -> tuple[Panel, ...]:
    """Charges lost first, the dearest group on top of each panel of guarantee work."""
    panels: list[Panel] = []
    if answer.rows:
        currency = {"currency": answer.rows[0].lost.currency}
        every = [
            _bars(
                answer,
                Sentence("Guarantee work: charges lost"),
                Sentence("lost charges in {currency}, without VAT", currency),
                lambda row: (float(row.lost.amount), Sentence("{value}", {"value": row.lost})),
            ),
            _bars(
                answer,
                Sentence("Guarantee work: hours"),
                Sentence("hours"),
                lambda row: (float(row.hours), Sentence("{value}", {"value": hours_of(row.hours)})),
            ),
            _bars(
                answer,
                Sentence("Guarantee work: what its parts cost the shop"),
                Sentence("cost of parts in {currency}, without VAT", currency),
                lambda row: (float(row.parts.amount), Sentence("{value}", {"value": row.parts})),
            ),
        ]
        panels += [panel for panel in every if any(bar.value for bar in panel.bars)]
    if any(row.median_hours for row in answer.unrepaired):
        panels.append(
            Bars(
                title=Sentence("Jobs not repaired: hours of the one in the middle"),
                axis=Axis(name=Sentence("hours"), scale=Scale.NUMBER, least=0.0),
                bars=tuple(_unrepaired(row) for row in answer.unrepaired),
            )
        )
    return tuple(panels)


def _bars(
    answer: Cost, title: Sentence, axis: Sentence, of: Callable[[CostRow], tuple[float, Sentence]]
) -> Bars:
    found = sorted(((*of(row), row) for row in answer.rows), key=lambda one: (-one[0], one[2].label))
    bars = tuple(
        Bar(key=row.label, name=row.name, value=value, told=_told(row), beside=beside, jobs=row.jobs)
        for value, beside, row in found[:MOST_BARS]
    )
    return Bars(
        title=first_of(title, len(bars), len(found)),
        axis=Axis(name=axis, scale=Scale.NUMBER, least=0.0),
        bars=bars,
    )


def _told(row: CostRow) -> Sentence:
    return Sentence(
        "{name}: {jobs} without charge, {hours}, parts for {parts}, {lost} not charged.",
        {
            "name": row.name,
            "jobs": jobs_counted(row.count),
            "hours": hours_of(row.hours),
            "parts": row.parts,
            "lost": row.lost,
        },
    )


def _unrepaired(row: UnrepairedRow) -> Bar:
    values: dict[str, Value] = {
        "outcome": Sentence(row.outcome.value),
        "jobs": jobs_counted(row.count),
        "hours": hours_of(row.hours),
        "median": hours_of(row.median_hours),
        "days": row.median_days,
    }
    return Bar(
        key=row.outcome,
        name=Sentence(row.outcome.value),
        value=float(row.median_hours),
        told=Sentence(
            "{outcome}: {jobs}, {hours} in all. Half took no more than {median} of work and {days} days in the shop.",
            values,
        ),
        beside=Sentence("{median}, {jobs}", values),
        jobs=row.jobs,
    )
