"""Which repairs a question is about, and by what they are parted."""

from __future__ import annotations

import pytest

from app.book import tables as t
from app.trade.bench.kinds import Arrangement
from app.trade.bench.stages import CauseFound, Left, Outcome, TrialOutcome
from app.trade.sentence import Sentence
from app.trade.statistics.comebacks import By, Standing
from app.work.statistics.ground import ground_of
from app.work.statistics.question import Question


def trial(
    past, job, number, by, change="", words="cleaned the lens", outcome=TrialOutcome.CURED, struck=False
):
    with past.shop.book.change(past.shop.ine, Sentence("tried")) as change_:
        change_.add(
            t.Trial(
                job_id=job,
                number=number,
                change=change,
                words=words,
                outcome=outcome,
                left=Left.LEFT_SO,
                at=past.at(1),
                by=by,
                struck_at=past.at(0) if struck else None,
            )
        )


@pytest.fixture
def three(past):
    """An arm and a sled mended, and a player without a transport that was declined."""
    shop = past.shop
    arm, sled, bare = past.unit(), past.unit(transport="Grellin S1"), past.unit(transport="")
    past.arm = past.job(arm, 700, 690, cause=CauseFound.DIRT)
    past.sled = past.job(sled, 700, 690)
    past.bare = past.job(bare, 700, 690, outcome=Outcome.DECLINED)
    with shop.book.change(shop.ine, Sentence("renamed")) as change:
        change.get(t.Unit, sled).model = "Rowan"
        change.get(t.Unit, sled).maker = "Ostervik"
    past.modification(arm, past.arm, 695)
    trial(past, past.arm, 1, shop.tobbe, change="clean_lens")
    trial(past, past.arm, 2, shop.sanna, words="turned it", outcome=TrialOutcome.WORSE)
    trial(past, past.arm, 3, shop.mirr, struck=True)
    trial(past, past.sled, 1, shop.tobbe)
    with shop.book.change(shop.ine, Sentence("worked")) as change:
        labour = {"words": "looked", "hours": 1_000_000, "rate": 0, "vat_rate": 0, "at": past.at(1)}
        change.add(t.Labour(job_id=past.bare, by=shop.mirr, **labour))
    return past


def labels(past, **asked):
    ground = ground_of(past.shop.book, Question(**asked))
    labels = ground.labels.code[ground.rows].tolist()
    return {job: ground.labels.texts[label] for job, label in zip(ground.job.tolist(), labels, strict=True)}


@pytest.mark.parametrize(
    ("by", "arm", "sled", "bare"),
    [
        (By.ARRANGEMENT, "swing-arm single-beam", "sled three-beam", "not known"),
        (By.MAKER, "Quellmar", "Ostervik", "Quellmar"),
        (By.MODEL, "Quellmar Larch 2", "Ostervik Rowan", "Quellmar Larch 2"),
        (By.CAUSE, "dirt or film", "not known", "not known"),
        (By.CHANGE, "clean_lens", "cleaned the lens", "not known"),
        (By.TECHNICIAN, "Sanna Wickerel", "Tobbe Ruskamp", "not known"),
    ],
)
def test_repairs_are_parted_by_what_their_job_says(three, by, arm, sled, bare):
    assert labels(three, by=by) == {three.arm: arm, three.sled: sled, three.bare: bare}


@pytest.mark.parametrize(
    ("asked", "kept"),
    [
        ({"transport_type": "Velk A1"}, {"arm"}),
        ({"arrangement": Arrangement.SLED}, {"sled"}),
        ({"maker": "Quellmar"}, {"arm", "bare"}),
        ({"model": "Rowan"}, {"sled"}),
        ({"change": "clean_lens"}, {"arm"}),
        ({"modified": True}, {"arm"}),
        ({"modified": False}, {"sled", "bare"}),
        ({"maker": "nobody"}, set()),
    ],
)
def test_only_the_repairs_asked_for(three, asked, kept):
    assert set(labels(three, **asked)) == {getattr(three, name) for name in kept}


def test_a_technicians_jobs_are_those_tried_or_worked_on(three):
    shop = three.shop
    assert set(labels(three, technician=shop.tobbe)) == {three.arm, three.sled}
    assert set(labels(three, technician=shop.mirr)) == {three.bare}


def test_names_are_said_as_they_are_known(three):
    book = three.shop.book
    assert ground_of(book, Question()).name("Velk A1") == "Velk A1"
    assert ground_of(book, Question()).name("not known") == Sentence("not known")
    assert ground_of(book, Question(by=By.FAULT_GROUP)).name("radial") == Sentence("radial")
    changes = ground_of(book, Question(by=By.CHANGE))
    assert changes.name("cleaned the lens") == "cleaned the lens"
    known = next(iter(changes.names))
    assert changes.name(known) is changes.names[known]


def test_a_declined_job_stands_as_the_definition_has_it(three):
    for declined, standing in ((False, Standing.NOT_MENDED), (True, Standing.HELD)):
        ground = ground_of(three.shop.book, Question(declined=declined))
        assert ground.stand(standing)[ground.job == three.bare].tolist() == [True]
