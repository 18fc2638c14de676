"""Things of the customer's: noted later, given back earlier."""

from __future__ import annotations

import pytest

from app.trade.counter.hand_back import LeftKind
from app.trade.refusal import FieldRefusal, Refusal
from app.work.counter.hand_back_view import hand_back_view
from app.work.counter.things_left import give_thing_back, note_thing


def test_a_disc_that_was_found_is_noted_and_holds_the_player_until_it_went_back(shop, job):
    disc = note_thing(shop.book, shop.tobbe, job, LeftKind.DISC, " under  the clamp ").value
    view = hand_back_view(shop.book, job)
    assert [(t.kind, t.words, t.returned) for t in view.things] == [(LeftKind.DISC, "under the clamp", False)]
    assert any(gate.rule == "disc_inside" and gate.open for gate in view.gates)
    give_thing_back(shop.book, shop.mirr, disc)
    view = hand_back_view(shop.book, job)
    assert view.things[0].returned
    assert not any(gate.rule == "disc_inside" and gate.open for gate in view.gates)
    with pytest.raises(Refusal, match="already"):
        give_thing_back(shop.book, shop.mirr, disc)


@pytest.mark.parametrize("words", ["  ", "x" * 81])
def test_a_thing_has_a_name(shop, job, words):
    with pytest.raises(FieldRefusal):
        note_thing(shop.book, shop.mirr, job, LeftKind.OLD_PART, words)
