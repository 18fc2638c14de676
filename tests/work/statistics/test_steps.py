"""What is told to whoever waits for an answer."""

from __future__ import annotations

import pytest

from app.trade.sentence import Sentence
from app.work.statistics.question import Question
from app.work.statistics.questions import ANSWERS
from app.work.statistics.steps import COUNTING, READING, Steps


class GaveUp(Exception):
    """Raised by the one who waits."""


@pytest.mark.parametrize("name", list(ANSWERS))
def test_every_answer_tells_how_far_it_is_and_ends_when_nobody_waits_any_more(past, name):
    past.job(past.unit(), 700, 690)
    told = []
    ANSWERS[name](past.shop.book, Question(), lambda *step: told.append(step))
    assert told[0][2] == READING
    assert [done for done, _, _ in told] == sorted(done for done, _, _ in told)
    assert all(0 <= done < of and isinstance(part, Sentence) for done, of, part in told)

    def give_up(*_):
        raise GaveUp

    with pytest.raises(GaveUp):
        ANSWERS[name](past.shop.book, Question(), give_up)


def test_more_parts_than_were_foreseen_are_never_more_than_all():
    told = []
    steps = Steps(lambda done, of, part: told.append((done, of, part)), 2)
    for _ in range(3):
        steps.next()
    assert told == [(0, 2, COUNTING), (1, 2, COUNTING), (1, 2, COUNTING)]
    Steps(None, 1).next()


def test_a_part_that_goes_on_is_told_again():
    told = []
    steps = Steps(lambda done, of, part: told.append((done, of, part)), 2)
    steps.still()
    steps.next()
    steps.still()
    assert told == [(0, 2, READING), (0, 2, COUNTING), (0, 2, COUNTING)]
