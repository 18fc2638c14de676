"""Why a part is ordered again or not, in one line."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal

from app.screens.language import number, say
from app.work.office.reorder_list import ReorderLine


def rounded(value: Decimal, places: int = 1) -> str:
    """A number to so many decimals."""
    return number(value.quantize(Decimal(1).scaleb(-places), rounding=ROUND_HALF_UP))


def why_words(line: ReorderLine) -> str:
    """Use, waiting time, wanted service and the reorder point that follows."""
    found = line.found
    if not found.per_month:
        return say("None was used in the last {days} days, so none is ordered.", days=found.seen)
    return say(
        "{use} a month by the last {seen} days. Until an order comes in {lead} days, {point} are enough in {level} of "
        "100 cases: order when no more are there or on order.",
        use=rounded(found.per_month),
        seen=found.seen,
        lead=line.lead_days,
        point=found.point,
        level=line.service // 100,
    )
