"""What the fault turned out to be: its group, the cause, the outcome, and a reason for final readings left out."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from sqlalchemy import select

from app.book.door import Book, Change
from app.book.office.shop_settings import settings_of
from app.book.shipped import shipped
from app.book.tables import Job, StartUpResult
from app.trade.bench.comeback import found_again
from app.trade.bench.fault_groups import FaultGroups, read_fault_groups
from app.trade.bench.kinds import ComebackStanding, FaultGroup, HowSeen
from app.trade.bench.quantities import HIGHEST_RUNG
from app.trade.bench.stages import CauseFound, Outcome
from app.trade.calendar.promise import local_day
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.trade.settings.terms import COMEBACK_WINDOW
from app.trade.typed_words import check_typed
from app.work.bench.open_job import open_job
from app.work.counter.former_jobs import former_jobs
from app.work.shop_book import Done

NOTE_ROOM, REASON_ROOM = 400, 400


@dataclass(frozen=True, slots=True, kw_only=True)
class Findings:
    """What the technician decides. Empty is "not decided yet"."""

    fault_group: FaultGroup | None = None
    cause: CauseFound | None = None
    cause_note: str = ""
    outcome: Outcome | None = None
    finals_reason: str = ""  # why final readings were left out, or the player leaves worse than it came


@dataclass(frozen=True, slots=True)
class FindingsPage:
    """The findings as they stand, the job's version that they were read at, and what the ladder proposes."""

    findings: Findings
    version: int
    proposed: FaultGroup | None
    meanings: tuple[tuple[FaultGroup, Sentence], ...]


@cache
def shipped_groups() -> FaultGroups:
    """The fault groups as they ship."""
    return read_fault_groups(shipped("bench/lists"))


def findings_of(book: Book, job_id: int) -> FindingsPage:
    """The findings of a job, with the group that the first start-up proposes where none is chosen."""
    with book.ask() as session:
        job = session.get_one(Job, job_id)
        rung = session.scalar(
            select(StartUpResult.rung)
            .where(
                StartUpResult.job_id == job_id,
                StartUpResult.struck_at.is_(None),
                StartUpResult.seen == HowSeen.NORMAL_USE,
            )
            .order_by(StartUpResult.at, StartUpResult.id)
            .limit(1)
        )
        groups = shipped_groups()
        proposed = None
        if rung is not None:
            proposed = groups.proposed(rung + 1 if rung < HIGHEST_RUNG else None)
        return FindingsPage(
            Findings(
                fault_group=job.fault_group,
                cause=job.cause,
                cause_note=job.cause_note,
                outcome=job.outcome,
                finals_reason=job.finals_waived_reason,
            ),
            job.version,
            proposed,
            tuple((group, Sentence(groups.meaning[group])) for group in FaultGroup),
        )


def check_findings(findings: Findings) -> dict[str, Sentence]:
    """A sentence under each field that cannot be right."""
    rooms = {"cause_note": NOTE_ROOM, "finals_reason": REASON_ROOM}
    said = {field: check_typed(getattr(findings, field), room, lines=True) for field, room in rooms.items()}
    return {field: why for field, why in said.items() if why is not None}


def record_findings(book: Book, who: int, job_id: int, findings: Findings, *, version: int) -> Done[int]:
    """Keep what was found. ``version`` is the one the page was read at. Raises StaleRow, FieldRefusal, Refusal."""
    if wrong := check_findings(findings):
        raise FieldRefusal(wrong)
    with book.change(who, Sentence("noted what was found")) as change:
        change.get(Job, job_id, version=version)
        job = open_job(change, job_id)
        _doubt_a_denial(change, job, findings.fault_group)
        _propose(change, job, findings.fault_group)
        job.fault_group, job.cause = findings.fault_group, findings.cause
        job.cause_note, job.outcome = findings.cause_note.strip(), findings.outcome
        job.finals_waived_reason = findings.finals_reason.strip()
    return Done(job_id, change.changes)


def _doubt_a_denial(change: Change, job: Job, group: FaultGroup | None) -> None:
    """A comeback denied at the counter is open again when the bench finds the former job's very fault group."""
    if job.comeback is not ComebackStanding.DENIED or job.comeback_of_id is None or group is job.fault_group:
        return
    if group is not None and change.get(Job, job.comeback_of_id).fault_group is group:
        job.comeback = ComebackStanding.PROPOSED


def _propose(change: Change, job: Job, group: FaultGroup | None) -> None:
    """What the customer's words did not tell: the fault that was found is the one that was mended here before."""
    if group is None or job.comeback_of_id is not None:
        return
    session = change.session
    window = settings_of(session)[COMEBACK_WINDOW]
    former = former_jobs(session, job.unit_id, change.zone)
    found = found_again(former, group, window, local_day(job.taken_in_at, change.zone))
    if found is not None:
        job.comeback_of_id = session.scalar(select(Job.id).where(Job.number == found.job))
        job.comeback = ComebackStanding.PROPOSED
