"""Asks the book for the whole job sheet in one reading transaction."""

from __future__ import annotations

from typing import Any

from sqlalchemy import bindparam, select

from app.book.bench.job_facts import facts_of
from app.book.bench.job_rows import JobRows
from app.book.bench.knowledge_data import knowledge_of
from app.book.door import Book
from app.book.office.job_lines import paid
from app.book.tables import Customer, Job, metadata
from app.trade.bench.case import is_open
from app.trade.bench.flag import Level, Subject
from app.trade.bench.gates import GateState, gates_of
from app.trade.bench.safety_notes import Reader
from app.trade.bench.stages import CaseStep
from app.trade.bench.units import UNITS
from app.trade.money import Money
from app.trade.sentence import Measure
from app.trade.settings.prices import CURRENCY
from app.trade.settings.thresholds import thresholds_of
from app.work.bench import sheet_lists, sheet_work
from app.work.bench.job_sheet import JobSheet
from app.work.bench.safety_notes import safety_notes_of
from app.work.bench.sheet_estimate import estimate_on_sheet
from app.work.bench.sheet_lines import CaseLine, FlagLineFact, GateLineFact
from app.work.bench.sheet_safety import safety_tests_of
from app.work.bench.standing import standing_of

# Written once: building a statement anew takes longer than asking it.
_JOB = (
    select(
        metadata.tables["jobs"],
        Customer.name.label("customer"),
        Customer.phone.label("customer_phone"),
        Customer.ring_when.label("customer_ring_when"),
    )
    .join(Customer, Customer.id == Job.customer_id)
    .where(Job.id == bindparam("job"))
)
ORDER = {Level.STOP: 0, Level.CAUTION: 1, Level.NOTE: 2}


def job_sheet(book: Book, job_id: int) -> JobSheet:
    """Everything the job sheet shows. Raises NoResultFound for a job that is not there."""
    with book.ask() as session:
        job: Any = session.connection().execute(_JOB, {"job": job_id}).one()
        rows = JobRows(session, job)
        facts = facts_of(session, job, book.today(), rows)
        start_ups = sheet_lists.start_ups_of(rows)
        former = session.get(Job, job.comeback_of_id) if job.comeback_of_id else None
        arrangement = rows.fitted.arrangement if rows.fitted is not None else None
        not_testable = rows.fitted.not_testable if rows.fitted is not None else []
        stands, more = standing_of(start_ups, knowledge_of(session).ladder, arrangement, not_testable)
        return JobSheet(
            id=job.id,
            number=job.number,
            version=job.version,
            **_who_and_what(job, rows.unit, rows.fitted),
            stage=job.stage,
            waiting=job.waiting,
            outcome=job.outcome,
            taken_in_at=job.taken_in_at,
            promised_on=job.promised_on,
            promised_time=job.promised_time,
            handed_back_at=job.handed_back_at,
            fault=job.fault,
            fault_short=job.fault_short,
            fault_words=sheet_work.fault_words_of(rows),
            error_shown=job.error_shown,
            shelf=job.shelf,
            transit_lock=job.transit_lock,
            fault_group=job.fault_group,
            cause=job.cause,
            comeback_of=former.number if former else None,
            comeback=job.comeback,
            agreed=facts.agreed,
            work_so_far=facts.work_so_far or Money(0, rows.settings[CURRENCY]),
            paid=Money(paid(rows), rows.settings[CURRENCY]),
            balance=facts.balance or Money(0, rows.settings[CURRENCY]),
            case_open=is_open(facts.case_events),
            stands=stands,
            stands_more=more,
            flags=_flags(rows),
            gates=tuple(
                GateLineFact(g.rule, g.words, g.state is GateState.DONE, g.how, g.reason, g.link)
                for g in gates_of(facts, thresholds_of(rows.settings))
                if g.state is not GateState.NOT_NEEDED
            ),
            start_ups=start_ups,
            readings=sheet_lists.readings_of(rows),
            trials=sheet_lists.trials_of(rows),
            modifications=sheet_lists.modifications_of(rows, facts.modifications),
            work=sheet_work.work_of(rows),
            safety_tests=safety_tests_of(rows, facts.safety_tests),
            case_events=tuple(
                CaseLine(e.step is CaseStep.OPENED, e.assumed, e.at, e.by) for e in facts.case_events
            ),
            messages=sheet_work.messages_of(rows),
            agreements=sheet_work.agreements_of(rows),
            things=sheet_work.things_of(rows),
            files=sheet_work.files_of(rows),
            notes=sheet_work.notes_of(rows),
            papers=sheet_work.papers_of(rows),
            earlier_jobs=sheet_work.earlier_jobs_of(rows),
            estimate=estimate_on_sheet(rows, book),
            ordered=sheet_work.ordered_of(rows),
            safety_notes=safety_notes_of(rows, facts, Reader.BENCH),
        )


def _who_and_what(job: Any, unit: Any, fitted: Any) -> dict[str, Any]:
    label = fitted.label_current if fitted is not None else None
    return {
        "customer_id": job.customer_id,
        "customer": job.customer,
        "customer_phone": job.customer_phone,
        "ring_when": job.customer_ring_when,
        "unit_id": unit.id,
        "maker": unit.maker,
        "model": unit.model,
        "serial": unit.serial,
        "mains_class": unit.mains_class,
        "mains_voltage": unit.mains_voltage,
        "transport_id": fitted.transport_id if fitted is not None else None,
        "transport_type_id": fitted.type_id if fitted is not None else None,
        "transport": fitted.name if fitted is not None else "",
        "arrangement": fitted.arrangement if fitted is not None else None,
        "transport_marking": fitted.marking if fitted is not None else "",
        "laser_label": None if label is None else Measure(UNITS["mA"].to_shown(label), "mA"),
        "not_testable": tuple(fitted.not_testable) if fitted is not None else (),
    }


def _flags(rows: JobRows) -> tuple[FlagLineFact, ...]:
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
            rows.staff.get(row.acknowledged_by or 0, ""),
        )
        for row in rows.flags
        if row.cleared_at is None and _is_here(rows, row)
    ]
    return tuple(sorted(lines, key=lambda line: (ORDER[line.level], line.id)))


def _is_here(rows: JobRows, row: Any) -> bool:
    """Whether a flag is of this job, this unit, or the transport that is in it now."""
    if row.subject is Subject.TRANSPORT:
        return bool(row.transport_id == rows.transport_id)
    if row.subject is Subject.UNIT:
        return bool(row.unit_id == rows.job.unit_id)
    return bool(row.job_id == rows.job.id)
