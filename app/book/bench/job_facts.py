"""Fills the facts that the rules ask for, from the rows of one job, its unit and the transport in it."""

from __future__ import annotations

from collections import Counter
from datetime import date
from decimal import Decimal
from typing import Any
from zoneinfo import ZoneInfo

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book.bench.job_rows import JobRows, Rows
from app.book.bench.modification_facts import modifications_of
from app.book.bench.safety_facts import case_events_of, safety_tests_of
from app.book.office.job_lines import balance, work_so_far
from app.book.office.shop_settings import settings_of
from app.book.tables import Job, Modification, Trial
from app.trade.bench.facts import (
    Answer,
    AskedFact,
    ComebackFact,
    DiscFact,
    InstrumentFact,
    JobFacts,
    OtherTypeFact,
    ReadingFact,
    TrialFact,
    UnsafeReturn,
)
from app.trade.bench.kinds import ComebackStanding, HowSeen, TransitLock
from app.trade.bench.stages import Moment
from app.trade.bench.units import UNITS, Unit
from app.trade.bench.verdict import VerdictWord
from app.trade.calendar.promise import local_day
from app.trade.money import Money
from app.trade.sentence import Measure, Sentence
from app.trade.settings.papers_and_days import TIME_ZONE
from app.trade.settings.prices import CURRENCY

RUNG_OF_POWER = 1  # a quantity that needs this rung or a higher one was read with the power on
# Readings that speak of the transport itself: once it is out, they say nothing of the next one.
OF_THE_TRANSPORT = frozenset(
    {"laser_current", "laser_label", "laser_rel", "optical_power", "focus_coil_r", "radial_coil_r"}
)


def facts_of(
    session: Session, job: Job, today: date, rows: JobRows | None = None, *, gates: bool = True
) -> JobFacts:
    """Everything the rules need of one job, as the book has it inside this transaction.

    ``gates`` False leaves out what only gates look at (the case, the climbs, the owner's decision): the rules
    are asked in every action.
    """
    rows = rows or JobRows(session, job)
    taken, instruments = readings_of(rows, today)
    readings = [fact for fact, transport in taken if speaks(fact, transport, rows.transport_id)]
    fitted = rows.fitted
    lock = transit_lock_of(job, fitted)
    climbs = rows.start_ups if gates or lock is not TransitLock.NONE else ()
    results = [row for row in climbs if row.struck_at is None]
    return JobFacts(
        number=job.number,
        today=today,
        stage=job.stage,
        taken_in=job.taken_in_at,
        outcome=job.outcome,
        mains_class=rows.unit.mains_class,
        powered=bool(results) or any(powered_by(rows, reading) for reading, _ in taken),
        rung_arrival=_rung(results, Moment.ARRIVAL),
        rung_final=_rung(results, Moment.FINAL),
        modifications=modifications_of(rows),
        readings=tuple(readings),
        trials=trials_of(rows),
        parts_fitted=len(rows.part_moves),
        laser_label=label_of(fitted),
        case_events=case_events_of(rows) if gates else (),
        safety_tests=safety_tests_of(rows),
        other_types=other_types_of(fitted),
        instruments=tuple(instruments),
        asked=asked_for(rows),
        discs=discs_in(rows.things if rows.has("discs") else ()),
        transit_lock=lock,
        by_post=job.goes_by_post,
        comeback=comeback_of(session, job),
        agreed=agreed_amount(rows),
        work_so_far=work_so_far(rows),
        balance=balance(rows),
        finals_wanted=_finals_wanted(rows, [reading for reading, _ in taken]),
        finals_reason=job.finals_waived_reason,
        answers=answers_of(rows),
        unsafe_return=_unsafe_return(rows) if gates else None,
    )


def label_of(fitted: Any) -> Measure | None:
    """The current printed on the transport that is in there."""
    label = fitted.label_current if fitted is not None else None
    return None if label is None else Measure(_shown(label, UNITS["mA"]), "mA")


def speaks(reading: ReadingFact, of: int | None, inside: int | None) -> bool:
    """Whether a reading of this transport says something about the player as it is now."""
    return of is None or of == inside or reading.quantity not in OF_THE_TRANSPORT


def readings_of(
    rows: JobRows, today: date
) -> tuple[list[tuple[ReadingFact, int | None]], list[InstrumentFact]]:
    """Readings with the transport that each was taken of, and the instruments that are past their date."""
    facts: list[tuple[ReadingFact, int | None]] = []
    used: Counter[int] = Counter()
    for row in rows.readings:
        if row.struck_at is not None:
            continue
        if row.instrument_id is not None and row.verdict:
            used[row.instrument_id] += 1
        if row.digits is None:
            continue  # an open circuit has no number for the rules to weigh
        quantity, unit = rows.quantities.get(row.quantity), UNITS[row.unit]
        u = Decimal(0) if row.uncertainty is None else unit.to_shown(Decimal(repr(row.uncertainty)))
        fact = ReadingFact(
            quantity=row.quantity,
            name=quantity.name if quantity else Sentence("{id}", {"id": row.quantity}),
            value=Measure(_shown(row.digits, unit), row.unit),
            moment=row.moment,
            at=row.at,
            u=u,
            low=None if row.limit_low is None else _shown(row.limit_low, unit),
            high=None if row.limit_high is None else _shown(row.limit_high, unit),
            verdict=VerdictWord(row.verdict) if row.verdict else None,
            within=None if row.probability is None else Decimal(repr(row.probability)),
            must=row.limit_must,
            place=row.detail,
            warm_minutes=row.warm_minutes,
            room=row.room,
        )
        facts.append((fact, row.transport_id))
    overdue = [
        InstrumentFact(row.name, row.due_on, used[row.id])
        for row in (rows.instruments[key] for key in used)
        if row.due_on is not None and row.due_on < today
    ]
    return facts, overdue


