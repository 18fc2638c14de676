"""What a planned job comes to: the very lines that are put on it, worked out by the trade's own arithmetic."""

from __future__ import annotations

from decimal import Decimal

from app.trade.money import MICRO, Money
from app.trade.office.invoice import Draft, Line, LineKind, Totals, net_of, work_out
from demo_db.plan import PlannedJob
from demo_db.scenario import Scenario

FEE_WORDS = "looking at the player, with report by telephone"
FEE = 45 * MICRO  # with VAT
RATE = 1900


def lines_of(job: PlannedJob, scenario: Scenario) -> tuple[Line, ...]:
    """Labour and part, or the fee of a player that was not mended."""
    if not job.mended:
        net = net_of(FEE, RATE)
        return (Line(FEE_WORDS, LineKind.FEE, MICRO, "C62", net, RATE, price_with_vat=FEE),)
    rate = int(Decimal(scenario.settings["hourly_rate"]) * MICRO)
    lines = [Line(job.repair.work, LineKind.LABOUR, int(job.hours * MICRO), "HUR", rate, RATE)]
    for part in scenario.parts:
        if part.code == job.part:
            price = int(Decimal(part.price) * MICRO)
            lines.append(Line(part.words, LineKind.PART, MICRO, "H87", price, RATE))
    return tuple(lines)


def totals_of(job: PlannedJob, scenario: Scenario) -> Totals:
    """The invoice of the job."""
    return work_out(Draft("EUR", lines_of(job, scenario)))


def due_of(job: PlannedJob, scenario: Scenario) -> Money:
    """What is to be paid."""
    return totals_of(job, scenario).due
