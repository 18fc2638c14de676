"""The open flags of many jobs at once, for lists: those of the job itself, its player and the transport inside."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from sqlalchemy import or_, select
from sqlalchemy.orm import Session

from app.book.tables import Fitting, Flag
from app.trade.bench.flag import Level, Subject
from app.trade.sentence import Sentence

ORDER = {Level.STOP: 0, Level.CAUTION: 1, Level.NOTE: 2}


@dataclass(frozen=True, slots=True)
class ListFlag:
    """A flag as a list shows it: shape by level, and its short word."""

    level: Level
    word: Sentence


def open_flags(session: Session, jobs: Iterable[tuple[int, int]]) -> dict[int, tuple[ListFlag, ...]]:
    """The open flags by job, stops first. ``jobs`` are pairs of a job's id and its unit's."""
    units = dict(jobs)
    fitted = select(Fitting.transport_id, Fitting.unit_id).where(
        Fitting.unit_id.in_(set(units.values())), Fitting.removed_at.is_(None)
    )
    transports = dict(session.execute(fitted).all())
    by_job: dict[int, list[Flag]] = defaultdict(list)
    by_unit: dict[int, list[Flag]] = defaultdict(list)
    for flag in session.scalars(
        select(Flag)
        .where(
            Flag.cleared_at.is_(None),
            or_(
                Flag.job_id.in_(units),
                Flag.unit_id.in_(set(units.values())),
                Flag.transport_id.in_(transports),
            ),
        )
        .order_by(Flag.id)
    ):
        if flag.subject is Subject.JOB and flag.job_id in units:
            by_job[flag.job_id].append(flag)
        elif flag.subject is Subject.UNIT and flag.unit_id is not None:
            by_unit[flag.unit_id].append(flag)
        elif flag.subject is Subject.TRANSPORT and flag.transport_id in transports:
            by_unit[transports[flag.transport_id]].append(flag)
    return {
        job: tuple(
            ListFlag(flag.level, flag.word)
            for flag in sorted([*by_job[job], *by_unit[unit]], key=lambda flag: ORDER[flag.level])
        )
        for job, unit in units.items()
    }
