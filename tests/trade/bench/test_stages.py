"""Stages of a job and the moves between them."""

from __future__ import annotations

from enum import StrEnum
from itertools import pairwise

import pytest

from app.trade.bench import stages
from app.trade.bench.stages import Outcome, Stage, move_refused, next_stages, said, where_it_stands
from app.trade.sentence import Sentence
from app.trade.wording import Wording


def test_a_job_goes_from_the_counter_over_the_bench_to_the_customer() -> None:
    way = [Stage.TAKEN_IN, Stage.ON_THE_BENCH, Stage.RUNNING_IN, Stage.READY, Stage.HANDED_BACK]
    assert list(Stage) == way
    for here, there in pairwise(way):
        assert move_refused(here, there, Outcome.MENDED) is None


def test_a_declined_player_becomes_ready_without_the_bench() -> None:
    assert move_refused(Stage.TAKEN_IN, Stage.READY, Outcome.DECLINED) is None


def test_a_ready_player_can_go_back_to_the_bench() -> None:
    assert next_stages(Stage.READY) == (Stage.ON_THE_BENCH, Stage.RUNNING_IN, Stage.HANDED_BACK)


def test_nothing_is_handed_back_from_the_bench(english: Wording) -> None:
    refused = move_refused(Stage.ON_THE_BENCH, Stage.HANDED_BACK, Outcome.MENDED)
    assert refused is not None
    assert english(refused) == (
        "A job that is on the bench cannot become handed back; it can become: taken in, running in, ready."
    )


def test_a_job_without_an_outcome_is_not_handed_back() -> None:
    assert move_refused(Stage.READY, Stage.HANDED_BACK, None) == Sentence(
        "Say first how the job ends: choose its outcome."
    )


def test_a_closed_job_stays_closed_and_says_what_to_do_instead() -> None:
    refused = move_refused(Stage.HANDED_BACK, Stage.ON_THE_BENCH, Outcome.MENDED)
    assert refused is not None
    assert "new job" in refused.key


def test_a_job_is_told_when_it_stands_there_already(english: Wording) -> None:
    refused = move_refused(Stage.READY, Stage.READY, None)
    assert refused is not None
    assert english(refused) == "The job is ready already."


def test_a_donor_is_not_called_handed_back() -> None:
    assert where_it_stands(Stage.HANDED_BACK, Outcome.KEPT_AS_DONOR) == Sentence("kept as donor")
    assert where_it_stands(Stage.HANDED_BACK, Outcome.MENDED) == Sentence("handed back")
    assert where_it_stands(Stage.READY, Outcome.KEPT_AS_DONOR) == Sentence("ready")


@pytest.mark.parametrize(
    "words",
    [w for w in vars(stages).values() if isinstance(w, type) and issubclass(w, StrEnum) and w is not StrEnum],
)
def test_every_stored_word_is_the_word_that_people_read(words: type[StrEnum]) -> None:
    for word in words:
        assert word.value == word.value.strip()
        assert said(word) == Sentence(word.value)
        assert not word.value.isdigit()
