"""The lists of the job sheet, each asked for with one or two statements."""

from __future__ import annotations

from collections import defaultdict
from decimal import Decimal

from sqlalchemy import or_, select
from sqlalchemy.orm import Session

from app.book.bench.catalogue import quantities
from app.book.bench.modification_facts import modifications_of as facts_of_modifications
from app.book.tables import (
    Instrument,
    Job,
    Modification,
    Reading,
    StartUpResult,
    Transport,
    Trial,
)
from app.trade.bench.circuit_ratio import circuit_ratios
from app.trade.bench.difference import difference
from app.trade.bench.kinds import HowSeen
from app.trade.bench.modification_words import effect_in_words, way_back, what_it_is
from app.trade.bench.units import UNITS
from app.trade.bench.verdict import VerdictWord
from app.trade.sentence import Measure, Sentence
from app.work.bench.job_sheet import (
    ModificationLine,
    ReadingLine,
    StartUpLine,
    TrialReading,
    TrialTile,
)
from app.work.bench.sheet_work import struck_of

Names = dict[int, str]


def start_ups_of(session: Session, job_id: int, staff: Names) -> tuple[StartUpLine, ...]:
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
            staff[row.by],
            struck_of(row, staff),
        )
        for row in session.scalars(
            select(StartUpResult)
            .where(StartUpResult.job_id == job_id)
            .order_by(StartUpResult.at, StartUpResult.id)
        )
    )


def readings_of(session: Session, job: Job, staff: Names) -> tuple[ReadingLine, ...]:
    """Readings, each beside the same transport's last value of an earlier job."""
    known = quantities(session)
    rows = session.scalars(
        select(Reading).where(Reading.job_id == job.id).order_by(Reading.at, Reading.id)
    ).all()
    instruments = {row.id: row.name for row in session.scalars(select(Instrument))} if rows else {}
    trials = dict(
        session.execute(select(Trial.id, Trial.number).where(Trial.job_id == job.id)).tuples().all()
    )
    last = _last_values(session, job, {row.transport_id for row in rows if row.transport_id is not None})
    lines = []
    for row in rows:
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
                read_with=instruments.get(row.instrument_id or 0, ""),
                instrument_overdue=row.instrument_overdue,
                moment=row.moment,
                trial_number=trials.get(row.trial_id or 0),
                trial_side=row.trial_side,
                conditions=_conditions(row),
                last=None if before is None else unit.to_shown(before),
                at=row.at,
                by=staff[row.by],
                struck=struck_of(row, staff),
            )
        )
    return tuple(lines)


def _last_values(session: Session, job: Job, transports: set[int]) -> dict[tuple[int, str, str], Decimal]:
    if not transports:
        return {}
    found: dict[tuple[int, str, str], Decimal] = {}
    for row in session.scalars(
        select(Reading)
        .where(
            Reading.transport_id.in_(transports),
            Reading.job_id != job.id,
            Reading.at < job.taken_in_at,
            Reading.struck_at.is_(None),
            Reading.digits.is_not(None),
        )
        .order_by(Reading.at)
    ):
        if row.digits is not None and row.transport_id is not None:
            found[(row.transport_id, row.quantity, row.detail)] = row.digits
    return found


def _conditions(row: Reading) -> str:
    parts = [row.disc, row.place]
    if row.warm_minutes is not None:
        parts.append(f"{row.warm_minutes} min")
    if row.room is not None:
        parts.append(f"{row.room} °C")
    return ", ".join(part for part in parts if part)


