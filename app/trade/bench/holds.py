"""What holds a job now: open stops from the first minute, open gates once it asks to pass.

The one way past an open safety stop is a customer's own unsafe player that goes back unrepaired.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from app.trade.bench.authority import MarkHeld, may_sign
from app.trade.bench.case import is_open
from app.trade.bench.facts import JobFacts
from app.trade.bench.flag import FlagRaised, Level, Subject
from app.trade.bench.flags import evaluate
from app.trade.bench.gates import Asks, gates_of
from app.trade.bench.stages import NOT_MENDED, Mark, said
from app.trade.bench.thresholds import DEFAULTS, Thresholds
from app.trade.sentence import Sentence

# Stops that the owner can let pass; everything else is put right first.
UNSAFE_RULES = frozenset(
    {"interlock", "fuse", "mains_wiring", "earth", "safety_part", "part_over", "safety_failed"}
)


def held_by(facts: JobFacts, asks: Asks, thresholds: Thresholds = DEFAULTS) -> tuple[Sentence, ...]:
    """Why the job may not pass, stops first, then the gates that are still open; empty when it may.

    A stop holds everything but keeping the player here, where it stays open on the unit.
    """
    stops = [f.sentence for f in evaluate(facts, thresholds) if f.level is Level.STOP]
    let_pass = facts.unsafe_return is not None and unsafe_way_closed(facts, thresholds) is None
    if asks is Asks.KEEP:
        stops = []
    elif let_pass:
        passed = {f.sentence for f in unsafe_stops(facts, thresholds)}
        stops = [s for s in stops if s not in passed]
    gates = [
        gate.reason
        for gate in gates_of(facts, thresholds)
        if gate.open and asks in gate.at and not (let_pass and gate.rule == "safety_missing")
    ]
    return tuple(dict.fromkeys([*stops, *gates]))


def held_sentence(asks: Asks) -> Sentence:
    """What stands above the reasons."""
    return {
        Asks.READY: Sentence("This job cannot be ready yet."),
        Asks.HAND_BACK: Sentence("This player cannot be handed back yet."),
        Asks.INVOICE: Sentence("This job cannot be invoiced yet."),
        Asks.KEEP: Sentence("This job cannot be closed yet."),
    }[asks]


def unsafe_stops(facts: JobFacts, thresholds: Thresholds = DEFAULTS) -> tuple[FlagRaised, ...]:
    """The open safety stops of the player itself. A request at the counter is refused, not let pass."""
    return tuple(
        f for f in evaluate(facts, thresholds) if f.rule in UNSAFE_RULES and f.subject is not Subject.JOB
    )


def electrical_dangers(facts: JobFacts) -> tuple[FlagRaised, ...]:
    """Open stops by which the player itself can start a fire or give a shock."""
    return tuple(f for f in unsafe_stops(facts) if f.rule != "interlock")


def unsafe_way_closed(facts: JobFacts, thresholds: Thresholds = DEFAULTS) -> Sentence | None:
    """Why this player may not go back unrepaired and unsafe, whoever asks; None when the facts allow it."""
    stops = unsafe_stops(facts, thresholds)
    if not stops:
        return Sentence("No safety stop came with this player: it goes back the usual way.")
    if facts.outcome not in NOT_MENDED:
        return Sentence(
            "Only a player that is not to be mended goes back unsafe: {outcomes}.",
            {"outcomes": tuple(said(o) for o in sorted(NOT_MENDED))},
        )
    made_here = _made_here(facts, stops)
    if made_here is not None:
        return Sentence("Our own work made it unsafe; that is put right first. {stop}", {"stop": made_here})
    if is_open(facts.case_events):
        return Sentence("The case is open: close it first.")
    return None


def _made_here(facts: JobFacts, stops: tuple[FlagRaised, ...]) -> Sentence | None:
    ours = {f"modification {m.number}" for m in facts.modifications if m.ours}
    return next((f.sentence for f in stops if f.detail in ours), None)


def unsafe_return_refused(
    facts: JobFacts,
    *,
    marks: Iterable[MarkHeld],
    day: date,
    reason: str,
    law_looked_at: bool,
    thresholds: Thresholds = DEFAULTS,
) -> Sentence | None:
    """Why the person with these marks may not decide it on ``day``; None when they may."""
    not_owner = may_sign(marks, Mark.OWNER, day)
    if not_owner is not None:
        return not_owner
    closed = unsafe_way_closed(facts, thresholds)
    if closed is not None:
        return closed
    if not reason.strip():
        return Sentence("Write the reason: it is printed on the sheet that the customer signs.")
    if not law_looked_at:
        return Sentence(
            "Local law comes first: it may forbid handing the player back, or ask for a report. Look, then tick it."
        )
    return None
