"""What counts as a comeback, and how it is written."""

from __future__ import annotations

import pytest

from app.trade.bench.stages import Outcome
from app.trade.statistics.definition import Definition, Followed


@pytest.mark.parametrize(
    ("definition", "more"),
    [
        (Definition(), set()),
        (Definition(declined=True), {Outcome.DECLINED}),
        (
            Definition(not_repaired=True),
            {Outcome.NO_FAULT_SHOWN, Outcome.BEYOND_REPAIR, Outcome.REFUSED},
        ),
    ],
)
def test_what_was_mended_counts_and_more_only_where_the_shop_says_so(definition, more):
    assert definition.counted == {Outcome.MENDED, Outcome.MENDED_MODIFIED} | more


def test_the_definition_is_written_with_its_parts():
    usual, follows, left_out = Definition().sentences()[0], Definition(followed=Followed.TRANSPORT), set()
    assert usual.values["days"] == 180
    assert usual.values["what"].key == "the player"
    assert usual.values["same"].key == "with the same fault group"
    assert follows.sentences()[0].values["what"].key == "the transport"
    assert Definition(same_group=False).sentences()[0].values["same"].key == "with any fault"
    for not_repaired in (False, True):
        for declined in (False, True):
            left_out.add(Definition(not_repaired=not_repaired, declined=declined).sentences()[1].key)
    assert len(left_out) == 4
