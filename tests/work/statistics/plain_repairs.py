"""The repairs of a book gone through one by one, as plainly as can be: what the columns are held against."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any, NamedTuple, TypeAlias

from sqlalchemy import Connection, Select, Text, bindparam, select, type_coerce

from app.book import tables
from app.book.columns import BIG
from app.book.door import Book
from app.trade.bench.kinds import ComebackStanding, FaultGroup
from app.trade.bench.stages import Outcome
from app.trade.calendar.local_days import local_days
from app.trade.counter.fault_words import FaultWord, ReportedFault, possible_groups
from app.trade.statistics.definition import Followed
from app.trade.statistics.returns import NONE
from app.work.statistics.ground import Ground
from app.work.statistics.visits import GROUPS, OUTCOMES

T = tables.metadata.tables
_J, _F, _M = T["jobs"].c, T["fittings"].c, T["modifications"].c
AT_ONCE = 500
Groups: TypeAlias = frozenset[FaultGroup]
NO_GROUPS: Groups = frozenset()

# Plain numbers and words in plain tuples: with 100,000 jobs, typed columns would cost more than the question.
_VISITS = select(
    _J.id,
    _J.number,
    _J.unit_id,
    type_coerce(_J.outcome, Text),
    type_coerce(_J.fault_group, Text),
    type_coerce(_J.taken_in_at, BIG),
    type_coerce(_J.handed_back_at, BIG),
).order_by(_J.unit_id + 0, _J.taken_in_at, _J.id)  # + 0: sorted, not fetched here and there along an index
_DECIDED = select(_J.id, _J.comeback_of_id).where(_J.comeback == bindparam("word"))
_FITTINGS = (
    select(
        _F.unit_id,
        _F.transport_id,
        T["transport_types"].c.name,
        type_coerce(_F.fitted_at, BIG),
        type_coerce(_F.removed_at, BIG),
    )
    .join(T["transports"], T["transports"].c.id == _F.transport_id)
    .join(T["transport_types"], T["transport_types"].c.id == T["transports"].c.type_id)
    .order_by(_F.unit_id, _F.fitted_at, _F.id)
)
_MODIFICATIONS = select(
    _M.unit_id, _M.transport_id, type_coerce(_M.at, BIG), type_coerce(_M.reversed_at, BIG)
).where(_M.struck_at.is_(None))
_WORDS = select(T["reported_faults"].c.job_id, T["reported_faults"].c.word).where(
    T["reported_faults"].c.job_id.in_(bindparam("jobs", expanding=True))
)


class Seen(NamedTuple):
    """A repair that was handed back, and the visit that counts as its return where there is one.

    ``confirmed``: a person said that this visit is its comeback. ``denied_in``: the day of a visit with the same fault
    of which a person said that it is none, where no other visit counts.
    """

    job_id: int
    number: int
    unit_id: int
    transport_id: int | None
    transport_type: str
    group: FaultGroup | None
    outcome: Outcome
    modified: bool  # a non-standard modification was left inside
    handed_back: date
    next_in: date | None
    next_groups: Groups
    next_id: int | None
    next_number: int | None
    confirmed: bool = False
    denied_in: date | None = None


class _Said(NamedTuple):
    """What the shop said of visits: the job that each is, or is not, the comeback of."""

    denied: Mapping[int, int]
    confirmed: Mapping[int, int]


@dataclass(frozen=True, slots=True)
class Repairs:
    """The repairs that were asked for, one by one, and the days of handing back that the book has.

    ``each`` can be gone through once.
    """

    each: Iterator[Seen]
    first: date | None
    last: date | None


def all_repairs(
    book: Book,
    *,
    same_group: bool = True,
    followed: Followed = Followed.UNIT,
    since: date = date.min,
    until: date = date.max,
    group: FaultGroup | None = None,
) -> Repairs:
    """Jobs that were handed back from ``since`` to ``until``, of one fault group or of all.

    With ``same_group`` the next visit is the first whose fault may be the same again, also where the player
    came in for something else before; else simply the next one. Where the transport is followed, a visit is of the
    player that it was in then, and repairs of players without a known transport have no return.
    """
    with book.ask() as session:
        connection = session.connection()
        visits = _rows(connection, _VISITS)
        inside = _by_first(_rows(connection, _FITTINGS))
        changes = _Changes(_rows(connection, _MODIFICATIONS))
        said = _Said(*(dict(_decided(connection, word)) for word in _DECISIONS))
        words = _words(connection, [visit[0] for visit in visits if visit[4] is None])
    ended = [visit[6] for visit in visits if visit[6] is not None]
    if not ended:
        return Repairs(iter(()), None, None)
    begun = [visit[5] for visit in visits]
    day = local_days(min(min(begun), min(ended)), max(max(begun), max(ended)), book.zone)
    ordered = _of_units(visits) if followed is Followed.UNIT else _of_transports(visits, inside)
    each = _each(ordered, inside, changes, words, said, day, same_group)
    if (since, until, group) != (date.min, date.max, None):
        each = (one for one in each if since <= one.handed_back <= until and group in (None, one.group))
    return Repairs(each, day(min(ended)), day(max(ended)))


def _rows(connection: Connection, statement: Select[Any]) -> Sequence[Any]:
    """The rows as the driver hands them over: wrapped ones would take half as long again."""
    cursor = connection.execute(statement).cursor
    assert cursor is not None
    rows: Sequence[Any] = cursor.fetchall()
    return rows


def _decided(connection: Connection, word: ComebackStanding) -> list[tuple[int, int]]:
    return [(job, former) for job, former in connection.execute(_DECIDED, {"word": word})]


def _of_units(visits: Sequence[Any]) -> Iterator[tuple[Any, Sequence[Any]]]:
    """Each visit that ended with the later ones of its unit, the nearest last."""
    later: list[Any] = []
    unit_before = None
    for visit in reversed(visits):
        if visit[2] != unit_before:
            later, unit_before = [], visit[2]
        if visit[6] is not None:
            yield visit, later
        later.append(visit)


def _of_transports(
    visits: Sequence[Any], inside: Mapping[int, Sequence[Any]]
) -> Iterator[tuple[Any, Sequence[Any]]]:
    """Each visit that ended with the later ones of the transport that was inside at its end, the nearest last."""
    later: dict[int, list[Any]] = {}
    for visit in sorted(visits, key=lambda one: (one[5], one[0]), reverse=True):
        fittings, handed_back = inside.get(visit[2], ()), visit[6]
        if handed_back is not None:
            transport_id, _ = _fitted(fittings, handed_back)
            after = later.get(transport_id, []) if transport_id is not None else []
            yield visit, [other for other in after if other[5] >= handed_back]
        transport_id, _ = _fitted(fittings, visit[5])
        if transport_id is not None:
            later.setdefault(transport_id, []).append(visit)


def _each(
    ordered: Iterable[tuple[Any, Sequence[Any]]],
    inside: Mapping[int, Sequence[Any]],
    changes: _Changes,
    words: Mapping[int, Groups],
    said: _Said,
    day: Callable[[int], date],
    same_group: bool,
) -> Iterator[Seen]:
    for visit, later in ordered:
        job_id, number, unit_id, outcome, group_word, _, handed_back = visit
        group = _GROUPS[group_word]
        back, groups, denied = None, NO_GROUPS, None
        if later:
            back, groups, denied = _return(job_id, group, later, words, said.denied, same_group)
        transport_id, type_name = _fitted(inside.get(unit_id, ()), handed_back)
        yield Seen(
            job_id,
            number,
            unit_id,
            transport_id,
            type_name,
            group,
            _OUTCOMES[outcome],
            changes.left(unit_id, transport_id, handed_back),
            day(handed_back),
            None if back is None else day(back[5]),
            groups,
            None if back is None else back[0],
            None if back is None else back[1],
            back is not None and said.confirmed.get(back[0]) == job_id,
            None if denied is None or back is not None else day(denied[5]),
        )


def _return(
    job_id: int,
    group: FaultGroup | None,
    later: Sequence[Any],
    words: Mapping[int, Groups],
    denied: Mapping[int, int],
    same_group: bool,
) -> tuple[Any, Groups, Any]:
    """The visit that counts as the return, what its fault was, or may turn out to be by the customer's words while
    nobody has said, and the first visit that would count had the shop not said that it is another fault."""
    another = None
    for other in reversed(later):
        said = other[4]
        groups = words.get(other[0], NO_GROUPS) if said is None else _ALONE[said]
        if same_group and group not in groups:
            continue
        if denied.get(other[0]) != job_id:
            return other, groups, another
        another = another or other
    return None, NO_GROUPS, another


class _Changes:
    """Modifications with the time that they stayed, by unit and by transport."""

    def __init__(self, rows: Iterable[Any]) -> None:
        self._of_unit: dict[int, list[Any]] = {}
        self._of_transport: dict[int, list[Any]] = {}
        for row in rows:
            if row[0] is not None:
                self._of_unit.setdefault(row[0], []).append(row)
            if row[1] is not None:
                self._of_transport.setdefault(row[1], []).append(row)

    def left(self, unit_id: int, transport_id: int | None, instant: int) -> bool:
        """Whether one was inside at that instant."""
        of_unit, of_transport = self._of_unit.get(unit_id), self._of_transport.get(transport_id or 0)
        if of_unit is None and of_transport is None:
            return False
        return any(
            made <= instant and (undone is None or undone > instant)
            for _, _, made, undone in (*(of_unit or ()), *(of_transport or ()))
        )


def _by_first(rows: Iterable[Any]) -> dict[int, tuple[Any, ...]]:
    """The rows by their first column. In tuples, since so many lists would set off the collector of garbage."""
    found: dict[int, tuple[Any, ...]] = {}
    for row in rows:
        found[row[0]] = (*found.get(row[0], ()), row)
    return found


def _fitted(fittings: Sequence[Any], instant: int) -> tuple[int | None, str]:
    """The transport that was inside at that instant, and the name of its type; (None, "") for none."""
    for _, transport_id, type_name, fitted, removed in fittings:
        if fitted <= instant and (removed is None or removed > instant):
            return transport_id, type_name
    return None, ""


def _words(connection: Connection, jobs: Sequence[int]) -> dict[int, Groups]:
    """What the fault of each of these jobs may turn out to be."""
    picked: dict[int, list[ReportedFault]] = {}
    for start in range(0, len(jobs), AT_ONCE):
        for job_id, word in connection.execute(_WORDS, {"jobs": jobs[start : start + AT_ONCE]}):
            picked.setdefault(job_id, []).append(ReportedFault(FaultWord(word)))
    return {job_id: possible_groups(faults) for job_id, faults in picked.items()}


_DECISIONS = (ComebackStanding.DENIED, ComebackStanding.CONFIRMED)
_GROUPS: dict[str | None, FaultGroup | None] = {None: None, **{group.value: group for group in FaultGroup}}
_ALONE = {group.value: frozenset({group}) for group in FaultGroup}
_OUTCOMES = {outcome.value: outcome for outcome in Outcome}


def seen(ground: Ground) -> Iterator[Seen]:
    """The repairs that the columns tell of, one by one."""
    visits, returns = ground.visits, ground.returns
    for at in ground.rows.tolist():
        back, denied = int(returns.back[at]), int(returns.denied[at])
        job = int(visits.job[at])
        group = int(visits.group[at])
        yield Seen(
            job,
            int(visits.number[at]),
            int(visits.unit[at]),
            int(visits.transport[at]) or None,
            visits.kinds[visits.kind[at]],
            None if group == NONE else GROUPS[group],
            OUTCOMES[visits.outcome[at]],
            bool(visits.modified[at]),
            date.fromordinal(int(visits.left[at])),
            None if back == NONE else date.fromordinal(int(visits.came[back])),
            frozenset() if back == NONE else _groups(int(visits.possible[back])),
            None if back == NONE else int(visits.job[back]),
            None if back == NONE else int(visits.number[back]),
            back != NONE and int(visits.confirmed[back]) == job,
            None if denied == NONE else date.fromordinal(int(visits.came[denied])),
        )


def _groups(bits: int) -> Groups:
    return frozenset(group for at, group in enumerate(GROUPS) if bits >> at & 1)
