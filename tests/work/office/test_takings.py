"""The takings of a day run from midnight to midnight of the shop's own time."""

from __future__ import annotations

from datetime import UTC, date, datetime

from app.trade.bench.kinds import Means
from app.trade.money import Money
from app.work.office.invoices import issue_invoice
from app.work.office.payments import give_back, take_payment
from app.work.office.takings import days_takings


def euros(minor):
    return Money(minor, "EUR")


def test_a_day_without_money_came_to_nothing(worked):
    found = days_takings(worked.book)
    assert (found.day, found.lines, found.sum) == (date(2026, 3, 12), (), euros(0))
    assert [line.count for line in found.means] == [0, 0, 0]


def test_deposits_payments_and_money_given_back_are_counted_by_means(worked):
    take_payment(worked.book, worked.who, worked.job, euros(10000), Means.CASH, note="deposit")
    issue_invoice(worked.book, worked.who, worked.job)
    take_payment(worked.book, worked.who, worked.job, euros(2000), Means.CARD)
    give_back(worked.book, worked.who, worked.job, euros(124), Means.CASH)
    found = days_takings(worked.book)
    assert [(line.kind, line.invoice, line.amount.minor) for line in found.lines] == [
        ("deposit", "", 10000),
        ("payment", "0001", 2000),
        ("refund", "0001", -124),
    ]
    assert found.lines[0].by == "Ine Varloes"
    assert [line.sum for line in found.means] == [euros(9876), euros(2000), euros(0)]
    assert found.sum == euros(11876)


def test_a_payment_after_midnight_belongs_to_the_next_day_of_the_shop(worked):
    clock = worked.shop.clock
    clock.instant = datetime(2026, 3, 12, 22, 59, tzinfo=UTC)  # 23:59 in Berlin
    take_payment(worked.book, worked.who, worked.job, euros(100), Means.CASH)
    clock.instant = datetime(2026, 3, 12, 23, 1, tzinfo=UTC)  # 00:01 in Berlin
    take_payment(worked.book, worked.who, worked.job, euros(200), Means.CASH)
    assert days_takings(worked.book, date(2026, 3, 12)).sum == euros(100)
    assert days_takings(worked.book, date(2026, 3, 13)).sum == euros(200)
