"""A few fields of a job's facts, for the rules that look at them and at nothing else."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence, Set
from datetime import date
from typing import Any

from sqlalchemy import or_, select

from app.book.bench import job_facts as all_facts
from app.book.bench.job_rows import JobRows, Rows
from app.book.bench.job_statements import JOB, UNIT, T
from app.book.bench.modification_facts import modifications_of
from app.book.bench.safety_facts import safety_tests_of
from app.book.office.job_lines import balance, work_so_far
from app.trade.bench.facts import JobFacts, ReadingFact
from app.trade.bench.kinds import TransitLock
from app.trade.money import Money


class FewRows(JobRows):
    """The rows around a job where only one list or two will be asked for: each is fetched without a look whether
    there are any."""

    def _all(self, name: str, **more: Any) -> Rows:
        return self._fetch(name, **more)

    def open_flags(self) -> Sequence[Any]:
        """Rule and level of each flag that is open on the job, its unit or the transport in it."""
        keys = {"job": self.job.id, "unit": self.job.unit_id}
        return self.session.connection().execute(_OPEN_FLAGS, keys).all()


_F, _FITTINGS = T["flags"].c, T["fittings"].c
_INSIDE = select(_FITTINGS.transport_id).where(_FITTINGS.unit_id == UNIT, _FITTINGS.removed_at.is_(None))
_OPEN_FLAGS = select(_F.rule, _F.level).where(
    _F.cleared_at.is_(None),
    or_(_F.job_id == JOB, _F.unit_id == UNIT, _F.transport_id.in_(_INSIDE)),
)


def some_facts(rows: JobRows, today: date, fields: Set[str]) -> JobFacts:
    """The facts with only these fields filled, of those that rules look at; see `job_facts.facts_of`."""
    job = rows.job
    filled = {field: _FILLED[field](rows, today) for field in fields & _FILLED.keys()}
    return JobFacts(
        number=job.number,
        today=today,
        stage=job.stage,
        taken_in=job.taken_in_at,
        by_post=job.goes_by_post,
        **filled,
    )


def _readings(rows: JobRows, today: date) -> tuple[ReadingFact, ...]:
    taken, _ = all_facts.readings_of(rows, today)
    return tuple(fact for fact, transport in taken if all_facts.speaks(fact, transport, rows.transport_id))


def _transit_lock(rows: JobRows) -> TransitLock:
    lock: TransitLock = rows.job.transit_lock
    return all_facts.transit_lock_of(rows.job, rows.fitted) if lock is TransitLock.NOT_LOOKED else lock


def _powered(rows: JobRows, today: date) -> bool:
    """Asked for the transit lock alone, as in `facts_of`."""
    if _transit_lock(rows) is TransitLock.NONE:
        return False
    if any(row.struck_at is None for row in rows.start_ups):
        return True
    return any(all_facts.powered_by(rows, reading) for reading, _ in all_facts.readings_of(rows, today)[0])


def _work_so_far(rows: JobRows) -> Money | None:
    """Nothing to compare it with where no amount was agreed."""
    return None if all_facts.agreed_amount(rows) is None else work_so_far(rows)


_FILLED: Mapping[str, Callable[[JobRows, date], Any]] = {
    "mains_class": lambda rows, _: rows.unit.mains_class,
    "modifications": lambda rows, _: modifications_of(rows),
    "readings": _readings,
    "trials": lambda rows, _: all_facts.trials_of(rows),
    "laser_label": lambda rows, _: all_facts.label_of(rows.fitted),
    "safety_tests": lambda rows, _: safety_tests_of(rows),
    "other_types": lambda rows, _: all_facts.other_types_of(rows.fitted),
    "instruments": lambda rows, today: tuple(all_facts.readings_of(rows, today)[1]),
    "asked": lambda rows, _: all_facts.asked_for(rows),
    "discs": lambda rows, _: all_facts.discs_in(rows.things),
    "transit_lock": lambda rows, _: _transit_lock(rows),
    "powered": _powered,
    "comeback": lambda rows, _: all_facts.comeback_of(rows.session, rows.job),
    "agreed": lambda rows, _: all_facts.agreed_amount(rows),
    "work_so_far": lambda rows, _: _work_so_far(rows),
    "balance": lambda rows, _: balance(rows),
}
