"""What came after some invoices: reminders, a part of one paid with a receipt, and a reminder of the rest."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime

from app.trade.bench.kinds import Means
from app.trade.money import Money
from app.work.office.open_items import OpenItem, issue_reminder, open_items
from app.work.office.payments import take_payment
from app.work.office.receipts import issue_receipt
from demo_db.hands import Shop


def after_invoices(shop: Shop, last: date) -> Iterator[datetime]:
    """Ine goes through the open items twice; in between the one who owes last brings half of it."""
    yield _ago(shop, last, 25, "17:20")
    for item in _late(shop):
        _remind(shop, item)
    yield _ago(shop, last, 4, "11:35")
    for item in _late(shop)[:1]:
        half = Money(item.open.minor // 200 * 100, item.open.currency)
        note = "the rest next month"
        paid = take_payment(shop.book, shop.people["mirr"], item.job_id, half, Means.CASH, note=note).value
        shop.file(issue_receipt(shop.book, shop.people["mirr"], paid).value)
    yield _ago(shop, last, 3, "17:10")
    for item in _late(shop)[:2]:
        _remind(shop, item)


def _ago(shop: Shop, last: date, weekdays: int, clock: str) -> datetime:
    """An instant so many days before, counted from Monday to Friday: on Saturdays the shop shuts early."""
    day = last
    for _ in range(weekdays):
        day = shop.days.working_before(day)
    return shop.days.at(day, clock)


def _late(shop: Shop) -> list[OpenItem]:
    """Those that can be reminded of, the latest invoice first."""
    late = [item for item in open_items(shop.book) if item.not_now is None]
    return sorted(late, key=lambda item: item.pay_by, reverse=True)


def _remind(shop: Shop, item: OpenItem) -> None:
    shop.file(issue_reminder(shop.book, shop.people["ine"], item.invoice_id).value)
