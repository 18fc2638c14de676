"""Which visit is the return of which, over columns: held against a plain search through all visits."""

from __future__ import annotations

from datetime import date

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from app.trade.bench.kinds import FaultGroup
from app.trade.bench.stages import Outcome
from app.trade.statistics.comebacks import MENDED, stands
from app.trade.statistics.returns import NONE, NOTHING, STANDINGS, Spans, inside, next_visits, standings

GROUPS = 3
instant = st.integers(0, 6)
spans = st.lists(st.tuples(st.integers(1, 3), instant, st.one_of(st.none(), instant)), max_size=8)
visit = st.tuples(
    st.integers(0, 3),  # came as
    st.integers(0, 3),  # left as
    instant,  # taken in
    instant,  # handed back
    st.integers(NONE, GROUPS - 1),  # group
    st.integers(0, 2**GROUPS - 1),  # may be
    st.integers(0, 8),  # denied
)


def column(values):
    return np.array(values, dtype=np.int64)


@given(spans, st.lists(st.tuples(st.integers(0, 4), instant), max_size=8))
def test_what_was_inside_is_the_first_that_was_there_at_that_instant(rows, asked):
    rows = sorted(rows, key=lambda row: row[:2])
    have = Spans(
        column([key for key, _, _ in rows]),
        column([begun for _, begun, _ in rows]),
        column([NOTHING if ended is None else ended for _, _, ended in rows]),
    )
    found = inside(column([key for key, _ in asked]), column([at for _, at in asked]), have)
    assert found.tolist() == [
        next(
            (
                place
                for place, (own, begun, ended) in enumerate(rows)
                if own == key and begun <= at and (ended is None or ended > at)
            ),
            NONE,
        )
        for key, at in asked
    ]


def plain(visits, *, same_group, once_back):
    """The same by looking at every visit for every other."""
    jobs = list(enumerate(visits))
    back, no = [], []
    for job, (_, left_as, taken_in, handed_back, group, _, _) in jobs:
        later = sorted(
            (other[2], key)
            for key, other in jobs
            if (other[2], key) > (taken_in, job)
            and other[0] == left_as != 0
            and (not once_back or other[2] >= handed_back)
            and (not same_group or (group != NONE and visits[key][5] >> group & 1))
        )
        fitting = [key for _, key in later]
        counts = [key for key in fitting if visits[key][6] != job + 1]
        denied = [key for key in fitting if visits[key][6] == job + 1]
        back.append(counts[0] if counts else NONE)
        no.append(NONE if counts or not denied else denied[0])
    return back, no


@given(st.lists(visit, max_size=9), st.booleans(), st.booleans())
def test_the_return_is_the_first_later_visit_that_nobody_denied(visits, same_group, once_back):
    came_as, left_as, taken_in, handed_back, group, possible, denied = (
        column([one[at] for one in visits]) for at in range(7)
    )
    back, no = next_visits(
        job=np.arange(1, len(visits) + 1),
        taken_in=taken_in,
        handed_back=handed_back,
        came_as=came_as,
        left_as=left_as,
        group=group if same_group else None,
        possible=possible,
        denied=denied,
        group_count=GROUPS,
        once_back=once_back,
    )
    assert (back.tolist(), no.tolist()) == plain(visits, same_group=same_group, once_back=once_back)


@given(
    st.lists(st.tuples(st.integers(1, 40), st.one_of(st.none(), st.integers(1, 60)), st.booleans())),
    st.integers(1, 30),
)
def test_a_column_of_standings_is_one_standing_after_the_other(repairs, window):
    today = date.fromordinal(35)
    found = standings(
        column([left for left, _, _ in repairs]),
        column([NONE if back is None else back for _, back, _ in repairs]),
        np.array([mended for _, _, mended in repairs], dtype=bool),
        today.toordinal(),
        window,
    )
    assert [STANDINGS[code] for code in found.tolist()] == [
        stands(
            date.fromordinal(left),
            Outcome.MENDED if mended else Outcome.DECLINED,
            FaultGroup.RADIAL,
            today,
            None if back is None else date.fromordinal(back),
            frozenset({FaultGroup.RADIAL}),
            window,
            counted=MENDED,
        )
        for left, back, mended in repairs
    ]
