"""A proposed comeback at the bench: confirmed by one button, denied with a usual reason or own words, taken back."""

from __future__ import annotations

from typing import Any

import pytest

from app.book.tables import Job
from app.trade.bench.kinds import ComebackStanding, FaultGroup
from app.trade.bench.stages import Outcome, Stage
from app.trade.sentence import Sentence


@pytest.fixture
def back(workbench: Any) -> Any:
    """The player was mended, and stands here again 47 days later with the fault words of before."""
    bench = workbench.bench
    former = bench.job
    with bench.book.change(bench.tobbe, Sentence("imported")) as change:
        job = change.get(Job, former)
        job.fault_group, job.outcome = FaultGroup.RADIAL, Outcome.MENDED
        job.stage, job.handed_back_at = Stage.HANDED_BACK, change.now
    bench.come_again(47)
    with bench.book.change(bench.tobbe, Sentence("imported")) as change:
        job = change.get(Job, bench.job)
        job.comeback_of_id, job.comeback = former, ComebackStanding.PROPOSED
    return workbench


def stands(workbench: Any) -> tuple[Any, str]:
    with workbench.bench.book.ask() as session:
        job = session.get_one(Job, workbench.bench.job)
        return job.comeback, job.comeback_reason


def flag_of(page: Any) -> Any:
    return next((line for line in page.head.flags.lines() if line.flag.word == "comeback"), None)


def test_the_caution_asks_and_one_button_confirms(back: Any) -> None:
    page = back.job()
    one, another = flag_of(page)._buttons
    assert (one.text(), another.text()) == ("It is one", "Another fault…")
    assert "Nobody has said yet" in page.body.visits.head.accessibleName()
    back.click(one)
    assert stands(back) == (ComebackStanding.CONFIRMED, "")
    assert flag_of(page)._buttons == []
    assert page.body.visits.said._rows[-1].text() == "It is one"


def test_a_usual_reason_denies_it_the_caution_goes_and_the_word_can_be_taken_back(back: Any) -> None:
    page = back.job()
    back.click(flag_of(page)._buttons[1])
    visits = page.body.visits
    assert visits.open.first_field() is visits.open.reason
    back.save()
    assert visits.open.reason.error() == "Say why it is no comeback."
    back.click(visits.open.usual[0])
    back.save()
    assert stands(back) == (ComebackStanding.DENIED, "other disc problem")
    assert flag_of(page) is None
    assert "no comeback of job" in visits.head.accessibleName()
    assert "It is none: other disc problem" in visits.said._rows[-1].text()
    back.click(visits.back_link)
    assert stands(back) == (ComebackStanding.PROPOSED, "")
    assert flag_of(page) is not None
    assert [row.text() for row in visits.said._rows][-1] == "Taken back"


def test_own_words_are_kept_and_nothing_is_guessed(back: Any) -> None:
    page = back.job()
    visits = page.body.visits
    visits.set_opened(True)
    back.click(visits.decide_link)
    form = visits.open
    assert form.first_field() is None
    back.save()
    assert form.standing.value() is None
    form.standing.set_value(ComebackStanding.CONFIRMED)
    form.reason.set_text("the arm sticks again")
    back.save()
    assert stands(back) == (ComebackStanding.CONFIRMED, "the arm sticks again")


def test_nobody_at_the_bench_says_nothing(back: Any) -> None:
    page = back.job()
    back.desk.set_staff(None)
    page.body.visits.decide(ComebackStanding.CONFIRMED)
    back.settle()
    assert page.trouble.words.startswith("Say first who works here now")
    assert stands(back)[0] is ComebackStanding.PROPOSED
