"""What fails on what, and what cured it."""

from __future__ import annotations

from app.book import tables as t
from app.book.bench.knowledge_data import shipped_knowledge
from app.trade.bench.stages import CauseFound, Left, TrialOutcome
from app.work.statistics.question import Question
from app.work.statistics.what_fails import CAUSE, FAULT_GROUP, TO_THE_END, what_fails
from tests.work.past import SOUND


def trial(past, job, number, rung, change="", outcome=TrialOutcome.CURED):
    return t.Trial(
        job_id=job,
        number=number,
        change=change,
        words="cleaned it",
        outcome=outcome,
        left=Left.LEFT_SO,
        rung_before=rung,
        at=past.at(1),
        by=past.shop.tobbe,
    )


def test_groups_and_causes_by_how_often_and_cures_by_rung(past, add):
    arm = past.unit()
    first = past.job(arm, 410, 400, cause=CauseFound.DIRT)
    second = past.job(past.unit(), 410, 400, cause=CauseFound.DIRT)
    third = past.job(past.unit(), 410, 400, group=SOUND)
    past.job(past.unit(transport="Grellin S1"), 410, 400, group=None)
    past.job(past.unit(), 5)
    open_job = past.job(past.unit(), 6)
    add(
        trial(past, first, 1, 10, "clean_lens"),
        trial(past, first, 2, 10, "clean_lens"),
        trial(past, second, 1, 10, "clean_lens"),
        trial(past, third, 1, 3),
        trial(past, third, 2, None),
        trial(past, third, 3, 4, outcome=TrialOutcome.BETTER),
        trial(past, open_job, 1, 3),
    )
    found = what_fails(past.shop.book, Question())
    bars = [(row.label, row.of, row.found.key, row.count, row.jobs) for row in found.rows]
    assert bars[:4] == [
        ("Velk A1", FAULT_GROUP, "radial", 2, (second, first)),
        ("Velk A1", FAULT_GROUP, "sound", 1, (third,)),
        ("Velk A1", CAUSE, "dirt or film", 2, (second, first)),
        ("Velk A1", CAUSE, "not known", 1, (third,)),
    ]
    assert (found.rows[0].share, found.rows[1].reached) == (2 / 3, 1.0)
    assert found.rows[4].found.key == "not known"
    assert [(cell.rung, cell.change, cell.cured, cell.jobs) for cell in found.grid] == [
        (4, "cleaned it", 1, (third,)),
        (11, "clean_lens", 2, (first, second)),
    ]
    ladder = shipped_knowledge().ladder
    assert [cell.rung_name for cell in found.grid] == [ladder.rung(4).name(None), ladder.rung(11).name(None)]
    assert found.headline.values["count"] == 2
    assert (found.why.n, found.why.events) == (4, 3)
    assert what_fails(past.shop.book, Question(transport_type="Grellin S1")).grid == ()


def test_a_player_that_played_to_the_end_before_its_cure_stopped_at_no_rung(past, add):
    job = past.job(past.unit(), 410, 400, group=SOUND)
    add(trial(past, job, 12, 12))
    (cell,) = what_fails(past.shop.book, Question()).grid
    assert (cell.rung, cell.rung_name) == (13, TO_THE_END)


def test_an_empty_book_is_a_sentence(past):
    found = what_fails(past.shop.book, Question())
    assert (found.headline.key, found.rows, found.grid) == ("No repair has been handed back yet.", (), ())
