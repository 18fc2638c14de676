"""Keeps the flag rows in step with what the rules say, in the change that could alter them."""

from __future__ import annotations

from collections.abc import Container, Iterable
from dataclasses import replace
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book.bench.flag_reach import OF_ONE_JOB, SILENT, altered_fields
from app.book.bench.job_facts import answers_of, facts_of
from app.book.bench.job_rows import JobRows
from app.book.bench.some_facts import FewRows, some_facts
from app.book.door import Change
from app.book.office.shop_settings import settings_of
from app.book.tables import Fitting, Flag, Job
from app.trade.bench.facts import JobFacts
from app.trade.bench.flag import FlagRaised, Level, Subject
from app.trade.bench.flags import evaluate, raised_by
from app.trade.bench.rule_reach import REACH, Ask, asked_about
from app.trade.bench.rules import RULES
from app.trade.bench.stages import Stage
from app.trade.settings.thresholds import thresholds_of

# Rules that rest on readings of one job: a later job without such a reading leaves what was found standing.
READING_RULES = {
    "coil_hot": ("radial_coil_r", "focus_coil_r"),
    "laser_up": ("laser_current", "laser_rel", "optical_power"),
    "laser_up_big": ("laser_current", "laser_rel", "optical_power"),
    "supply_changed": ("rail_dc",),
}


def refresh_flags(change: Change) -> None:
    """A settling step of the door: ask the rules anew for every job that the action could have altered."""
    touched = change.touched
    altered = altered_fields(touched.columns)
    if altered is not None:
        if rules := asked_about(altered):
            _ask_some(change, rules)
        return
    tables = touched.rows.keys() - SILENT
    session = change.session
    jobs = set(touched.jobs)
    if "settings" in tables or "instruments" in tables:
        jobs |= open_jobs(session)
    if not tables <= OF_ONE_JOB.keys():
        jobs |= _beside(session, touched.units, touched.transports)
    ask_rules(change, jobs)


def _ask_some(change: Change, rules: tuple[Ask, ...]) -> None:
    """Ask only these rules for the jobs of the action. Where a caution comes or goes all are asked: they are
    counted together."""
    says = frozenset[str]().union(*(REACH[rule].says for rule in rules))
    fields = frozenset[str]().union(*(REACH[rule].looks_at for rule in rules))
    thresholds = thresholds_of(settings_of(change.session))
    for job_id in sorted(change.touched.jobs):
        job = change.get(Job, job_id)
        rows = FewRows(change.session, job)
        facts = some_facts(rows, change.today, fields)
        raised = raised_by(rules, facts, thresholds)
        standing = [row for row in rows.open_flags() if row.rule in says]
        if not raised and not standing:
            continue
        if any(flag.level is Level.CAUTION for flag in [*raised, *standing]):
            ask_rules(change, (job_id,))
            continue
        answered = replace(facts, answers=answers_of(rows))
        _settle(change, rows, facts, raised_by(rules, answered, thresholds), says)


def _beside(session: Session, units: set[int], transports: set[int]) -> set[int]:
    """Jobs in the shop of these units, and of those that one of these transports is in."""
    units = set(units)
    if transports:
        units |= set(
            session.scalars(
                select(Fitting.unit_id).where(
                    Fitting.transport_id.in_(transports), Fitting.removed_at.is_(None)
                )
            )
        )
    if not units:
        return set()
    return set(session.scalars(select(Job.id).where(Job.unit_id.in_(units), Job.stage != Stage.HANDED_BACK)))


def open_jobs(session: Session) -> set[int]:
    """Jobs that are in the shop."""
    return set(session.scalars(select(Job.id).where(Job.stage != Stage.HANDED_BACK)))


def ask_rules(change: Change, jobs: Iterable[int]) -> None:
    """Evaluate the rules for these jobs and raise, keep or clear their flag rows."""
    thresholds = None
    for job_id in sorted(jobs):
        job = change.session.get(Job, job_id)
        if job is None:
            continue
        if thresholds is None:
            thresholds = thresholds_of(settings_of(change.session))
        rows = JobRows(change.session, job)
        facts = facts_of(change.session, job, change.today, rows, gates=False)
        _settle(change, rows, facts, evaluate(facts, thresholds))


def _settle(
    change: Change,
    rows: JobRows,
    facts: JobFacts,
    raised: Iterable[FlagRaised],
    says: Container[str] = RULES,
) -> None:
    """Bring the open flags of the job, and of its unit and transport where it speaks for them, in step.

    Those of other rules than ``says`` are left as they are.
    """
    job, transport = rows.job, rows.transport_id
    speaks_for_unit = rows.latest_job_id == job.id
    standing = {
        (row.rule, row.subject.value, row.detail): row
        for row in rows.flags
        if row.cleared_at is None and row.rule in says and _is_ours(row, job, transport, speaks_for_unit)
    }
    for flag in raised:
        if flag.subject is not Subject.JOB and not speaks_for_unit:
            continue
        if flag.subject is Subject.TRANSPORT and transport is None:  # nobody noted which one is inside
            flag = replace(flag, subject=Subject.UNIT)
        there = standing.pop(flag.identity, None)
        if there is None:
            change.session.add(_new(change, job, transport, flag))
        elif _differs(there, flag):
            _say_anew(change.get(Flag, there.id), flag)
    measured = {reading.quantity for reading in facts.readings}
    for row in standing.values():
        quantities = READING_RULES.get(row.rule)
        if quantities and row.job_id != job.id and not measured & set(quantities):
            continue
        gone = change.get(Flag, row.id)
        gone.cleared_at, gone.cleared_by = change.now, change.who


def _is_ours(row: Any, job: Job, transport: int | None, speaks_for_unit: bool) -> bool:
    if row.subject is Subject.JOB:
        return bool(row.job_id == job.id)
    if row.subject is Subject.UNIT:
        return speaks_for_unit and bool(row.unit_id == job.unit_id)
    return speaks_for_unit and transport is not None and bool(row.transport_id == transport)


def _new(change: Change, job: Job, transport: int | None, flag: FlagRaised) -> Flag:
    row = Flag(rule=flag.rule, subject=flag.subject, detail=flag.detail, raised_at=change.now)
    row.job_id = job.id
    row.unit_id = job.unit_id if flag.subject is Subject.UNIT else None
    row.transport_id = transport if flag.subject is Subject.TRANSPORT else None
    _say_anew(row, flag)
    return row


def _say_anew(row: Flag, flag: FlagRaised) -> None:
    row.rule_version, row.level, row.word = flag.rule_version, flag.level, flag.word
    row.sentence, row.clears, row.closing = flag.sentence, flag.clears, flag.closing
    row.needs, row.owner_sees = flag.needs, flag.owner_sees
    if row.acknowledged_at is not None and not flag.acknowledged:
        row.acknowledged_at = row.acknowledged_by = row.answered_mark = None
        row.acknowledged_reason = ""


def _differs(row: Any, flag: FlagRaised) -> bool:
    """Whether the row says anything else than the rule does now."""
    return (
        row.rule_version != flag.rule_version
        or row.level is not flag.level
        or row.closing is not flag.closing
        or row.needs is not flag.needs
        or row.owner_sees != flag.owner_sees
        or (row.acknowledged_at is not None and not flag.acknowledged)
        or row.sentence != flag.sentence
        or row.word != flag.word
        or row.clears != flag.clears
    )
