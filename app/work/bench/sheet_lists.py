"""The lists of the job sheet, each asked for with one or two statements."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from decimal import Decimal
from typing import Any

from sqlalchemy import bindparam, select

from app.book import tables
from app.book.bench.job_rows import JobRows
from app.book.bench.knowledge_data import knowledge_of
from app.book.bench.modification_facts import fact_of
from app.book.tables import Job
from app.trade.bench import modifications as trade
from app.trade.bench.circuit_ratio import circuit_ratios
from app.trade.bench.difference import difference
from app.trade.bench.kinds import HowSeen
from app.trade.bench.modification_words import effect_in_words, way_back, what_it_is
from app.trade.bench.quantities import Quantity
from app.trade.bench.units import UNITS
from app.trade.bench.verdict import Limit, VerdictWord
from app.trade.sentence import Measure, Sentence
from app.work.bench.live_ratio import FOLLOWS, modifications_followed, ratio_at
from app.work.bench.sheet_lines import ModificationLine, ReadingLine, StartUpLine, TrialReading, TrialTile
from app.work.bench.sheet_work import struck_of
from app.work.bench.worked_out import as_if_made

_READINGS = tables.metadata.tables["readings"].c
LAST_VALUES = (
    select(_READINGS.transport_id, _READINGS.quantity, _READINGS.detail, _READINGS.digits)
    .where(
        _READINGS.transport_id.in_(bindparam("transports", expanding=True)),
        _READINGS.job_id != bindparam("job"),
        _READINGS.at < bindparam("before"),
        _READINGS.struck_at.is_(None),
        _READINGS.digits.is_not(None),
    )
    .order_by(_READINGS.at)
)


def start_ups_of(rows: JobRows) -> tuple[StartUpLine, ...]:
    """Climbs of the ladder."""
    return tuple(
        StartUpLine(
            row.id,
            row.rung,
            row.seen,
            row.tries,
            row.stopped_in,
            row.error_shown,
            row.disc,
            row.warmth,
            row.warm_minutes,
            row.room,
            row.moment,
            row.note,
            row.at,
            rows.staff[row.by],
            struck_of(row, rows.staff),
        )
        for row in rows.start_ups
    )


def readings_of(rows: JobRows) -> tuple[ReadingLine, ...]:
    """Readings, each beside the same transport's last value of an earlier job."""
    known, instruments = rows.quantities, rows.instruments if rows.readings else {}
    trials = {row.id: row.number for row in rows.trials}
    last = _last_values(rows)
    changes = _changes_followed(rows)
    lines = []
    for row in rows.readings:
        unit, quantity = UNITS[row.unit], known.get(row.quantity)
        before = last.get((row.transport_id or 0, row.quantity, row.detail))
        lines.append(
            ReadingLine(
                id=row.id,
                quantity=row.quantity,
                name=quantity.named(row.detail)
                if quantity
                else Sentence("{id}", {"id": f"{row.quantity} {row.detail}".strip()}),
                detail=row.detail,
                value=None if row.digits is None else unit.to_shown(row.digits),
                bound=row.bound,
                uncertainty=None
                if row.uncertainty is None
                else unit.to_shown(Decimal(repr(row.uncertainty))),
                unit=row.unit,
                low=None if row.limit_low is None else unit.to_shown(row.limit_low),
                high=None if row.limit_high is None else unit.to_shown(row.limit_high),
                limit_source=row.limit_source,
                verdict=VerdictWord(row.verdict) if row.verdict else None,
                probability=row.probability,
                read_with=instruments[row.instrument_id].name if row.instrument_id else "",
                instrument_overdue=row.instrument_overdue,
                moment=row.moment,
                trial_number=trials.get(row.trial_id or 0),
                trial_side=row.trial_side,
                conditions=_conditions(row),
                last=None if before is None else unit.to_shown(before),
                at=row.at,
                by=rows.staff[row.by],
                struck=struck_of(row, rows.staff),
                warm_minutes=row.warm_minutes,
                room=row.room,
                seconds=row.seconds,
                as_made=_as_made(row, quantity, changes.get(row.transport_id, ())),
            )
        )
    return tuple(lines)


def _changes_followed(rows: JobRows) -> dict[int | None, Sequence[Any]]:
    """By transport, the modifications that move one of these readings by themselves."""
    read = {row.transport_id for row in rows.readings if row.quantity in FOLLOWS}
    return {one: modifications_followed(rows.session, rows.job.unit_id, one) for one in read}


def _as_made(row: Any, quantity: Quantity | None, changes: Sequence[Any]) -> Sentence | None:
    """The verdict of a drive read on a changed circuit at the maker's value, by the limit of that day."""
    if quantity is None or not changes or not row.verdict or row.uncertainty is None:
        return None
    ratio = ratio_at(changes, row.quantity, row.at)
    limit = Limit(row.limit_low, row.limit_high)
    return as_if_made(quantity, row.digits, Decimal(repr(row.uncertainty)), ratio, limit)


