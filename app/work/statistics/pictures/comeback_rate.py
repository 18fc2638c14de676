"""Comeback rates drawn: a bar for each group with its interval, and a diamond at the share of all others."""

from __future__ import annotations

from collections.abc import Sequence

from app.trade.sentence import Sentence, Value
from app.trade.statistics.comeback_rates import Verdict, per_cent, shown_p
from app.trade.statistics.picture import Axis, Bar, Bars, Ink, Panel, Scale
from app.work.statistics.comeback_rate import ComebackRates, RateRow
from app.work.statistics.pictures.said_of_marks import MOST_BARS, first_of, together

_INKS = {Verdict.MORE_OFTEN: Ink.MORE, Verdict.LESS_OFTEN: Ink.LESS, Verdict.TOO_FEW: Ink.FAINT}


NOT_YET = Sentence("none can be counted yet")


def panels_of_comeback_rate(answer: ComebackRates) -> tuple[Panel, ...]:
    """One panel, the group with the highest lower end on top."""
    if not answer.rows:
        return ()
    days, rows = answer.question.window, _chosen(answer.rows)
    return (
        Bars(
            title=first_of(
                Sentence("Came back within {days} days", {"days": days}), len(rows), len(answer.rows)
            ),
            axis=Axis(name=Sentence("share that came back"), scale=Scale.SHARE, least=0.0),
            bars=tuple(_bar(row, days) for row in rows),
        ),
    )


def _chosen(rows: Sequence[RateRow]) -> tuple[RateRow, ...]:
    """As many as can be looked at, in their order: those that stand out before those that cannot be told."""
    order = sorted(
        range(len(rows)), key=lambda at: (_INKS.get(rows[at].verdict) not in (Ink.MORE, Ink.LESS), at)
    )
    return tuple(rows[at] for at in sorted(order[:MOST_BARS]))


def _bar(row: RateRow, days: int) -> Bar:
    if row.share is None:
        none = Sentence(
            "{name}: none of {n} handed back can be counted yet.", {"name": row.name, "n": row.handed_back}
        )
        return Bar(
            key=row.label, name=row.name, value=None, told=none, beside=NOT_YET, ink=Ink.FAINT, jobs=row.jobs
        )
    counts = {"name": row.name, "came": row.came_back, "could": row.could, "share": per_cent(row.share)}
    told = Sentence(
        "{name}: {came} of {could} came back within {days} days, {share} (95 % interval {low} to {high}).",
        {**counts, "days": days, "low": per_cent(row.low), "high": per_cent(row.high)},
    )
    if row.rest_share is not None:
        told = together(told, Sentence("All others: {share}.", {"share": per_cent(row.rest_share)}))
    return Bar(
        key=row.label,
        name=row.name,
        value=row.share,
        told=together(told, _verdict(row)),
        low=row.low,
        high=row.high,
        other=row.rest_share,
        beside=_beside(row),
        ink=_INKS.get(row.verdict, Ink.PLAIN),
        jobs=row.jobs,
    )


def _beside(row: RateRow) -> Sentence:
    assert row.share is not None
    values: dict[str, Value] = {"share": per_cent(row.share), "came": row.came_back, "could": row.could}
    if row.verdict is Verdict.MORE_OFTEN:
        return Sentence("{share}, {came} of {could}, more often", values)
    if row.verdict is Verdict.LESS_OFTEN:
        return Sentence("{share}, {came} of {could}, less often", values)
    return Sentence("{share}, {came} of {could}", values)


def _verdict(row: RateRow) -> Sentence:
    p = {"p": shown_p(row.adjusted)}
    match row.verdict:
        case Verdict.MORE_OFTEN:
            return Sentence("It comes back more often than the rest (adjusted p {p}).", p)
        case Verdict.LESS_OFTEN:
            return Sentence("It comes back less often than the rest (adjusted p {p}).", p)
        case Verdict.TOO_FEW:
            return Sentence("That is too few to say more.")
        case Verdict.NO_REST:
            return Sentence("There is no other group to compare it with.")
    return Sentence("It cannot be told from the rest (adjusted p {p}).", p)
