"""Things that usually come with a player."""

from __future__ import annotations

from app.trade.counter.things import REMOTE, USUAL_THINGS, thing_said
from app.trade.sentence import Sentence


def test_a_usual_thing_is_said_in_every_language_and_another_as_typed():
    assert thing_said(REMOTE) == Sentence("remote control")
    assert thing_said("a red cloth") == "a red cloth"
    assert len(set(USUAL_THINGS)) == len(USUAL_THINGS)
