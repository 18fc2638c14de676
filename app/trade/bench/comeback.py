"""Whether a player that is taken in came back with the fault of an earlier job, and which guarantee still runs."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from app.trade.bench.kinds import FaultGroup
from app.trade.bench.stages import NOT_MENDED, STAYS_HERE, Outcome
from app.trade.counter.fault_words import ReportedFault, may_be_comeback
from app.trade.sentence import Sentence, words

# What is mostly said of a player that came again and is none. Kept as they stand here, told in the reader's language.
USUAL_REASONS = (
    words("other disc problem"),
    words("another fault"),
    words("damaged since it was handed back"),
    words("no fault shown"),
)


@dataclass(frozen=True, slots=True)
class FormerJob:
    """An earlier job of the same unit that was closed; ``handed_back`` is the shop's own day."""

    job: int
    handed_back: date
    group: FaultGroup | None
    outcome: Outcome
    done: str  # what was done, in the words of the record
    modified: Sentence | None = None  # the modification it left inside
    guarantee_until: date | None = None


@dataclass(frozen=True, slots=True)
class ComebackProposal:
    """What the book proposes; people confirm or deny it."""

    job: int
    days: int
    group: FaultGroup
    sentence: Sentence


def comeback_proposal(
    former: Iterable[FormerJob], faults: Iterable[ReportedFault], window: int, today: date
) -> ComebackProposal | None:
    """The latest earlier job whose fault this may be again, at most ``window`` days after it was handed back.

    A job that mended nothing cannot come back.
    """
    picked = tuple(faults)
    for job in sorted(former, key=lambda j: (j.handed_back, j.job), reverse=True):
        days = (today - job.handed_back).days
        if job.group is None or job.outcome in NOT_MENDED | STAYS_HERE:
            continue
        if may_be_comeback(job.group, picked, days, window):
            return ComebackProposal(job.job, days, job.group, _proposal_words(job, days))
    return None


def found_again(
    former: Iterable[FormerJob], group: FaultGroup, window: int, taken_in: date
) -> FormerJob | None:
    """The latest earlier job with the very group that the bench has found, at most ``window`` days before."""
    for job in sorted(former, key=lambda j: (j.handed_back, j.job), reverse=True):
        mended = job.outcome not in NOT_MENDED | STAYS_HERE
        if job.group is group and mended and 0 <= (taken_in - job.handed_back).days <= window:
            return job
    return None


def _proposal_words(job: FormerJob, days: int) -> Sentence:
    assert job.group is not None
    return Sentence(
        "Comeback of job {job}? Handed back {days} days ago, fault group {group}: {done}, {modified}.",
        {
            "job": job.job,
            "days": days,
            "group": Sentence(job.group.value),
            "done": job.done,
            "modified": job.modified or Sentence("no modification left inside"),
        },
    )


def guarantees_running(former: Iterable[FormerJob], today: date) -> tuple[Sentence, ...]:
    """One sentence for each earlier job whose guarantee still runs, the longest first."""
    running = [
        (job.guarantee_until, job.job)
        for job in former
        if job.guarantee_until is not None and today <= job.guarantee_until
    ]
    return tuple(
        Sentence("The guarantee on job {job} runs until {until}.", {"job": job, "until": until})
        for until, job in sorted(running, reverse=True)
    )
