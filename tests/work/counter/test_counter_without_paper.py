"""Jobs that are copied from older records get no papers of today."""

from __future__ import annotations

from typing import Any

from sqlalchemy import func, select

from app.book.tables import HandBack as HandBackRow
from app.book.tables import Paper
from app.trade.bench.stages import Collector, Outcome
from app.trade.counter.hand_back import HandBack
from app.trade.counter.taking_in import Intake
from app.work.counter.hand_back import hand_back
from app.work.counter.taking_in import receive_unit


def count(shop: Any, table: Any) -> int:
    with shop.book.ask() as session:
        return int(session.scalar(select(func.count()).select_from(table)) or 0)


def test_no_ticket_and_no_receipt_where_none_is_wanted(shop: Any) -> None:
    intake = Intake(name="Odile Varenne", maker="Ostrind", model="Osier 7", serial="20 1184", fault="dead")
    received = receive_unit(shop.book, shop.mirr, intake, ticket=False).value
    assert received.ticket_id == 0
    form = HandBack(outcome=Outcome.DECLINED, collector=Collector.CUSTOMER)
    assert hand_back(shop.book, shop.mirr, received.job_id, form, receipt=False).value.receipt_id is None
    assert (count(shop, Paper), count(shop, HandBackRow)) == (0, 1)
