"""Parts of a large book: taken from stock by visits, and bought again before they run out."""

from __future__ import annotations

from datetime import datetime, timedelta

from app.trade.money import MICRO
from demo_db.hands import Shop, micro
from demo_db.many.rows import Rows
from demo_db.scenario import Scenario
from demo_db.sums import RATE

LOW, BOUGHT = 4, 40


class Stock:
    """What lies on the shelf while visits go by."""

    def __init__(self, shop: Shop, texts: Scenario, rows: Rows) -> None:
        self._keys = shop.parts
        self._buyer = shop.people["mirr"]
        self._rows = rows
        self._prices = {part.code: micro(part.price) for part in texts.parts}
        self._there = {part.code: part.stock for part in texts.parts}

    def use(self, code: str, job: int, by: int, at: datetime) -> None:
        """Take one for a job."""
        if self._there[code] <= LOW:
            self._there[code] += BOUGHT
            self._move(code, "received", BOUGHT, None, self._buyer, at - timedelta(hours=3))
        self._there[code] -= 1
        self._move(code, "used", -1, job, by, at)

    def _move(self, code: str, kind: str, count: int, job: int | None, by: int, at: datetime) -> None:
        self._rows.add(
            "part_moves",
            part_id=self._keys[code],
            kind=kind,
            quantity=count * MICRO,
            job_id=job,
            price=self._prices[code],
            vat_rate=RATE,
            at=at,
            by=by,
        )
