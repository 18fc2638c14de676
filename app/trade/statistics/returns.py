"""Which later visit is the return of each repair, for a hundred thousand visits at once: columns in, columns out.

A column is an array with one item for each visit (n of them). Instants are microseconds since 1970 UTC, days are
numbers as `date.toordinal` gives them, keys are whole numbers above 0 (0: none).
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, TypeAlias

from app.trade.statistics.comebacks import Standing

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

Whole: TypeAlias = "NDArray[np.integer[Any]]"
Marks: TypeAlias = "NDArray[np.bool_]"

NOTHING = -(2**62)  # where an instant is not known
NONE = -1  # where there is no visit, no group, no day
STANDINGS = tuple(Standing)  # what the codes of `standings` mean


def inside(keys: Whole, instants: Whole, spans: Spans) -> NDArray[np.int64]:
    """The place in ``spans`` of the first that has the visit's key and holds at its instant; NONE for none."""
    import numpy as np

    found = np.full(len(keys), NONE, dtype=np.int64)
    first = np.searchsorted(spans.keys, keys, side="left")
    count = np.searchsorted(spans.keys, keys, side="right") - first
    open_still, at = np.flatnonzero(count), 0
    while len(open_still):
        place = first[open_still] + at
        holds = spans.hold(place, instants[open_still])
        found[open_still[holds]] = place[holds]
        at += 1
        open_still = open_still[~holds & (count[open_still] > at)]
    return found


class Spans:
    """Times that something was somewhere, in order of key and beginning: from ``begun`` on, until before ``ended``
    (NOTHING: still). ``order`` says which of the rows handed in stands where."""

    def __init__(self, keys: Whole, begun: Whole, ended: Whole) -> None:
        import numpy as np

        self.order = np.lexsort((begun, keys))
        self.keys, self._begun, self._ended = keys[self.order], begun[self.order], ended[self.order]

    def hold(self, places: Whole, instants: Whole) -> Marks:
        """Whether each of these holds at its instant."""
        ended = self._ended[places]
        held: Marks = (self._begun[places] <= instants) & ((ended == NOTHING) | (ended > instants))
        return held


def next_visits(
    *,
    job: Whole,
    taken_in: Whole,
    handed_back: Whole,
    came_as: Whole,
    left_as: Whole,
    group: Whole | None,
    possible: Whole,
    denied: Whole,
    group_count: int,
    once_back: bool,
) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """For each visit the place of the one that counts as its return, and of the first that would count had the shop
    not denied it (where none counts); NONE for none.

    A return is a later visit (by ``taken_in``, then ``job``) whose ``came_as`` is the visit's ``left_as``: the unit, or
    the transport inside. With ``group`` (a place from 0 to ``group_count``, NONE: not known) its fault must be the
    same or possibly so: bit g of ``possible`` says that group g may be it. ``denied`` is the job that a visit is no
    comeback of. ``once_back``: only visits taken in when the one before was handed back, or later.
    """
    import numpy as np

    n = len(job)
    order = np.lexsort((job, taken_in))
    rank = np.empty(n, dtype=np.int64)
    rank[order] = np.arange(n)
    least = rank + 1
    if once_back:
        least = np.maximum(least, np.searchsorted(taken_in[order], handed_back, side="left"))
    places, kinds = _targets(came_as, possible, group, group_count)
    # One number says what comes back and when, so that one sorted column answers for all.
    wanted = left_as if group is None else left_as * group_count + group
    asks = np.flatnonzero((left_as > 0) if group is None else (left_as > 0) & (group >= 0))
    line = kinds * (n + 1) + rank[places]
    sorting = np.argsort(line)
    line, places = line[sorting], places[sorting]
    ends = (wanted[asks] + 1) * (n + 1)
    at = np.searchsorted(line, wanted[asks] * (n + 1) + least[asks])
    line, places = np.append(line, np.iinfo(np.int64).max), np.append(places, 0)
    back, no = np.full(n, NONE, dtype=np.int64), np.full(n, NONE, dtype=np.int64)
    while len(asks):
        there = line[at] < ends
        asks, at, ends = asks[there], at[there], ends[there]
        is_none = denied[places[at]] == job[asks]
        back[asks[~is_none]] = places[at[~is_none]]
        asks, at, ends = asks[is_none], at[is_none], ends[is_none]
        first = no[asks] == NONE
        no[asks[first]] = places[at[first]]
        at = at + 1
    no[back != NONE] = NONE
    return back, no


def _targets(
    came_as: Whole, possible: Whole, group: Whole | None, group_count: int
) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """The visits that may be a return, once for each group that they may be of, and what they are a return of."""
    import numpy as np

    came = came_as.astype(np.int64)
    if group is None:
        places = np.flatnonzero(came)
        return places, came[places]
    each = [np.flatnonzero((came > 0) & (possible >> at & 1 == 1)) for at in range(group_count)]
    kinds = [came[places] * group_count + at for at, places in enumerate(each)]
    return np.concatenate(each), np.concatenate(kinds)


def standings(left: Whole, back: Whole, counts: Marks, today: int, window: int) -> NDArray[np.int8]:
    """Where each repair stands, as places in `STANDINGS`: `comebacks.stands` for days ``left``, and ``back`` (NONE: not
    back) for a return that may count. ``counts``: whether its outcome can come back."""
    import numpy as np

    came = back != NONE
    found = np.full(len(left), STANDINGS.index(Standing.HELD), dtype=np.int8)
    for standing, holds in (
        (Standing.CAME_BACK, came & (back - left <= window)),
        (Standing.TOO_YOUNG, today - left < window),
        (Standing.NOT_MENDED, ~counts),
        (Standing.SET_ASIDE, (left > today) | (came & (back < left))),
    ):
        found[holds] = STANDINGS.index(standing)
    return found
