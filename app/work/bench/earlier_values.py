"""What stands beside a field before anything is typed: this transport's last value, and the shop's median."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from statistics import median
from typing import Any

from sqlalchemy import select

from app.book.bench.catalogue import quantities
from app.book.door import Book
from app.book.tables import Fitting, Job, Reading, Transport, TransportType
from app.trade.bench.units import UNITS
from app.trade.sentence import Measure


@dataclass(frozen=True, slots=True)
class EarlierValues:
    """``last`` with its day and job is this transport's own; ``median`` is over the last value of each of
    ``count`` other transports of ``type``, None below three."""

    last: Measure | None
    last_at: datetime | None
    last_job: int
    median: Measure | None
    count: int
    type: str


FEWEST = 3
NOTHING = EarlierValues(None, None, 0, None, 0, "")


def earlier_values(book: Book, job_id: int, quantity: str, detail: str) -> EarlierValues:
    """The values known of a quantity before the next reading of it in this job."""
    with book.ask() as session:
        inside: Any = session.execute(
            select(Transport.id, Transport.type_id, TransportType.name)
            .join(TransportType, TransportType.id == Transport.type_id)
            .join(Fitting, Fitting.transport_id == Transport.id)
            .join(Job, Job.unit_id == Fitting.unit_id)
            .where(Job.id == job_id, Fitting.removed_at.is_(None))
        ).first()
        known = quantities(session).get(quantity)
        if inside is None or known is None:
            return NOTHING
        rows = session.execute(
            select(Reading.transport_id, Reading.digits, Reading.unit, Reading.at, Job.number)
            .join(Transport, Transport.id == Reading.transport_id)
            .join(Job, Job.id == Reading.job_id)
            .where(
                Transport.type_id == inside.type_id,
                Reading.quantity == quantity,
                Reading.detail == detail,
                Reading.struck_at.is_(None),
                Reading.bound == "",
                Reading.digits.is_not(None),
            )
        ).all()
    latest: dict[int, Any] = {}
    for row in sorted(rows, key=lambda r: r.at):
        latest[row.transport_id] = row
    own = latest.pop(inside.id, None)
    others: list[Decimal] = [row.digits for row in latest.values()]
    return EarlierValues(
        last=None if own is None else Measure(UNITS[own.unit].to_shown(own.digits), own.unit),
        last_at=None if own is None else own.at,
        last_job=0 if own is None else own.number,
        median=known.rounded(median(others)) if len(others) >= FEWEST else None,
        count=len(others),
        type=inside.name,
    )
