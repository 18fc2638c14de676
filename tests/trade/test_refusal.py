"""The two families of error."""

from __future__ import annotations

import pytest

from app.trade.refusal import BookRefused, Fault, FieldRefusal, Held, Refusal, StaleRow
from app.trade.sentence import Sentence

WHY, NEXT = Sentence("{job} is closed.", {"job": 7}), Sentence("Take it in again.")


def test_a_refusal_has_its_sentence_and_the_next_step() -> None:
    refused = Refusal(WHY, NEXT)
    assert (refused.sentence, refused.next_step) == (WHY, NEXT)
    assert "closed" in str(refused)
    assert Refusal(WHY).next_step is None


def test_fields_are_refused_under_their_names() -> None:
    refused = FieldRefusal({"phone": WHY, "name": NEXT})
    assert refused.fields == {"phone": WHY, "name": NEXT}
    assert refused.sentence == WHY


def test_a_stale_row_shows_both_values() -> None:
    stale = StaleRow(WHY, {"shelf": "B 3"}, {"shelf": "C 4"})
    assert (stale.theirs, stale.mine) == ({"shelf": "B 3"}, {"shelf": "C 4"})


def test_a_held_job_names_what_holds_it() -> None:
    assert Held(WHY, (NEXT,)).reasons == (NEXT,)


@pytest.mark.parametrize(
    "refused", [FieldRefusal({"a": WHY}), StaleRow(WHY, {}, {}), Held(WHY, ()), BookRefused(WHY)]
)
def test_every_refusal_is_the_persons_world_and_a_fault_is_ours(refused: Refusal) -> None:
    assert isinstance(refused, Refusal)
    assert not isinstance(Fault("a bug"), Refusal)
