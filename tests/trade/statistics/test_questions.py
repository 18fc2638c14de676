"""The names of the eight questions."""

from __future__ import annotations

import re

from app.trade.statistics.questions import QUESTIONS


def test_the_eight_questions_can_be_typed_and_are_said_in_words():
    assert len(QUESTIONS) == 8
    assert all(re.fullmatch(r"[a-z]+(-[a-z]+)*", name) and words for name, words in QUESTIONS.items())
