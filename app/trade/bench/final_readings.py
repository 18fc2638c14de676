"""Whether the final readings of a job are there, and whether the player leaves no worse than it came."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from app.trade.bench.circuit_ratio import circuit_ratios
from app.trade.bench.facts import JobFacts
from app.trade.bench.flags_coil import COIL_READINGS
from app.trade.bench.stages import NOT_MENDED, STAYS_HERE
from app.trade.bench.thresholds import Thresholds
from app.trade.sentence import Sentence

WARM_MINUTES = 30


@dataclass(frozen=True, slots=True)
class FinalsStanding:
    """``needed``: this job asks for final readings at all. ``owed``: some are still to be taken."""

    needed: bool
    owed: bool
    words: Sentence


def worked_on(facts: JobFacts) -> bool:
    """Something was tried, fitted, changed or put back in this job."""
    return bool(facts.trials or facts.parts_fitted) or any(
        (m.ours and m.job == facts.number) or (m.reversal is not None and m.reversal.at >= facts.taken_in)
        for m in facts.modifications
    )


def finals_standing(facts: JobFacts, thresholds: Thresholds) -> FinalsStanding:
    """Final readings that the shop's sheet asks for, the start-up, and what raised coil current asks for.

    A reason given by the technician stands for all but the last.
    """
    if facts.outcome in STAYS_HERE:
        return FinalsStanding(False, False, Sentence("the player stays here"))
    if facts.outcome in NOT_MENDED and not worked_on(facts):
        return FinalsStanding(False, False, Sentence("nothing was changed in this job"))
    coil = tuple(_missing_for_coil(facts, thresholds))
    if coil:
        return FinalsStanding(
            True,
            True,
            Sentence("Coil current was raised, final readings missing: {list}.", {"list": coil}),
        )
    if facts.finals_reason:
        return FinalsStanding(True, False, Sentence("{reason}", {"reason": facts.finals_reason}))
    missing = tuple(_missing(facts))
    if missing:
        return FinalsStanding(True, True, Sentence("Final readings missing: {list}.", {"list": missing}))
    if facts.rung_arrival is not None and (facts.rung_final or 0) < facts.rung_arrival:
        return FinalsStanding(
            True,
            True,
            Sentence(
                "The player leaves worse than it came: rung {arrival} to rung {final}.",
                {"arrival": facts.rung_arrival, "final": facts.rung_final or 0},
            ),
        )
    return FinalsStanding(True, False, Sentence("taken"))


def _missing(facts: JobFacts) -> Iterator[Sentence]:
    if facts.rung_final is None:
        yield Sentence("start-up")
    taken = {r.quantity for r in facts.finals}
    for quantity, name in facts.finals_wanted:
        if quantity not in taken:
            yield name


def _missing_for_coil(facts: JobFacts, thresholds: Thresholds) -> Iterator[Sentence]:
    """What a coil current raised in this job asks for at the end; found in this job is raised in it too."""
    raised = [
        ratio.circuit
        for ratio in circuit_ratios(facts.modifications)
        if ratio.circuit in COIL_READINGS
        and ratio.k is not None
        and ratio.k > thresholds.coil_up
        and any(m.job == facts.number for m in ratio.modifications)
    ]
    taken = {r.quantity for r in facts.finals}
    if raised and "driver_temp" not in taken:
        yield Sentence("driver temperature")
    for circuit in raised:
        of_coil = [r for r in facts.finals if r.quantity == COIL_READINGS[circuit]]
        if not any(not r.warm_minutes for r in of_coil):
            yield Sentence("coil resistance cold")
        if not any((r.warm_minutes or 0) >= WARM_MINUTES for r in of_coil):
            yield Sentence("coil resistance after 30 min")
    if raised and "dropout_passed" not in taken:
        yield Sentence("dropout passed")
