"""When to order a part again: demand in its lead time as a Poisson number, and the stock that meets it.

Use arrives one job at a time, each job independent of the others, so the number used in a time is taken as a
Poisson number with the mean seen so far. That holds for single parts of many jobs; it holds less for what is
used by the dozen.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date
from decimal import ROUND_CEILING, Decimal

RATE_UNIT = 10_000
LOOK_BACK = 365  # days of moves that use is taken from: every season once
LEAST_SEEN = 30  # days: one fitted on the first day is no use of thirty a month
MONTH = Decimal("30.4375")  # days, a year through 12


def reorder_point(mean: float, service: int) -> int:
    """The smallest stock s with P(D <= s) at least ``service`` (10^-4), D Poisson with this ``mean`` in the lead time.

    Raises ValueError for a mean below zero or not finite, and for a service level that is not between 0 and 1.
    """
    from scipy.special import pdtr, pdtrik

    if not 0 <= mean < math.inf:
        raise ValueError(f"no reorder point for a mean of {mean}")
    if not 0 < service < RATE_UNIT:
        raise ValueError(f"no reorder point for a service level of {service}")
    wanted = service / RATE_UNIT
    if float(pdtr(0, mean)) >= wanted:
        return 0
    # The continuous inverse ends within one of the whole number; the sum itself decides.
    point = max(math.ceil(float(pdtrik(wanted, mean))) - 1, 1)
    while float(pdtr(point, mean)) < wanted:
        point += 1
    return point


@dataclass(frozen=True, slots=True)
class Shelf:
    """What is known of one part. ``used``: fitted less put back within `LOOK_BACK`; ``since``: its first move;
    ``on_order``: how many are ordered and still to come."""

    on_hand: Decimal
    used: Decimal
    since: date
    lead_days: int
    service: int  # 10^-4
    on_order: Decimal = Decimal(0)


@dataclass(frozen=True, slots=True)
class Reorder:
    """What follows. ``order`` is 0 while enough is there; ``seen`` the days that use was counted over."""

    seen: int
    per_month: Decimal
    in_lead_time: Decimal
    point: int
    order: int


def reorder(shelf: Shelf, today: date, *, lasts_days: int) -> Reorder:
    """Whether to order, and how many: up to the reorder point and ``lasts_days`` of use above it.

    An order is due as soon as no more is on hand or on its way than the reorder point says. What is never used is
    not ordered.
    """
    seen = min(LOOK_BACK, max((today - shelf.since).days + 1, LEAST_SEEN))
    per_day = max(shelf.used, Decimal(0)) / seen
    mean = per_day * shelf.lead_days
    point = reorder_point(float(mean), shelf.service)
    order, there = 0, shelf.on_hand + shelf.on_order
    if per_day and there <= point:
        wanted = point + per_day * lasts_days - there
        order = max(1, int(wanted.to_integral_value(rounding=ROUND_CEILING)))
    return Reorder(seen, per_day * MONTH, mean, point, order)
