"""Whatever the book holds, each of the eight questions answers with sentences and numbers: as text, JSON, CSV, table and
picture. Books without anything to count must not make a number out of nothing."""

from __future__ import annotations

import csv
import io
import json
import math
import re
from dataclasses import fields, is_dataclass
from datetime import date

import pytest

from app.trade.bench.kinds import FaultGroup
from app.trade.bench.stages import Outcome
from app.trade.statistics.comebacks import By
from app.trade.upkeep.csv_text import sheet_text
from app.trade.wording import plain
from app.work.statistics.as_data import as_data, as_rows
from app.work.statistics.pictures import picture_of
from app.work.statistics.question import Question
from app.work.statistics.questions import ANSWERS
from app.work.statistics.tables.answer_tables import tables_of

NO_NUMBER = re.compile(r"\b(nan|NaN|inf|Infinity)\b|\bNone\b(?! of)")


def empty(past):
    """No job at all."""


def one_open(past):
    past.job(past.unit(), 5)


def one_back(past):
    past.job(past.unit(), 410, 400)


def one_today(past):
    past.job(past.unit(), 0, 0)


def no_comebacks(past):
    for _ in range(12):
        past.job(past.unit(), 410, 400)


def all_comebacks(past):
    for _ in range(12):
        unit = past.unit()
        first = past.job(unit, 410, 400)
        past.job(unit, 350, 340, comeback_of_id=first)
        past.job(unit, 300, 290, outcome=Outcome.DECLINED)


def back_the_same_day(past):
    for _ in range(3):
        unit = past.unit()
        past.job(unit, 410, 400)
        past.job(unit, 400, 400)


def a_group_of_one(past):
    for _ in range(11):
        past.job(past.unit(), 410, 400)
    lonely = past.unit(transport="Grellin S1")
    past.job(lonely, 410, 400, group=FaultGroup.SOUND)
    past.job(lonely, 380, 370, group=FaultGroup.SOUND)
    past.job(past.unit(transport=None), 410, 400, group=None)


def not_one_mended(past):
    for outcome in (Outcome.DECLINED, Outcome.BEYOND_REPAIR, Outcome.UNCOLLECTED):
        past.job(past.unit(), 410, 400, outcome=outcome)


def back_before_it_came(past):
    past.job(past.unit(), 300, 310)
    past.job(past.unit(), 410, 400)


def a_change_without_a_standard(past):
    unit = past.unit()
    past.modification(unit, past.job(unit, 410, 400, outcome=Outcome.MENDED_MODIFIED), 401)


BOOKS = [
    empty,
    one_open,
    one_back,
    one_today,
    no_comebacks,
    all_comebacks,
    back_the_same_day,
    a_group_of_one,
    not_one_mended,
    back_before_it_came,
    a_change_without_a_standard,
]
ASKED = [
    Question(),
    Question(by=By.TECHNICIAN, same_group=False),
    Question(maker="nobody", group=FaultGroup.LIGHT),
    Question(since=date(2026, 3, 1), until=date(2020, 1, 1)),
]


def numbers_in(value):
    """Every float in an answer, also those that no paper shows."""
    if isinstance(value, float):
        yield value
    elif is_dataclass(value):
        for field in fields(value):
            yield from numbers_in(getattr(value, field.name))
    elif isinstance(value, tuple):
        for item in value:
            yield from numbers_in(item)


def texts_of(answer, wording):
    """What a person reads of an answer without a window."""
    why = answer.why
    yield wording(answer.headline)
    yield from map(wording, (*answer.said, *why.method, why.counted, why.events_are))
    yield json.dumps(as_data(answer, wording), allow_nan=False, ensure_ascii=False)
    yield sheet_text(*as_rows(answer, wording))


@pytest.mark.parametrize("write", BOOKS, ids=[book.__name__ for book in BOOKS])
def test_each_question_answers_without_a_number_out_of_nothing(past, write):
    with past.at_once():
        write(past)
    wording = plain(past.shop.book.zone)
    for name, answer_to in ANSWERS.items():
        for asked in ASKED:
            answer = answer_to(past.shop.book, asked)
            assert all(math.isfinite(number) for number in numbers_in(answer)), (name, asked)
            for text in texts_of(answer, wording):
                assert not NO_NUMBER.search(text), (name, asked, text)
            assert wording(answer.headline).strip()
            heads, rows = as_rows(answer, wording)
            table = list(csv.reader(io.StringIO(sheet_text(heads, rows).lstrip("\ufeff"))))
            assert all(len(line) == len(heads) for line in table if heads)
            picture = picture_of(answer)
            assert all(math.isfinite(number) for number in numbers_in(picture)), (name, asked)
            for made in tables_of(answer):
                assert all(len(line.cells) == len(made.columns) for line in made.lines), name


def test_a_filter_that_matches_nothing_says_so_and_an_empty_book_says_that(past):
    nobody = Question(maker="nobody")
    for name, answer_to in ANSWERS.items():
        assert answer_to(past.shop.book, nobody).headline.key == "No repair has been handed back yet.", name
    past.job(past.unit(), 410, 400)
    for name, answer_to in ANSWERS.items():
        assert answer_to(past.shop.book, nobody).headline.key.startswith("No job fits what is asked."), name


@pytest.mark.parametrize("name", list(ANSWERS))
def test_days_that_cannot_be_right_are_set_aside_and_counted(past, name):
    back_before_it_came(past)
    said = [sentence.key for sentence in ANSWERS[name](past.shop.book, Question()).said]
    assert "1 job was set aside: its days cannot be right." in said
