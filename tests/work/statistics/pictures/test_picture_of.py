"""Every answer has a picture under its headline, and an empty book has one without panels."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.work.statistics.answer import Answer
from app.work.statistics.pictures import picture_of
from app.work.statistics.question import Question
from app.work.statistics.questions import ANSWERS


def test_every_question_has_a_picture_of_its_answer(past, sound):
    unit = past.unit()
    past.job(unit, 410, 400)
    past.job(unit, 350, 340)
    for ask in ANSWERS.values():
        answer = ask(past.shop.book, Question())
        picture = picture_of(answer)
        assert picture.title == answer.headline
        assert sound(picture.panels) or ask is ANSWERS["cost"]


@pytest.mark.parametrize("name", [name for name in ANSWERS if name != "shop"])
def test_nothing_is_drawn_of_a_filter_that_matches_nothing(past, name):
    past.job(past.unit(), 410, 400)
    assert picture_of(ANSWERS[name](past.shop.book, Question(maker="Nobody"))).panels == ()


def test_nothing_is_drawn_of_an_empty_book(past):
    for ask in ANSWERS.values():
        assert picture_of(ask(past.shop.book, Question())).panels == ()


def test_an_answer_to_no_question_has_no_picture(past):
    found = ANSWERS["comeback-rate"](past.shop.book, Question())
    bare = Answer(question=found.question, headline=found.headline, said=(), why=found.why)
    with pytest.raises(TypeError):
        picture_of(replace(bare))
