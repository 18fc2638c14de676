"""Symptom words of a job: said, denied, taken back; who answered when stays in history."""

from __future__ import annotations

from typing import Any

import pytest

from app.trade.bench.evidence import Asked
from app.trade.refusal import Refusal
from app.work.bench.history_of_job import history_of_job
from app.work.bench.symptoms import answer_symptoms, symptom_answers


def test_words_are_said_or_denied_and_the_rest_is_not_asked(bench: Any) -> None:
    assert symptom_answers(bench.book, bench.job) == {}
    done = answer_symptoms(
        bench.book, bench.tobbe, bench.job, {"warm": Asked.DENIED, "cold": Asked.SAID, "tap": Asked.NOT_ASKED}
    )
    assert bench.job in done.changes.jobs
    assert symptom_answers(bench.book, bench.job) == {"warm": Asked.DENIED, "cold": Asked.SAID}


def test_an_answer_can_be_corrected_and_taken_back(bench: Any) -> None:
    answer_symptoms(bench.book, bench.tobbe, bench.job, {"warm": Asked.DENIED, "cold": Asked.SAID})
    answer_symptoms(bench.book, bench.tobbe, bench.job, {"warm": Asked.SAID, "cold": Asked.NOT_ASKED})
    assert symptom_answers(bench.book, bench.job) == {"warm": Asked.SAID}
    answer_symptoms(bench.book, bench.tobbe, bench.job, {"cold": Asked.DENIED})
    assert symptom_answers(bench.book, bench.job) == {"warm": Asked.SAID, "cold": Asked.DENIED}


def test_the_same_answer_again_writes_nothing(bench: Any) -> None:
    answer_symptoms(bench.book, bench.tobbe, bench.job, {"warm": Asked.DENIED})
    before = len(history_of_job(bench.book, bench.job))
    answer_symptoms(bench.book, bench.tobbe, bench.job, {"warm": Asked.DENIED})
    assert len(history_of_job(bench.book, bench.job)) == before


def test_a_closed_job_keeps_its_answers(bench: Any) -> None:
    bench.close()
    with pytest.raises(Refusal, match="closed"):
        answer_symptoms(bench.book, bench.tobbe, bench.job, {"warm": Asked.SAID})
