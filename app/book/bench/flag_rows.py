"""Keeps the flag rows in step with what the rules say, in the change that could alter them."""

from __future__ import annotations

from collections.abc import Iterable

from sqlalchemy import and_, or_, select
from sqlalchemy.orm import Session

from app.book.bench.job_facts import facts_of
from app.book.door import Change
from app.book.office.shop_settings import settings_of
from app.book.tables import Fitting, Flag, Job
from app.trade.bench.facts import JobFacts
from app.trade.bench.flag import FlagRaised, Subject
from app.trade.bench.flags import evaluate
from app.trade.bench.stages import Stage
from app.trade.settings.thresholds import thresholds_of

# Rules that rest on readings of one job: a later job without such a reading leaves what was found standing.
READING_RULES = {
    "coil_hot": ("radial_coil_r", "focus_coil_r"),
    "laser_up": ("laser_current", "laser_rel", "optical_power"),
    "laser_up_big": ("laser_current", "laser_rel", "optical_power"),
    "supply_changed": ("rail_dc",),
}
# Tables whose change cannot alter what any rule says.
SILENT = frozenset({"customers", "messages", "attachments", "papers_filed", "staff", "job_notes"})


def refresh_flags(change: Change) -> None:
    """A settling step of the door: ask the rules anew for every job that the action could have altered."""
    if not change.touched.rows.keys() - SILENT:
        return
    session = change.session
    jobs = set(change.touched.jobs)
    if "settings" in change.touched.rows or "instruments" in change.touched.rows:
        jobs |= open_jobs(session)
    units = set(change.touched.units)
    if change.touched.transports:
        units |= set(
            session.scalars(
                select(Fitting.unit_id).where(
                    Fitting.transport_id.in_(change.touched.transports), Fitting.removed_at.is_(None)
                )
            )
        )
    if units:
        jobs |= set(
            session.scalars(select(Job.id).where(Job.unit_id.in_(units), Job.stage != Stage.HANDED_BACK))
        )
    ask_rules(change, jobs)


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
        facts = facts_of(change.session, job, change.today)
        _settle(change, job, facts, evaluate(facts, thresholds))


def _settle(change: Change, job: Job, facts: JobFacts, raised: Iterable[FlagRaised]) -> None:
    session = change.session
    transport = session.scalar(
        select(Fitting.transport_id).where(Fitting.unit_id == job.unit_id, Fitting.removed_at.is_(None))
    )
    latest = session.scalar(
        select(Job.id).where(Job.unit_id == job.unit_id).order_by(Job.number.desc()).limit(1)
    )
    speaks_for_unit = latest == job.id
    scope = [and_(Flag.subject == Subject.JOB, Flag.job_id == job.id)]
    if speaks_for_unit:
        scope.append(and_(Flag.subject == Subject.UNIT, Flag.unit_id == job.unit_id))
        if transport is not None:
            scope.append(and_(Flag.subject == Subject.TRANSPORT, Flag.transport_id == transport))
    standing = {
        (row.rule, row.subject.value, row.detail): row
        for row in session.scalars(select(Flag).where(Flag.cleared_at.is_(None), or_(*scope)))
    }
    for flag in raised:
        if flag.subject is not Subject.JOB and not speaks_for_unit:
            continue
        row = standing.pop(flag.identity, None)
        if row is None:
            row = Flag(rule=flag.rule, subject=flag.subject, detail=flag.detail, raised_at=change.now)
            row.job_id = job.id
            row.unit_id = job.unit_id if flag.subject is Subject.UNIT else None
            row.transport_id = transport if flag.subject is Subject.TRANSPORT else None
            if flag.subject is Subject.TRANSPORT and transport is None:
                row.subject, row.unit_id = Subject.UNIT, job.unit_id
            session.add(row)
        row.rule_version, row.level, row.word = flag.rule_version, flag.level, flag.word
        row.sentence, row.clears, row.closing = flag.sentence, flag.clears, flag.closing
        row.needs, row.owner_sees = flag.needs, flag.owner_sees
        if row.acknowledged_at is not None and not flag.acknowledged:
            row.acknowledged_at = row.acknowledged_by = row.answered_mark = None
            row.acknowledged_reason = ""
    measured = {reading.quantity for reading in facts.readings}
    for row in standing.values():
        quantities = READING_RULES.get(row.rule)
        if quantities and row.job_id != job.id and not measured & set(quantities):
            continue
        row.cleared_at, row.cleared_by = change.now, change.who
