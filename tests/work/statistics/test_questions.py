"""All eight questions on books that have little to say: a sentence each time, never a number that is none."""

from __future__ import annotations

import json
from datetime import UTC

import pytest

from app.trade.refusal import Refusal
from app.trade.statistics.comebacks import By
from app.trade.statistics.definition import Followed
from app.trade.statistics.questions import OF_COMEBACKS, QUESTIONS
from app.trade.wording import plain
from app.work.statistics.as_data import as_data, as_rows
from app.work.statistics.question import Question
from app.work.statistics.questions import ANSWERS, technician_named


def write(past, book):
    with past.at_once():
        if book == "one job":
            past.job(past.unit(), 410, 400)
        elif book == "one open job":
            past.job(past.unit(), 10)
        elif book in ("no comebacks", "all comebacks"):
            for transport in ("Velk A1", "Grellin S1", ""):
                for _ in range(4):
                    unit = past.unit(transport=transport)
                    past.job(unit, 410, 400)
                    if book == "all comebacks":
                        past.job(unit, 400, 400, outcome="declined")


@pytest.mark.parametrize("book", ["empty", "one job", "one open job", "no comebacks", "all comebacks"])
def test_little_to_say_is_said_in_a_sentence(past, book):
    write(past, book)
    for name, answer in ANSWERS.items():
        for asked in (
            Question(),
            Question(by=By.MODEL, maker="nobody"),
            Question(followed=Followed.TRANSPORT),
        ):
            found = answer(past.shop.book, asked)
            data = as_data(found, plain(UTC))
            assert data["headline"].strip(), name
            assert "nan" not in json.dumps(data, allow_nan=False).casefold().replace("finance", "")
            heads, rows = as_rows(found, plain(UTC))
            assert all(len(row) == len(heads) for row in rows)


def test_the_names_are_those_that_are_answered():
    assert list(ANSWERS) == list(QUESTIONS)
    assert len(QUESTIONS) == 8


def test_what_counts_comebacks_says_what_it_counts(past):
    past.job(past.unit(), 410, 400)
    question = Question(same_group=False)
    for name in OF_COMEBACKS:
        said = ANSWERS[name](past.shop.book, question).said
        assert set(question.definition.sentences()) <= set(said), name


def test_a_technician_is_found_by_name(shop):
    assert technician_named(shop.book, "tobbe RUSKAMP") == shop.tobbe
    with pytest.raises(Refusal) as refused:
        technician_named(shop.book, "Nobody")
    assert "Sanna Wickerel" in refused.value.next_step.values["names"]
