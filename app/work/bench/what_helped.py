"""What helped before: the trials of other jobs with this transport type that had stopped at the same rung."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta, tzinfo
from typing import Any

from sqlalchemy import Text, and_, bindparam, exists, select, type_coerce
from sqlalchemy.orm import Session

from app.book.bench.knowledge_data import knowledge_of
from app.book.columns import BIG
from app.book.door import Book
from app.book.office.shop_settings import settings_of
from app.book.tables import Customer, Fitting, Job, Transport, TransportType, Trial, Unit, metadata
from app.trade.bench.changes import Leaves
from app.trade.bench.kinds import ComebackStanding, FaultGroup
from app.trade.bench.quantities import HIGHEST_RUNG
from app.trade.bench.stages import Outcome, TrialOutcome
from app.trade.counter.fault_words import FaultWord, ReportedFault, possible_groups
from app.trade.sentence import Sentence
from app.trade.settings.thresholds import thresholds_of
from app.trade.statistics.comebacks import MENDED, Standing, stands
from app.trade.statistics.what_helped import HELPED, Helped, Tried, ground, helped
from app.work.bench.ranking_facts import climbs_of, standing_climb

NO_CLIMB = Sentence("Record how far it starts up in normal use; then what helped there before is shown.")
NO_TRANSPORT = Sentence("The transport in this player is not known, so no other job can be compared.")
PLAYS = Sentence("It plays to the end: there is nothing to compare.")
A_DAY = 86_400_000_000  # microseconds

T = metadata.tables
_X, _J, _M = T["trials"].c, T["jobs"].c, T["modifications"].c
_L = T["jobs"].alias("later")
# Plain numbers and words in plain tuples: typed columns would cost more than the question.
_TRIED = (
    select(
        _X.job_id,
        _X.number,
        _X.change,
        _X.words,
        type_coerce(_X.outcome, Text),
        exists().where(_M.trial_id == _X.id, _M.struck_at.is_(None)),
        type_coerce(_J.outcome, Text),
        type_coerce(_J.fault_group, Text),
        type_coerce(_J.handed_back_at, BIG),
        _L.c.id,
        type_coerce(_L.c.taken_in_at, BIG),
        type_coerce(_L.c.fault_group, Text),
        and_(_L.c.comeback == ComebackStanding.DENIED, _L.c.comeback_of_id == _X.job_id),
    )
    .select_from(T["trials"])
    .join(T["transports"], T["transports"].c.id == _X.transport_id)
    .join(T["jobs"], _J.id == _X.job_id)
    .outerjoin(
        _L,
        and_(
            _L.c.unit_id == _J.unit_id,
            _L.c.id != _J.id,
            type_coerce(_L.c.taken_in_at, BIG) >= type_coerce(_J.handed_back_at, BIG),
            type_coerce(_L.c.taken_in_at, BIG)
            < type_coerce(_J.handed_back_at, BIG) + bindparam("span", type_=BIG),
        ),
    )
    .where(
        T["transports"].c.type_id == bindparam("type"),
        _X.rung_before == bindparam("rung"),
        _X.struck_at.is_(None),
        _X.outcome.is_not(None),
        _X.job_id != bindparam("but"),
    )
)
_WORDS = select(T["reported_faults"].c.job_id, T["reported_faults"].c.word).where(
    T["reported_faults"].c.job_id.in_(bindparam("jobs", expanding=True))
)


@dataclass(frozen=True, slots=True)
class HelpedQuestion:
    """What is asked: trials on this transport type that began with ``rung`` as the highest reached, in jobs of one
    fault group or of all, but not those of the job that asks."""

    type_id: int
    rung: int
    group: FaultGroup | None
    but: int


@dataclass(frozen=True, slots=True)
class HelpedLine:
    """One kind of change. ``leaves`` is None for one in own words; ``here``: tried in the job that asks, too."""

    counts: Helped
    name: Sentence
    leaves: Leaves | None
    here: bool


@dataclass(frozen=True, slots=True)
class WhatHelped:
    """The answer; ``stop`` names the rung it stopped before, ``ground`` says what the table rests on."""

    question: HelpedQuestion
    type_name: str
    stop: Sentence
    lines: tuple[HelpedLine, ...]
    ground: Sentence
    window: int  # days within which a return counts as a comeback


@dataclass(frozen=True, slots=True)
class HelpedJob:
    """One job behind a row."""

    id: int
    number: int
    player: str
    customer: str
    words: str
    outcome: TrialOutcome
    at: datetime
    closed: Outcome | None
    came_back: bool


def what_helped(book: Book, job_id: int, group: FaultGroup | None = None) -> WhatHelped | Sentence:
    """What helped other players with this job's transport type that had stopped where it did; a sentence where
    that cannot be asked."""
    with book.ask() as session:
        job = session.get_one(Job, job_id)
        kind = session.scalars(
            select(TransportType)
            .join(Transport, Transport.type_id == TransportType.id)
            .join(Fitting, Fitting.transport_id == Transport.id)
            .where(Fitting.unit_id == job.unit_id, Fitting.removed_at.is_(None))
        ).first()
        climb = standing_climb(climbs_of(session, job_id))
        if climb is None:
            return NO_CLIMB
        if climb.rung == HIGHEST_RUNG:
            return PLAYS
        if kind is None:
            return NO_TRANSPORT
        question = HelpedQuestion(kind.id, climb.rung, group, job_id)
        window = thresholds_of(settings_of(session)).comeback_days
        tried = _tried(session, book, question, window)
        here = session.execute(
            select(Trial.change, Trial.words).where(Trial.job_id == job_id, Trial.struck_at.is_(None))
        )
        keys = {Tried(change, words, TrialOutcome.WORSE).key for change, words in here}
        return _answer(session, question, kind, tried, keys, window)


def _answer(
    session: Session,
    question: HelpedQuestion,
    kind: TransportType,
    tried: Mapping[tuple[int, str], Tried],
    here: set[str],
    window: int,
) -> WhatHelped:
    known = knowledge_of(session)
    changes = known.knowledge.changes
    lines = []
    for one in helped(tried.values()):
        change = changes.get(one.change)
        name = change.name if change is not None else Sentence("{words}", {"words": one.words})
        lines.append(HelpedLine(one, name, change.leaves if change is not None else None, one.key in here))
    return WhatHelped(
        question,
        kind.name,
        known.ladder.rung(question.rung + 1).name(kind.arrangement),
        tuple(lines),
        ground((line.counts for line in lines), len({job for job, _ in tried})),
        window,
    )


def jobs_helped(book: Book, question: HelpedQuestion, key: str) -> tuple[HelpedJob, ...]:
    """The jobs behind one row, those that came back first, then the newest first."""
    with book.ask() as session:
        window = thresholds_of(settings_of(session)).comeback_days
        tried = {job: one for (job, of), one in _tried(session, book, question, window).items() if of == key}
        found = []
        keys = list(tried)
        for start in range(0, len(keys), 500):
            rows = session.execute(
                select(Job, Unit.maker, Unit.model, Customer.name)
                .join(Unit, Unit.id == Job.unit_id)
                .join(Customer, Customer.id == Job.customer_id)
                .where(Job.id.in_(keys[start : start + 500]))
            )
            for job, maker, model, customer in rows:
                one = tried[job.id]
                found.append(
                    HelpedJob(
                        job.id,
                        job.number,
                        f"{maker} {model}".strip(),
                        customer,
                        one.words,
                        one.outcome,
                        job.taken_in_at,
                        job.outcome,
                        one.standing is Standing.CAME_BACK,
                    )
                )
    found.sort(key=lambda line: (not line.came_back, -line.number))
    return tuple(found)


def _tried(
    session: Session, book: Book, question: HelpedQuestion, window: int
) -> dict[tuple[int, str], Tried]:
    """The last trial of each kind of change in each job, with what became of the job's repair."""
    asked = {
        "type": question.type_id,
        "rung": question.rung,
        "but": question.but,
        "span": (window + 2) * A_DAY,  # days are counted below; this only holds the rows few
    }
    cursor = session.connection().execute(_TRIED, asked).cursor
    assert cursor is not None
    rows: Sequence[Any] = cursor.fetchall()
    if question.group is not None:
        rows = [row for row in rows if row[7] == question.group.value]
    visits: defaultdict[int, dict[int, Any]] = defaultdict(dict)
    last: dict[tuple[int, str], Any] = {}
    for row in rows:
        if row[9] is not None:
            visits[row[0]][row[9]] = row
        key = (row[0], row[2] or Tried("", row[3], TrialOutcome.WORSE).key)
        if key not in last or row[1] > last[key][1]:
            last[key] = row
    standing = _standings(session, book, last.values(), visits, window)
    return {
        key: Tried(row[2], row[3], outcome, bool(row[5]), standing.get(row[0]) if outcome in HELPED else None)
        for key, row in last.items()
        for outcome in (_OUTCOMES[row[4]],)
    }


