"""What guarantee work and unrepaired jobs cost."""

from __future__ import annotations

from decimal import Decimal

import pytest

from app.book import tables as t
from app.trade.bench.kinds import ComebackStanding
from app.trade.bench.stages import Outcome
from app.trade.money import Money
from app.trade.office.guarantee import Answer
from app.trade.office.stock import MoveKind
from app.trade.sentence import Sentence
from app.work.statistics.cost import cost
from app.work.statistics.question import Question

ONE = 1_000_000


@pytest.fixture
def part(past, add):
    """Two parts at 30 and 5; the first cost the shop 12, what the second cost is not known."""
    return add(
        t.Part(code="PU", words="pick-up", price=30 * ONE, vat_rate=1900, cost=12 * ONE),
        t.Part(code="B", words="belt", price=5 * ONE, vat_rate=1900),
    )


def labour(past, job, hours, struck=False):
    return t.Labour(
        job_id=job,
        words="looked",
        hours=round(hours * ONE),
        rate=60 * ONE,
        vat_rate=1900,
        at=past.at(1),
        by=past.shop.tobbe,
        struck_at=past.at(0) if struck else None,
    )


def answer(past, job, former, said):
    return t.GuaranteeAnswer(job_id=job, former_job_id=former, answer=said, at=past.at(1), by=past.shop.ine)


def move(past, job, part, quantity, price, kind=MoveKind.USED):
    return t.PartMove(
        part_id=part,
        kind=kind,
        quantity=quantity * ONE,
        job_id=job,
        price=price * ONE,
        vat_rate=1900,
        at=past.at(1),
        by=past.shop.ine,
    )


def test_hours_parts_and_charges_of_work_that_was_not_charged(past, add, part):
    pick_up, belt = part
    unit, sled = past.unit(), past.unit(transport="Grellin S1")
    first = past.job(unit, 410, 400)
    free, charged = past.job(unit, 350, 340), past.job(unit, 300, 290)
    other = past.job(sled, 350, 340)
    add(
        answer(past, free, first, Answer.CHARGED),
        answer(past, free, first, Answer.NO_CHARGE),
        answer(past, charged, first, Answer.CHARGED),
        answer(past, other, first, Answer.NO_INVOICE),
        labour(past, free, 1.5),
        labour(past, free, 9, struck=True),
        labour(past, other, 0.25),
        labour(past, charged, 4),
        move(past, free, pick_up, -1, 28),
        move(past, free, belt, -3, 5),
        move(past, free, belt, 1, 5, MoveKind.PUT_BACK),
        move(past, None, belt, 10, 5, MoveKind.RECEIVED),
    )
    found = cost(past.shop.book, Question())
    arm, other_row = found.rows
    assert (arm.label, arm.hours, arm.jobs) == ("Velk A1", Decimal("1.5"), (free,))
    assert (arm.parts, arm.lost) == (Money(22_00, "EUR"), Money(128_00, "EUR"))
    assert (other_row.hours, other_row.lost) == (Decimal("0.25"), Money(15_00, "EUR"))
    assert found.headline.values == {"jobs": 2, "hours": Decimal("1.75"), "lost": Money(143_00, "EUR")}


def test_one_job_is_one_job(past, add):
    unit = past.unit()
    first, free = past.job(unit, 410, 400), past.job(unit, 350, 340)
    add(answer(past, free, first, Answer.NO_INVOICE))
    assert cost(past.shop.book, Question()).headline.key.startswith("Guarantee work: 1 job,")


def test_comebacks_that_nobody_decided_about_are_counted_and_said(past, add):
    with past.at_once():
        for _ in range(2):
            unit = past.unit()
            first = past.job(unit, 410, 400, guarantee_until=past.at(300).date())
            past.job(unit, 350, 340, comeback_of_id=first, comeback=ComebackStanding.CONFIRMED)
    found = cost(past.shop.book, Question())
    assert [(row.count, row.undecided) for row in found.rows] == [(2, 2)]
    assert found.said[1].values == {"count": 2}
    one = cost(past.shop.book, Question(until=past.at(340).date())).said
    assert len(one) == 3
    with past.shop.book.change(past.shop.ine, Sentence("charged")) as change:
        change.add(
            t.GuaranteeAnswer(
                job_id=2, former_job_id=1, answer=Answer.CHARGED, at=past.at(1), by=past.shop.ine
            )
        )
    found = cost(past.shop.book, Question())
    assert found.said[1].key == "Of these, nobody has decided about 1 job."


def test_time_that_went_into_jobs_not_repaired(past, add):
    jobs = [past.job(past.unit(), 410, 400, outcome=Outcome.BEYOND_REPAIR) for _ in range(3)]
    declined = past.job(past.unit(), 410, 407, outcome=Outcome.DECLINED)
    add(labour(past, jobs[0], 2), labour(past, jobs[1], 0.5))
    found = cost(past.shop.book, Question())
    assert found.headline.key == "No job was done without charge under the guarantee"
    assert [
        (row.outcome, row.count, row.hours, row.median_hours, row.median_days) for row in found.unrepaired
    ] == [
        (Outcome.DECLINED, 1, Decimal(0), Decimal(0), Decimal(3)),
        (Outcome.BEYOND_REPAIR, 3, Decimal("2.5"), Decimal("0.5"), Decimal(10)),
    ]
    assert found.unrepaired[0].jobs == (declined,)


def test_an_empty_book_is_a_sentence(past):
    assert cost(past.shop.book, Question()).headline.key == "No repair has been handed back yet."
