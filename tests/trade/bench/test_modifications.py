"""What a modification is to the rules."""

from __future__ import annotations

from datetime import datetime
from typing import Any

import pytest

from app.trade.bench.modifications import Circuit, Origin, in_words, live


def test_a_reversed_change_is_no_longer_in_the_player(modification: Any, put_back: Any) -> None:
    stays, gone = modification(number=1), modification(number=2, reversal=put_back())
    assert live((stays, gone)) == (stays,)


def test_found_changes_are_not_ours(modification: Any) -> None:
    assert modification().ours
    assert not modification(origin=Origin.FOUND).ours


def test_a_part_on_the_mains_side_protects_people_whether_marked_or_not(modification: Any) -> None:
    assert modification(circuit=Circuit.MAINS).protects_people
    assert modification(safety_part=True).protects_people
    assert not modification().protects_people


def test_naive_instants_are_refused(modification: Any, put_back: Any) -> None:
    naive = datetime(2026, 11, 24, 9, 0)  # noqa: DTZ001  # on purpose
    with pytest.raises(ValueError, match="naive"):
        modification(at=naive)
    with pytest.raises(ValueError, match="naive"):
        modification(reversal=put_back().__class__(naive, "Tobbe"))


@pytest.mark.parametrize("circuit", Circuit)
def test_every_circuit_can_stand_in_a_sentence(circuit: Circuit) -> None:
    assert in_words(circuit).key.startswith(("the ", "another "))