def _standings(
    session: Session, book: Book, rows: Iterable[Any], visits: Mapping[int, Mapping[int, Any]], window: int
) -> dict[int, Standing]:
    """What became of each repair that was handed back, as the page of comebacks counts it. Days are only worked out
    for players that came again: for the others it is enough to know which repairs are too young."""
    today = book.today()
    watched = datetime.combine(today - timedelta(window - 1), time(), book.zone)
    old = (watched - _EPOCH) // timedelta(microseconds=1)
    unsaid = [key for own in visits.values() for key, visit in own.items() if visit[11] is None]
    words = _words(session, unsaid)
    found = {}
    for row in rows:
        job, ended = row[0], row[8]
        if ended is None:
            continue
        if job not in visits:
            found[job] = _QUIET[row[6] in _MENDED, ended < old]
            continue
        group = None if row[7] is None else FaultGroup(row[7])
        back, groups = _return(group, visits[job], words)
        next_in = None if back is None else _day(back[10], book.zone)
        found[job] = stands(_day(ended, book.zone), Outcome(row[6]), group, today, next_in, groups, window)
    return found


def _day(instant: int, zone: tzinfo) -> date:
    return (_EPOCH + timedelta(microseconds=instant)).astimezone(zone).date()


def _return(
    group: FaultGroup | None, visits: Mapping[int, Any], words: Mapping[int, frozenset[FaultGroup]]
) -> tuple[Any, frozenset[FaultGroup]]:
    """The first visit whose fault is the same again, or may turn out to be by the customer's words."""
    for key, visit in sorted(visits.items(), key=lambda one: (one[1][10], one[0])):
        said = visit[11]
        groups = words.get(key, frozenset()) if said is None else frozenset({FaultGroup(said)})
        if group in groups and not visit[12]:  # what the shop denied is another fault
            return visit, groups
    return None, frozenset()


def _words(session: Session, jobs: Sequence[int]) -> dict[int, frozenset[FaultGroup]]:
    picked: dict[int, list[ReportedFault]] = {}
    if jobs:
        for job_id, word in session.connection().execute(_WORDS, {"jobs": jobs}):
            picked.setdefault(job_id, []).append(ReportedFault(FaultWord(word)))
    return {job_id: possible_groups(faults) for job_id, faults in picked.items()}


_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
_MENDED = frozenset(outcome.value for outcome in MENDED)
# What a repair says whose player did not come again: by whether it was mended, and watched long enough.
_QUIET = {
    (True, True): Standing.HELD,
    (True, False): Standing.TOO_YOUNG,
    (False, True): Standing.NOT_MENDED,
    (False, False): Standing.NOT_MENDED,
}
_OUTCOMES = {outcome.value: outcome for outcome in TrialOutcome}
