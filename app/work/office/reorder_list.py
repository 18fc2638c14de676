"""The reorder list: parts of which no more is on hand or on order than their reorder point says, with how many to order."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from decimal import Decimal
from typing import Any

from sqlalchemy import case, func, select

from app.book.door import Book
from app.book.office.part_orders import on_order
from app.book.office.shop_settings import settings_of
from app.book.tables import Part, PartMove
from app.trade.calendar.promise import local_day
from app.trade.money import MICRO, Money
from app.trade.office.reorder import LOOK_BACK, Reorder, Shelf, reorder
from app.trade.office.stock import MoveKind
from app.trade.settings.parts import LEAD_DAYS, ORDER_LASTS, SERVICE_LEVEL
from app.trade.settings.prices import CURRENCY
from app.work.office.parts import PartLine, part_line, pieces


@dataclass(frozen=True, slots=True)
class ReorderLine:
    """One part with its use and what follows. ``cost`` of the whole order, None where the part's is not known.

    ``lead_days`` and ``service`` (10^-4) are the part's own, else the shop's. ``used`` within ``found.seen`` days.
    """

    part: PartLine
    used: Decimal
    lead_days: int
    service: int
    found: Reorder
    cost: Money | None


def reorder_list(book: Book, *, every: bool = False, part_id: int | None = None) -> tuple[ReorderLine, ...]:
    """What to order now, by supplier and code; with ``every`` all parts in use, those with enough as well.

    ``part_id`` asks about one part alone.
    """
    with book.ask() as session:
        settings, now, today = settings_of(session), book.now(), book.today()
        summed = _moves_since(now - timedelta(days=LOOK_BACK))
        if part_id is not None:
            summed = summed.where(PartMove.part_id == part_id)
        moves, ordered = summed.subquery(), on_order()
        question = (
            select(Part, moves.c.first, moves.c.on_hand, moves.c.used, ordered.c.sum, ordered.c.next)
            .outerjoin(moves, moves.c.part_id == Part.id)
            .outerjoin(ordered, ordered.c.part_id == Part.id)
            .where(Part.retired.is_(False) if part_id is None else Part.id == part_id)
            .order_by(Part.code)
        )
        lines = []
        for row, first, on_hand, used, to_come, expected_on in session.execute(question):
            line = part_line(row, on_hand or 0, to_come or 0, expected_on)
            shelf = Shelf(
                line.on_hand,
                pieces(used or 0),
                today if first is None else local_day(first, book.zone),
                line.lead_days or settings[LEAD_DAYS],
                line.service or settings[SERVICE_LEVEL],
                line.on_order,
            )
            found = reorder(shelf, today, lasts_days=settings[ORDER_LASTS])
            if found.order or every:
                lines.append(
                    ReorderLine(
                        line,
                        shelf.used,
                        shelf.lead_days,
                        shelf.service,
                        found,
                        _cost(line, found.order, settings[CURRENCY]),
                    )
                )
    # Parts without a supplier stand last: nothing can be ordered of them before somebody says where.
    lines.sort(key=lambda line: (not line.part.supplier, line.part.supplier.casefold(), line.part.code))
    return tuple(lines)


def _moves_since(since: datetime) -> Any:
    """Per part: its first move, what is on hand, and what was fitted less put back since then."""
    counts = PartMove.kind.in_((MoveKind.USED, MoveKind.PUT_BACK)) & (PartMove.at >= since)
    return select(
        PartMove.part_id,
        func.min(PartMove.at).label("first"),
        func.sum(PartMove.quantity).label("on_hand"),
        func.sum(case((counts, -PartMove.quantity), else_=0)).label("used"),
    ).group_by(PartMove.part_id)


def _cost(line: PartLine, order: int, currency: str) -> Money | None:
    if line.cost is None:
        return None
    return Money.of(Decimal(line.cost) * order / MICRO, currency)