def trials_of(session: Session, job_id: int, staff: Names) -> tuple[TrialTile, ...]:
    """Trials with the readings before and after, and the modification each left inside."""
    rows = session.scalars(select(Trial).where(Trial.job_id == job_id).order_by(Trial.number)).all()
    if not rows:
        return ()
    ids = [row.id for row in rows]
    readings: dict[int, dict[tuple[str, str], dict[str, Reading]]] = defaultdict(lambda: defaultdict(dict))
    for reading in session.scalars(
        select(Reading)
        .where(Reading.trial_id.in_(ids), Reading.struck_at.is_(None))
        .order_by(Reading.at, Reading.id)
    ):
        readings[reading.trial_id or 0][(reading.quantity, reading.detail)][reading.trial_side] = reading
    rungs = {
        row.trial_id: row.rung
        for row in session.scalars(
            select(StartUpResult)
            .where(
                StartUpResult.trial_id.in_(ids),
                StartUpResult.trial_side == "after",
                StartUpResult.struck_at.is_(None),
                StartUpResult.seen == HowSeen.NORMAL_USE,
            )
            .order_by(StartUpResult.at)
        )
    }
    left = {
        row.trial_id: row.id
        for row in session.scalars(
            select(Modification).where(Modification.trial_id.in_(ids), Modification.struck_at.is_(None))
        )
    }
    known = quantities(session)
    return tuple(
        TrialTile(
            row.id,
            row.number,
            row.words,
            row.reference,
            tuple(
                _pair(known[quantity].named(detail) if quantity in known else Sentence(quantity), sides)
                for (quantity, detail), sides in readings[row.id].items()
            ),
            row.rung_before,
            row.rung_after if row.rung_after is not None else rungs.get(row.id),
            row.outcome,
            row.left,
            left.get(row.id),
            row.order_reason,
            row.note,
            row.at,
            staff[row.by],
            struck_of(row, staff),
        )
        for row in rows
    )


def _pair(name: Sentence, sides: dict[str, Reading]) -> TrialReading:
    before, after = sides.get("before"), sides.get("after")
    z = None
    if before and after and before.digits is not None and after.digits is not None:
        found = difference(before.digits, _u(before), after.digits, _u(after)).z
        z = None if found is None else float(found)
    return TrialReading(name, _measure(before), _measure(after), z)


def _u(row: Reading) -> Decimal:
    return Decimal(0) if row.uncertainty is None else Decimal(repr(row.uncertainty))


def _measure(row: Reading | None) -> Measure | None:
    if row is None or row.digits is None:
        return None
    return Measure(UNITS[row.unit].to_shown(row.digits), row.unit)


def modifications_of(
    session: Session, job: Job, transport: Transport | None, staff: Names
) -> tuple[ModificationLine, ...]:
    """Modifications of the unit and the transport in it, struck-out ones of this job too."""
    owned = [Modification.unit_id == job.unit_id, Modification.job_id == job.id]
    if transport is not None:
        owned.append(Modification.transport_id == transport.id)
    rows = session.execute(
        select(Modification, Job.number)
        .join(Job, Job.id == Modification.job_id)
        .where(or_(*owned))
        .order_by(Modification.at, Modification.id)
    ).all()
    facts = {
        fact.number: fact
        for fact in facts_of_modifications(
            session, job, job.unit_id, transport.id if transport else None, staff
        )
    }
    put_back = {row.reversed_job_id for row, _ in rows if row.reversed_job_id}
    reversed_in = dict(session.execute(select(Job.id, Job.number).where(Job.id.in_(put_back))).tuples().all())
    lines = []
    for row, number in rows:
        fact = facts.get(row.id)
        ratios = circuit_ratios([fact]) if fact else ()
        lines.append(
            ModificationLine(
                id=row.id,
                ours=row.ours,
                kind=row.kind,
                circuit=row.circuit,
                law=row.law,
                reference=row.reference,
                words=what_it_is(fact) if fact else Sentence("{where}", {"where": row.reference}),
                was=row.part_before,
                now=row.part_after,
                value_before=row.value_before,
                value_after=row.value_after,
                tolerance_before=row.tolerance_before,
                tolerance_after=row.tolerance_after,
                unit=row.unit,
                ratio=row.ratio,
                effect=effect_in_words(ratios[0]) if ratios else None,
                way_back=way_back(fact) if fact else Sentence("{way}", {"way": row.way_back}),
                why=row.why,
                agreed=fact.agreed if fact else "",
                named_on=fact.named_on if fact else "",
                assessed=row.assessed_words,
                in_transport=row.transport_id is not None,
                trial_id=row.trial_id,
                job_number=number,
                at=row.at,
                by=staff[row.by],
                reversed_at=row.reversed_at,
                reversed_in=reversed_in.get(row.reversed_job_id or 0),
                struck=struck_of(row, staff),
            )
        )
    return tuple(lines)
