"""Whether the final readings of a job are there, and whether the player leaves no worse than it came."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from app.trade.bench.circuit_ratio import circuit_ratios
from app.trade.bench.facts import JobFacts
from app.trade.bench.flags_coil import COIL_READINGS
from app.trade.bench.modifications import Circuit
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
    arrival, final = facts.rung_arrival, facts.rung_final
    if arrival is not None and final is not None and final < arrival:
        return FinalsStanding(
            True,
            True,
            Sentence(
                "The player leaves worse than it came: rung {arrival} to rung {final}.",
                {"arrival": arrival, "final": final},
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


@dataclass(frozen=True, slots=True)
class AskedFinal:
    """A final reading that a raised coil current asks for. ``warm``: after at least 30 minutes of play, cold,
    or either (None)."""

    quantity: str
    warm: bool | None
    words: Sentence

    def is_met_by(self, quantity: str, warm_minutes: int | None) -> bool:
        """Whether a final reading of this quantity, after so many minutes, is the one asked for."""
        if quantity != self.quantity:
            return False
        if self.warm is None:
            return True
        return (warm_minutes or 0) >= WARM_MINUTES if self.warm else not warm_minutes


def asked_by_coil(circuits: Iterable[Circuit]) -> tuple[AskedFinal, ...]:
    """The final readings that raised current in these coils asks for, in the order in which they are taken."""
    raised = [circuit for circuit in circuits if circuit in COIL_READINGS]
    if not raised:
        return ()
    asked = [AskedFinal("driver_temp", None, Sentence("driver temperature"))]
    for circuit in raised:
        asked.append(AskedFinal(COIL_READINGS[circuit], False, Sentence("coil resistance cold")))
        asked.append(AskedFinal(COIL_READINGS[circuit], True, Sentence("coil resistance after 30 min")))
    return (*asked, AskedFinal("dropout_passed", None, Sentence("dropout passed")))


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
    for asked in asked_by_coil(raised):
        if not any(asked.is_met_by(r.quantity, r.warm_minutes) for r in facts.finals):
            yield asked.words
