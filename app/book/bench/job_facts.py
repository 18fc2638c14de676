"""Fills the facts that the rules ask for, from the rows of one job, its unit and the transport in it."""

from __future__ import annotations

from collections import Counter
from datetime import date, timedelta
from decimal import Decimal

from sqlalchemy import or_, select
from sqlalchemy.orm import Session

from app.book import tables
from app.book.bench import safety_facts
from app.book.bench.catalogue import quantities
from app.book.bench.modification_facts import modifications_of
from app.book.office.job_lines import balance, work_so_far
from app.book.office.shop_settings import settings_of
from app.book.tables import (
    Agreement,
    Fitting,
    Flag,
    Instrument,
    Job,
    PartMove,
    Reading,
    Staff,
    StartUpResult,
    ThingLeft,
    Transport,
    TransportType,
    Trial,
    UnsafeRequest,
    UnsafeReturnKept,
)
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
from app.trade.money import Money
from app.trade.sentence import Measure, Sentence
from app.trade.settings.prices import CURRENCY

MILLI = Decimal(1000)


def facts_of(session: Session, job: Job, today: date) -> JobFacts:
    """Everything the rules need of one job, as the book has it inside this transaction."""
    settings = settings_of(session)
    currency = settings[CURRENCY]
    unit = session.get_one(tables.Unit, job.unit_id)
    fitting = session.scalars(
        select(Fitting).where(Fitting.unit_id == unit.id, Fitting.removed_at.is_(None))
    ).first()
    transport = session.get_one(Transport, fitting.transport_id) if fitting else None
    kind = session.get_one(TransportType, transport.type_id) if transport else None
    staff = {row.id: row.name for row in session.scalars(select(Staff))}
    readings, instruments = _readings(session, job, today)
    results = session.scalars(
        select(StartUpResult)
        .where(StartUpResult.job_id == job.id, StartUpResult.struck_at.is_(None))
        .order_by(StartUpResult.at, StartUpResult.id)
    ).all()
    trials = session.scalars(
        select(Trial).where(Trial.job_id == job.id, Trial.struck_at.is_(None)).order_by(Trial.number)
    ).all()
    read_before = set(
        session.scalars(
            select(Reading.trial_id).where(
                Reading.job_id == job.id, Reading.trial_side == "before", Reading.struck_at.is_(None)
            )
        )
    )
    return JobFacts(
        number=job.number,
        today=today,
        stage=job.stage,
        taken_in=job.taken_in_at,
        outcome=job.outcome,
        mains_class=unit.mains_class,
        powered=bool(results) or any(_needs_power(reading) for reading in readings),
        rung_arrival=_rung(results, Moment.ARRIVAL),
        rung_final=_rung(results, Moment.FINAL),
        modifications=modifications_of(session, job, unit.id, transport.id if transport else None, staff),
        readings=tuple(readings),
        trials=tuple(
            TrialFact(
                number=trial.number,
                change=trial.change,
                at=trial.at,
                trimmer=trial.reference if trial.change.endswith("_set") else "",
                reading_before=trial.id in read_before,
            )
            for trial in trials
        ),
        parts_fitted=len(session.scalars(select(PartMove.id).where(PartMove.job_id == job.id)).all()),
        laser_label=Measure((transport.label_current * MILLI).normalize() + 0, "mA")
        if transport and transport.label_current is not None
        else None,
        case_events=safety_facts.case_events_of(session, unit.id, staff),
        safety_tests=safety_facts.safety_tests_of(session, unit.id, staff),
        other_types=_other_types(session, fitting, transport, kind),
        instruments=tuple(instruments),
        asked=tuple(
            AskedFact(row.id, row.what, row.refused_at is not None)
            for row in session.scalars(select(UnsafeRequest).where(UnsafeRequest.job_id == job.id))
        ),
        discs=_discs(session, job.id),
        transit_lock=_transit_lock(job, kind),
        by_post=job.goes_by_post,
        comeback=_comeback(session, job),
        agreed=_agreed(session, job, currency),
        work_so_far=work_so_far(session, job.id, settings),
        balance=balance(session, job.id, currency),
        finals_wanted=_finals_wanted(session, kind, readings),
        finals_reason=job.finals_waived_reason,
        answers=_answers(session, job, transport, staff),
        unsafe_return=_unsafe_return(session, job.id, staff),
    )


def _readings(session: Session, job: Job, today: date) -> tuple[list[ReadingFact], list[InstrumentFact]]:
    known = quantities(session)
    facts: list[ReadingFact] = []
    used: Counter[int] = Counter()
    for row in session.scalars(
        select(Reading)
        .where(Reading.job_id == job.id, Reading.struck_at.is_(None))
        .order_by(Reading.at, Reading.id)
    ):
        if row.instrument_id is not None and row.verdict:
            used[row.instrument_id] += 1
        if row.digits is None:
            continue  # an open circuit has no number for the rules to weigh
        quantity, unit = known.get(row.quantity), UNITS[row.unit]
        facts.append(
            ReadingFact(
                quantity=row.quantity,
                name=quantity.name if quantity else Sentence("{id}", {"id": row.quantity}),
                value=Measure(_shown(row.digits, unit), row.unit),
                moment=row.moment,
                at=row.at,
                u=Decimal(0) if row.uncertainty is None else unit.to_shown(Decimal(repr(row.uncertainty))),
                low=None if row.limit_low is None else _shown(row.limit_low, unit),
                high=None if row.limit_high is None else _shown(row.limit_high, unit),
                verdict=VerdictWord(row.verdict) if row.verdict else None,
                within=None if row.probability is None else Decimal(repr(row.probability)),
                must=row.limit_must,
                place=row.detail,
                warm_minutes=row.warm_minutes,
                room=row.room,
            )
        )
    instruments = [
        InstrumentFact(row.name, row.due_on, used[row.id])
        for row in session.scalars(select(Instrument).where(Instrument.id.in_(used)))
        if row.due_on is not None and row.due_on < today
    ]
    return facts, instruments


