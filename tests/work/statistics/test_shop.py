"""How the shop goes."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from app.book import tables as t
from app.trade.bench.stages import Waiting
from app.trade.money import Money
from app.trade.sentence import Sentence
from app.work.statistics.question import Question
from app.work.statistics.shop import AgeRow, at_share, the_shop
from tests.work.past import DAY

TODAY = date(2026, 3, 12)


def test_jobs_in_and_out_by_week_with_the_weeks_between(past):
    job = past.job(past.unit(), 24, 3)  # a Monday
    past.job(past.unit(), 25)  # the Sunday before
    found = the_shop(past.shop.book, Question())
    assert [(row.first, row.taken_in, row.handed_back, row.jobs) for row in found.rows] == [
        (date(2026, 2, 9), 1, 0, ()),
        (date(2026, 2, 16), 1, 0, ()),
        (date(2026, 2, 23), 0, 0, ()),
        (date(2026, 3, 2), 0, 0, ()),
        (date(2026, 3, 9), 0, 1, (job,)),
    ]
    assert found.headline.values == {"came": 2, "left": 1}
    narrow = the_shop(past.shop.book, Question(since=TODAY - 24 * DAY, until=TODAY - 10 * DAY))
    assert narrow.headline.values == {"came": 1, "left": 0}
    assert narrow.stay.median is None


def test_how_long_jobs_stay_and_wait(past):
    past.job(past.unit(), 30, 28)
    slow = past.job(past.unit(), 40, 20)
    for hours, waiting in ((0, Waiting.PART), (24, Waiting.CUSTOMER), (48, Waiting.NOTHING)):
        past.shop.clock.advance(hours=24 if hours else 0)
        with past.shop.book.change(past.shop.ine, Sentence("waits")) as change:
            change.get(t.Job, slow).waiting = waiting
    stay = the_shop(past.shop.book, Question()).stay
    assert (stay.n, stay.median, stay.ninth_tenth) == (2, 2.0, 20.0)
    assert (stay.waiting_median, stay.waiting_ninth_tenth) == (0.0, 2.0)


def test_promises_are_kept_by_the_day_it_was_ready(past):
    kept = {"promised_on": TODAY - 5 * DAY, "ready_at": past.at(5)}
    past.job(past.unit(), 30, 1, **kept)
    late = past.job(past.unit(), 30, 3, promised_on=TODAY - 4 * DAY)
    past.job(past.unit(), 30, 3)
    promises = the_shop(past.shop.book, Question()).promises
    assert (promises.kept, promises.broken, promises.without, promises.broken_jobs) == (1, 1, 1, (late,))


def test_work_in_hand_by_its_age(past):
    young, old = past.job(past.unit(), 7), past.job(past.unit(), 91)
    past.job(past.unit(), 90)
    past.job(past.unit(), 400, 390)
    first, second, third, last = the_shop(past.shop.book, Question()).in_hand
    assert first == AgeRow(0, 7, 1, (young,))
    assert (second.count, third.count, last) == (0, 1, AgeRow(91, None, 1, (old,)))


def test_hours_by_person_and_turnover_by_month(past, add):
    job = past.job(past.unit(), 30, 3)
    money = dict.fromkeys(
        ("lines_net", "discount", "charge", "vat", "gross", "prepaid", "rounding", "due"), 0
    )
    own = {
        "job_id": job,
        "customer_id": past.customer,
        "issued_at": past.at(3),
        "issued_by": past.shop.ine,
        "currency": "EUR",
        "groups": [],
        "line_count": 1,
        "adjustments": [],
    }
    (invoice,) = add(
        t.Invoice(number=1, issued_on=date(2026, 3, 9), net=100_00, **money, **own),
    )
    del money["prepaid"]
    add(
        t.Invoice(number=2, issued_on=date(2026, 1, 9), net=7_00, prepaid=0, **money, **own),
        t.CreditNote(
            number=1,
            issued_on=date(2026, 3, 10),
            net=40_00,
            invoice_id=invoice,
            reason="wrong",
            **money,
            **own,
        ),
        t.Labour(
            job_id=job, words="", hours=1_500_000, rate=0, vat_rate=0, at=past.at(4), by=past.shop.tobbe
        ),
        t.Labour(job_id=job, words="", hours=500_000, rate=0, vat_rate=0, at=past.at(5), by=past.shop.tobbe),
        t.Labour(job_id=job, words="", hours=900_000, rate=0, vat_rate=0, at=past.at(500), by=past.shop.ine),
    )
    found = the_shop(past.shop.book, Question(since=TODAY - 100 * DAY))
    assert [(row.name, row.hours, row.jobs) for row in found.technicians] == [
        ("Tobbe Ruskamp", Decimal(2), (job,))
    ]
    assert [(row.first, row.net) for row in found.turnover] == [
        (date(2026, 1, 1), Money(7_00, "EUR")),
        (date(2026, 3, 1), Money(60_00, "EUR")),
    ]


def test_filters_reach_jobs_taken_in_work_in_hand_and_hours(past, add):
    arm, sled = past.unit(), past.unit(transport="Grellin S1")
    here, other = past.job(arm, 5), past.job(sled, 5)
    past.job(arm, 30, 20)
    for job, who in ((here, past.shop.tobbe), (here, past.shop.ine), (other, past.shop.tobbe)):
        add(t.Labour(job_id=job, words="", hours=1_000_000, rate=0, vat_rate=0, at=past.at(4), by=who))
    found = the_shop(past.shop.book, Question(transport_type="Velk A1"))
    assert found.headline.values == {"came": 2, "left": 1}
    assert [row.jobs for row in found.in_hand] == [(here,), (), (), ()]
    assert [(row.name, row.jobs) for row in found.technicians] == [
        ("Ine Varloes", (here,)),
        ("Tobbe Ruskamp", (here,)),
    ]
    found = the_shop(past.shop.book, Question(transport_type="Velk A1", technician=past.shop.tobbe))
    assert [row.name for row in found.technicians] == ["Tobbe Ruskamp"]
    assert the_shop(past.shop.book, Question(maker="nobody")).headline.key.startswith("No job fits")


def test_what_a_filter_cannot_reach_is_said(past):
    said = [sentence.key for sentence in the_shop(past.shop.book, Question(modified=False)).said]
    assert any("acts on jobs handed back only" in words for words in said)


def test_a_job_handed_back_before_it_came_is_set_aside(past):
    past.job(past.unit(), 20, 30)
    past.job(past.unit(), 30, 20)
    found = the_shop(past.shop.book, Question())
    assert found.stay.n == 1
    assert "1 job was set aside" in found.said[-1].key


def test_a_promise_leans_on_jobs_like_it_and_on_open_days(past):
    with past.at_once():
        for days in (1, 1, 2, 3, 4, 5, 6, 7, 14, 28):
            past.job(past.unit(), 45, 10, ready_at=past.at(45 - days))
    found = the_shop(past.shop.book, Question()).promise
    # taken in on Monday 26 January: seven days later is the fifth open day behind it
    assert (found.n, found.of_ten, found.working_days) == (10, 8, 5)
    assert found.sentence.values == {"of_ten": 8, "days": 5}
    assert the_shop(past.shop.book, Question(maker="nobody")).promise.working_days is None


def test_shares_of_a_list_are_values_of_the_list():
    # nearest rank: counted by hand
    assert at_share([3, 1, 2], 0.5) == 2
    assert at_share(range(1, 11), 0.9) == 9
    assert at_share([5], 0.9) == 5
    assert at_share([], 0.5) is None


def test_an_empty_book_is_a_sentence(past):
    found = the_shop(past.shop.book, Question())
    assert (found.headline.key, found.rows) == ("No repair has been handed back yet.", ())
