"""Asks the book for the whole job sheet in one reading transaction."""

from __future__ import annotations

from typing import Any

from sqlalchemy import and_, or_, select
from sqlalchemy.orm import Session

from app.book.bench.job_facts import facts_of
from app.book.bench.safety_facts import case_events_of
from app.book.door import Book
from app.book.office.job_lines import balance, paid, work_so_far
from app.book.office.shop_settings import settings_of
from app.book.tables import (
    Customer,
    Fitting,
    Flag,
    Job,
    ReportedFault,
    Staff,
    Transport,
    TransportType,
    Unit,
)
from app.trade.bench.case import is_open
from app.trade.bench.flag import Level
from app.trade.bench.gates import GateState, gates_of
from app.trade.bench.kinds import Arrangement
from app.trade.bench.units import UNITS
from app.trade.money import Money
from app.trade.sentence import Measure
from app.trade.settings.prices import CURRENCY
from app.trade.settings.thresholds import thresholds_of
from app.work.bench import sheet_lists, sheet_work
from app.work.bench.job_sheet import CaseLine, FlagLineFact, GateLineFact, JobSheet
from app.work.bench.sheet_safety import safety_tests_of
from app.work.bench.standing import standing_of

ORDER = {Level.STOP: 0, Level.CAUTION: 1, Level.NOTE: 2}


def job_sheet(book: Book, job_id: int) -> JobSheet:
    """Everything the job sheet shows. Raises NoResultFound for a job that is not there."""
    with book.ask() as session:
        job, unit, customer = (
            session.execute(
                select(Job, Unit, Customer)
                .join(Unit, Unit.id == Job.unit_id)
                .join(Customer, Customer.id == Job.customer_id)
                .where(Job.id == job_id)
            )
            .one()
            ._tuple()
        )
        staff = {row.id: row.name for row in session.scalars(select(Staff))}
        transport, kind = _transport(session, unit.id)
        arrangement = kind.arrangement if kind else None
        start_ups = sheet_lists.start_ups_of(session, job.id, staff)
        readings = sheet_lists.readings_of(session, job, staff)
        trials = sheet_lists.trials_of(session, job.id, staff)
        events = case_events_of(session, unit.id, staff)
        former = session.get(Job, job.comeback_of_id) if job.comeback_of_id else None
        stands, more = standing_of(start_ups, arrangement, kind.not_testable if kind else [])
        return JobSheet(
            id=job.id,
            number=job.number,
            version=job.version,
            **_who_and_what(customer, unit, transport, kind, arrangement),
            stage=job.stage,
            waiting=job.waiting,
            outcome=job.outcome,
            taken_in_at=job.taken_in_at,
            promised_on=job.promised_on,
            promised_time=job.promised_time,
            handed_back_at=job.handed_back_at,
            fault=job.fault,
            fault_short=job.fault_short,
            fault_words=tuple(
                (row.word, row.how)
                for row in session.scalars(
                    select(ReportedFault).where(ReportedFault.job_id == job.id).order_by(ReportedFault.id)
                )
            ),
            error_shown=job.error_shown,
            shelf=job.shelf,
            transit_lock=job.transit_lock,
            fault_group=job.fault_group,
            cause=job.cause,
            comeback_of=former.number if former else None,
            comeback=job.comeback,
            case_open=is_open(events),
            stands=stands,
            stands_more=more,
            flags=_flags(session, job, transport, staff),
            start_ups=start_ups,
            readings=readings,
            trials=trials,
            modifications=sheet_lists.modifications_of(session, job, transport, staff),
            work=sheet_work.work_of(session, job.id, staff),
            safety_tests=safety_tests_of(session, unit.id, staff),
            case_events=tuple(CaseLine(e.step.value == "case opened", e.assumed, e.at, e.by) for e in events),
            messages=sheet_work.messages_of(session, job.id, staff),
            agreements=sheet_work.agreements_of(session, job.id, staff),
            things=sheet_work.things_of(session, job.id),
            files=sheet_work.files_of(session, job.id, staff),
            notes=sheet_work.notes_of(session, job.id, staff),
            papers=sheet_work.papers_of(session, job.id, staff),
            earlier_jobs=sheet_work.earlier_jobs_of(session, job),
            **_money_and_gates(book, session, job),
        )


def _who_and_what(
    customer: Customer,
    unit: Unit,
    transport: Transport | None,
    kind: TransportType | None,
    arrangement: Arrangement | None,
) -> dict[str, Any]:
    label = transport.label_current if transport else None
    return {
        "customer_id": customer.id,
        "customer": customer.name,
        "customer_phone": customer.phone,
        "ring_when": customer.ring_when,
        "unit_id": unit.id,
        "maker": unit.maker,
        "model": unit.model,
        "serial": unit.serial,
        "mains_class": unit.mains_class,
        "mains_voltage": unit.mains_voltage,
        "transport_id": transport.id if transport else None,
        "transport_type_id": kind.id if kind else None,
        "transport": kind.name if kind else "",
        "arrangement": arrangement,
        "transport_marking": transport.marking if transport else "",
        "laser_label": None if label is None else Measure(UNITS["mA"].to_shown(label), "mA"),
        "not_testable": tuple(kind.not_testable) if kind else (),
    }


def _money_and_gates(book: Book, session: Session, job: Job) -> dict[str, Any]:
    settings = settings_of(session)
    currency = settings[CURRENCY]
    facts = facts_of(session, job, book.today())
    gates = tuple(
        GateLineFact(gate.rule, gate.words, gate.state is GateState.DONE, gate.how, gate.reason, gate.link)
        for gate in gates_of(facts, thresholds_of(settings))
        if gate.state is not GateState.NOT_NEEDED
    )
    return {
        "gates": gates,
        "agreed": facts.agreed,
        "work_so_far": work_so_far(session, job.id, settings),
        "paid": Money(paid(session, job.id), currency),
        "balance": balance(session, job.id, currency),
    }


def _transport(session: Session, unit_id: int) -> tuple[Transport | None, TransportType | None]:
    row = session.execute(
        select(Transport, TransportType)
        .join(TransportType, TransportType.id == Transport.type_id)
        .join(Fitting, Fitting.transport_id == Transport.id)
        .where(Fitting.unit_id == unit_id, Fitting.removed_at.is_(None))
    ).first()
    return (None, None) if row is None else (row[0], row[1])


def _flags(
    session: Session, job: Job, transport: Transport | None, staff: dict[int, str]
) -> tuple[FlagLineFact, ...]:
    owned = [
        and_(Flag.job_id == job.id, Flag.subject == "job"),
        and_(Flag.unit_id == job.unit_id, Flag.subject == "unit"),
    ]
    if transport is not None:
        owned.append(and_(Flag.transport_id == transport.id, Flag.subject == "transport"))
    rows = session.scalars(select(Flag).where(Flag.cleared_at.is_(None), or_(*owned)).order_by(Flag.id))
    lines = [
        FlagLineFact(
            row.id,
            row.rule,
            row.level,
            row.subject,
            row.word,
            row.sentence,
            row.clears,
            row.closing,
            row.needs,
            row.owner_sees,
            staff.get(row.acknowledged_by or 0, ""),
        )
        for row in rows
    ]
    return tuple(sorted(lines, key=lambda line: (ORDER[line.level], line.id)))