def _shown(value: Decimal, unit: Unit) -> Decimal:
    shown = unit.to_shown(value)
    return shown.quantize(Decimal(1)) if shown == shown.to_integral() else shown.normalize()


def powered_by(rows: JobRows, reading: ReadingFact) -> bool:
    """Whether the reading was taken with the power on."""
    quantity = rows.quantities.get(reading.quantity)
    return quantity is not None and quantity.needs >= RUNG_OF_POWER


def _rung(results: list[Any], moment: Moment) -> int | None:
    seen = [row for row in results if row.moment is moment and row.seen is HowSeen.NORMAL_USE]
    return seen[-1].rung if seen else None


def asked_for(rows: JobRows) -> tuple[AskedFact, ...]:
    """Unsafe things that the customer asked for."""
    return tuple(AskedFact(row.id, row.what, row.refused_at is not None) for row in rows.requests)


def discs_in(things: Rows) -> tuple[DiscFact, ...]:
    """The discs among what came with the player."""
    return tuple(
        DiscFact(row.id, row.words, row.returned_at is not None) for row in things if row.kind == "disc"
    )


def trials_of(rows: JobRows) -> tuple[TrialFact, ...]:
    """Trials of the job that are not struck out."""
    read_before = {
        row.trial_id for row in rows.readings if row.trial_side == "before" and row.struck_at is None
    }
    return tuple(
        TrialFact(
            number=row.number,
            change=row.change,
            at=row.at,
            trimmer=row.reference if row.change.endswith("_set") else "",
            reading_before=row.id in read_before,
        )
        for row in rows.trials
        if row.struck_at is None
    )


def other_types_of(fitted: Any) -> tuple[OtherTypeFact, ...]:
    """A transport of another type than belongs in the unit."""
    if fitted is None or fitted.as_maker:
        return ()
    chosen = fitted.label_current is not None
    return (OtherTypeFact("transport", fitted.name, fitted.belongs_type, chosen, in_transport=False),)


def transit_lock_of(job: Job, fitted: Any) -> TransitLock:
    """The state of the transit lock; none where the type has none."""
    if job.transit_lock is TransitLock.NOT_LOOKED and (fitted is None or not fitted.has_transit_lock):
        return TransitLock.NONE
    return job.transit_lock


def comeback_of(session: Session, job: Job) -> ComebackFact | None:
    """The job that this one is a comeback of, unless that was denied."""
    if job.comeback_of_id is None or job.comeback is ComebackStanding.DENIED:
        return None
    former = session.get_one(Job, job.comeback_of_id)
    if former.handed_back_at is None:
        return None
    zone = ZoneInfo(settings_of(session)[TIME_ZONE])
    helped = session.scalars(
        select(Trial.words)
        .where(Trial.job_id == former.id, Trial.struck_at.is_(None), Trial.outcome.in_(("cured", "better")))
        .order_by(Trial.number.desc())
    ).first()
    left = session.scalars(
        select(Modification.id).where(
            Modification.job_id == former.id,
            Modification.ours,
            Modification.struck_at.is_(None),
            Modification.reversed_at.is_(None),
        )
    ).first()
    return ComebackFact(
        former.number,
        (local_day(job.taken_in_at, zone) - local_day(former.handed_back_at, zone)).days,
        helped or former.fault_short or former.fault,
        Sentence("a modification left inside") if left is not None else None,
    )


def agreed_amount(rows: JobRows) -> Money | None:
    """What the customer agreed to spend: the last word, else the limit named at the counter."""
    prices = [row.amount for row in rows.agreements if row.yes and row.amount is not None]
    amount = prices[-1] if prices else rows.job.go_ahead_limit
    return None if amount is None else Money(amount, rows.settings[CURRENCY])


def _finals_wanted(rows: JobRows, readings: list[ReadingFact]) -> tuple[tuple[str, Sentence], ...]:
    """What was outside on arrival is to be read again at the end; else nothing is asked."""
    wanted = dict.fromkeys(
        r.quantity
        for r in readings
        if r.moment is Moment.ARRIVAL and r.verdict is not None and r.verdict.outside
    )
    return tuple((q, rows.quantities[q].name) for q in wanted if q in rows.quantities)


def answers_of(rows: JobRows) -> tuple[Answer, ...]:
    """What people have said on flags of the job, its unit and transport."""
    answers = []
    for row in rows.flags:
        if row.acknowledged_by is not None:
            by, at, reason = row.acknowledged_by, row.acknowledged_at, row.acknowledged_reason
        elif row.cleared_reason and row.cleared_by is not None:
            by, at, reason = row.cleared_by, row.cleared_at, row.cleared_reason
        else:
            continue
        answers.append(
            Answer(row.rule, row.detail, row.sentence, row.answered_mark, rows.staff[by], at, reason)
        )
    return tuple(answers)


def _unsafe_return(rows: JobRows) -> UnsafeReturn | None:
    row = rows.unsafe_return
    if row is None:
        return None
    return UnsafeReturn(
        rows.staff[row.by], row.at, row.reason, row.law_looked_at, row.plug_tagged, row.signed
    )
