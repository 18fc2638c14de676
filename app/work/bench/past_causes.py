"""What was the cause in the shop's closed jobs that had stopped at the same rung: what the ranking learns from."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from operator import itemgetter
from typing import Any

from sqlalchemy import Text, bindparam, exists, func, select, type_coerce
from sqlalchemy.orm import Session

from app.book.tables import metadata
from app.trade.bench.changes import BenchChange
from app.trade.bench.established import COUNTING, established_suspect
from app.trade.bench.evidence import TrialSeen
from app.trade.bench.kinds import HowSeen
from app.trade.bench.quantities import HIGHEST_RUNG
from app.trade.bench.stages import CauseFound, Left, Outcome, Stage, TrialOutcome
from app.trade.sentence import Sentence

_T = metadata.tables
_X, _J, _M = _T["trials"].c, _T["jobs"].c, _T["modifications"].c
_FIRST = _T["start_up_results"].alias("first").c
_STOPPED_AT = (
    select(_FIRST.rung)
    .where(
        _FIRST.job_id == _X.job_id,  # of the trial, so that it is asked before the job's row is fetched
        _FIRST.struck_at.is_(None),
        _FIRST.seen == HowSeen.NORMAL_USE,
        _FIRST.rung < HIGHEST_RUNG,
    )
    .order_by(_FIRST.at, _FIRST.id)
    .limit(1)
    .scalar_subquery()
)
# Plain words in plain tuples: typed columns would cost more than the question.
_CURED = (
    select(
        _X.job_id,
        _X.number,
        _X.change,
        _X.suspect,
        type_coerce(_X.left, Text),
        exists().where(_M.trial_id == _X.id, _M.struck_at.is_(None)),
        type_coerce(_J.outcome, Text),
        type_coerce(_J.cause, Text),
    )
    .select_from(_T["trials"])
    .join(_T["transports"], _T["transports"].c.id == _X.transport_id)
    .join(_T["jobs"], _J.id == _X.job_id)
    .where(
        _T["transports"].c.type_id == bindparam("type"),
        _X.outcome == TrialOutcome.CURED,
        _X.struck_at.is_(None),
        bindparam("rung") == _STOPPED_AT,
        # Asked so that the search begins with the cured trials of the type, not with every closed job.
        func.coalesce(_J.stage, "") == Stage.HANDED_BACK,
        _J.outcome.in_(COUNTING),
    )
)


def counts_of(session: Session, type_id: int, rung: int, changes: Mapping[str, BenchChange]) -> Counter[str]:
    """Closed jobs of this transport type that first stopped after ``rung``, by the suspect that was the cause."""
    cursor = session.connection().execute(_CURED, {"type": type_id, "rung": rung}).cursor
    assert cursor is not None
    rows: Sequence[Any] = cursor.fetchall()
    last = {row[0]: row[2:] for row in sorted(rows, key=itemgetter(1))}  # the cure that ended each job
    counts: Counter[str] = Counter()
    for story, jobs in Counter(last.values()).items():  # many tell the same one, which is judged once
        suspect = _cause(story, changes)
        if suspect is not None:
            counts[suspect] += jobs
    return counts


def _cause(story: Sequence[Any], changes: Mapping[str, BenchChange]) -> str | None:
    change, suspect, left, modified, outcome, cause = story
    cure = TrialSeen(
        number=1,
        change=change,
        name=Sentence("{words}", {"words": change}),
        outcome=TrialOutcome.CURED,
        modifies=bool(modified) or Left(left).modifies,
    )
    found = None if cause is None else CauseFound(cause)
    return established_suspect(Outcome(outcome), found, [(cure, suspect or "")], changes)