def _last_values(rows: JobRows) -> dict[tuple[int, str, str], Decimal]:
    transports = {row.transport_id for row in rows.readings if row.transport_id is not None}
    if not transports:
        return {}
    found = rows.session.connection().execute(
        LAST_VALUES, {"transports": list(transports), "job": rows.job.id, "before": rows.job.taken_in_at}
    )
    return {(row.transport_id, row.quantity, row.detail): row.digits for row in found}


def _conditions(row: Any) -> str:
    return ", ".join(part for part in (row.disc, row.place) if part)


def trials_of(rows: JobRows) -> tuple[TrialTile, ...]:
    """Trials with the readings before and after, and the modification each left inside."""
    readings: dict[int, dict[tuple[str, str], dict[str, Any]]] = defaultdict(lambda: defaultdict(dict))
    for reading in rows.readings:
        if reading.trial_id is not None and reading.struck_at is None:
            readings[reading.trial_id][(reading.quantity, reading.detail)][reading.trial_side] = reading
    rungs = {
        row.trial_id: row.rung
        for row in rows.start_ups
        if row.trial_side == "after" and row.struck_at is None and row.seen is HowSeen.NORMAL_USE
    }
    left = {row.trial_id: row.id for row in rows.modifications if row.struck_at is None}
    known = rows.quantities
    return tuple(
        TrialTile(
            row.id,
            row.number,
            row.words,
            row.reference,
            tuple(
                _pair(
                    known[quantity].named(detail) if quantity in known else Sentence(quantity),
                    sides.get("before") or _before(rows, quantity, detail, row),
                    sides.get("after"),
                )
                for (quantity, detail), sides in readings[row.id].items()
            ),
            row.rung_before,
            row.rung_after if row.rung_after is not None else rungs.get(row.id),
            row.outcome,
            row.left,
            bool(row.came_back),
            left.get(row.id),
            row.order_reason,
            row.note,
            row.at,
            rows.staff[row.by],
            struck_of(row, rows.staff),
            _suspect(rows, row.suspect) if row.suspect else None,
            row.proposed,
            row.change,
        )
        for row in rows.trials
    )


def _suspect(rows: JobRows, suspect: str) -> Sentence:
    known = knowledge_of(rows.session).ladder.suspects
    return known[suspect].name if suspect in known else Sentence("{id}", {"id": suspect})


def _before(rows: JobRows, quantity: str, detail: str, trial: Any) -> Any:
    """Where nothing was read for this trial alone, the last reading before it stands as its before."""
    last = [
        row
        for row in rows.readings
        if row.quantity == quantity and row.detail == detail and row.struck_at is None
        if row.at <= trial.at and row.trial_id != trial.id
    ]
    return last[-1] if last else None


def _pair(name: Sentence, before: Any, after: Any) -> TrialReading:
    z = None
    if before and after and before.digits is not None and after.digits is not None:
        found = difference(before.digits, _u(before), after.digits, _u(after)).z
        z = None if found is None else float(found)
    return TrialReading(name, _measure(before), _measure(after), z)


def _u(row: Any) -> Decimal:
    return Decimal(0) if row.uncertainty is None else Decimal(repr(row.uncertainty))


def _measure(row: Any) -> Measure | None:
    if row is None or row.digits is None:
        return None
    return Measure(UNITS[row.unit].to_shown(row.digits), row.unit)


def modifications_of(rows: JobRows, inside: tuple[trade.Modification, ...]) -> tuple[ModificationLine, ...]:
    """Modifications of the unit and the transport in it; of this job the struck-out and moved ones too."""
    facts = {fact.number: fact for fact in inside}
    put_back = {row.reversed_job_id for row in rows.modifications if row.reversed_job_id}
    reversed_in = _numbers(rows, put_back)
    lines = []
    for row in rows.modifications:
        fact = facts.get(row.id) or fact_of(row, row.job_number, "", "", rows.staff)
        ratios = circuit_ratios([fact])
        lines.append(
            ModificationLine(
                id=row.id,
                ours=row.ours,
                kind=row.kind,
                circuit=row.circuit,
                law=row.law,
                reference=row.reference,
                words=what_it_is(fact),
                was=row.part_before,
                now=row.part_after,
                value_before=row.value_before,
                value_after=row.value_after,
                tolerance_before=row.tolerance_before,
                tolerance_after=row.tolerance_after,
                unit=row.unit,
                ratio=row.ratio,
                effect=effect_in_words(ratios[0]) if ratios else None,
                way_back=way_back(fact),
                why=row.why,
                agreed=fact.agreed,
                named_on=fact.named_on,
                assessed=row.assessed_words,
                in_transport=row.transport_id is not None,
                trial_id=row.trial_id,
                job_number=row.job_number,
                at=row.at,
                by=rows.staff[row.by],
                reversed_at=row.reversed_at,
                reversed_in=reversed_in.get(row.reversed_job_id or 0),
                struck=struck_of(row, rows.staff),
                reversed_by_trial=row.reversed_trial_id,
            )
        )
    return tuple(lines)


def _numbers(rows: JobRows, jobs: set[int]) -> dict[int, int]:
    if not jobs:
        return {}
    return dict(rows.session.execute(select(Job.id, Job.number).where(Job.id.in_(jobs))).all())