def _shown(value: Decimal, unit: Unit) -> Decimal:
    shown = unit.to_shown(value)
    return shown.quantize(Decimal(1)) if shown == shown.to_integral() else shown.normalize()


def _needs_power(reading: ReadingFact) -> bool:
    return reading.quantity in {
        "laser_current",
        "seek_time",
        "leadin_time",
        "hf_eye",
        "unit_power",
        "load_time",
    }


def _rung(results: object, moment: Moment) -> int | None:
    seen = [r for r in results if r.moment is moment and r.seen is HowSeen.NORMAL_USE]  # type: ignore[attr-defined]
    return seen[-1].rung if seen else None


def _other_types(
    session: Session, fitting: Fitting | None, transport: Transport | None, kind: TransportType | None
) -> tuple[OtherTypeFact, ...]:
    if fitting is None or transport is None or kind is None or fitting.as_maker:
        return ()
    return (
        OtherTypeFact(
            "transport",
            kind.name,
            fitting.belongs_type,
            transport.label_current is not None,
            in_transport=False,
        ),
    )


def _discs(session: Session, job_id: int) -> tuple[DiscFact, ...]:
    rows = session.scalars(
        select(ThingLeft).where(ThingLeft.job_id == job_id, ThingLeft.kind == "disc").order_by(ThingLeft.id)
    )
    return tuple(DiscFact(row.id, row.words, row.returned_at is not None) for row in rows)


def _transit_lock(job: Job, kind: TransportType | None) -> TransitLock:
    if job.transit_lock is TransitLock.NOT_LOOKED and (kind is None or not kind.has_transit_lock):
        return TransitLock.NONE
    return job.transit_lock


def _comeback(session: Session, job: Job) -> ComebackFact | None:
    if job.comeback_of_id is None or job.comeback is ComebackStanding.DENIED:
        return None
    former = session.get_one(Job, job.comeback_of_id)
    if former.handed_back_at is None:
        return None
    last = session.scalars(
        select(Trial)
        .where(Trial.job_id == former.id, Trial.struck_at.is_(None), Trial.outcome.in_(("cured", "better")))
        .order_by(Trial.number.desc())
    ).first()
    days = (job.taken_in_at - former.handed_back_at) // timedelta(days=1)
    left = [
        m
        for m in modifications_of(session, former, former.unit_id, None, {})
        if m.job == former.number and m.live
    ]
    words = last.words if last else former.fault_short or former.fault
    return ComebackFact(former.number, days, words, Sentence("a modification left inside") if left else None)


def _agreed(session: Session, job: Job, currency: str) -> Money | None:
    latest = session.scalars(
        select(Agreement)
        .where(Agreement.job_id == job.id, Agreement.yes, Agreement.amount.is_not(None))
        .order_by(Agreement.at.desc(), Agreement.id.desc())
    ).first()
    amount = latest.amount if latest else job.go_ahead_limit
    return None if amount is None else Money(amount, currency)


def _finals_wanted(
    session: Session, kind: TransportType | None, readings: list[ReadingFact]
) -> tuple[tuple[str, Sentence], ...]:
    """What was read on arrival against a limit is to be read again at the end; else nothing is asked."""
    known = quantities(session)
    wanted = dict.fromkeys(
        r.quantity
        for r in readings
        if r.moment is Moment.ARRIVAL and r.verdict is not None and r.verdict.outside
    )
    return tuple((q, known[q].name) for q in wanted if q in known)


def _answers(
    session: Session, job: Job, transport: Transport | None, staff: dict[int, str]
) -> tuple[Answer, ...]:
    owned = [Flag.job_id == job.id, Flag.unit_id == job.unit_id]
    if transport is not None:
        owned.append(Flag.transport_id == transport.id)
    answers = []
    for row in session.scalars(select(Flag).where(or_(*owned)).order_by(Flag.id)):
        if row.acknowledged_at is not None and row.acknowledged_by is not None:
            answers.append(
                Answer(
                    row.rule,
                    row.detail,
                    row.sentence,
                    row.answered_mark,
                    staff[row.acknowledged_by],
                    row.acknowledged_at,
                    row.acknowledged_reason,
                )
            )
        elif row.cleared_at is not None and row.cleared_reason and row.cleared_by is not None:
            answers.append(
                Answer(
                    row.rule,
                    row.detail,
                    row.sentence,
                    row.answered_mark,
                    staff[row.cleared_by],
                    row.cleared_at,
                    row.cleared_reason,
                )
            )
    return tuple(answers)


def _unsafe_return(session: Session, job_id: int, staff: dict[int, str]) -> UnsafeReturn | None:
    row = session.scalars(select(UnsafeReturnKept).where(UnsafeReturnKept.job_id == job_id)).first()
    if row is None:
        return None
    return UnsafeReturn(staff[row.by], row.at, row.reason, row.law_looked_at, row.plug_tagged, row.signed)
