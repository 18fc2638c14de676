"""What is still to do before a job may be ready, handed back or invoiced, as open and ticked boxes.

Gates are no flags: while work goes on they are only shown. What holds the job is asked in `holds`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from app.trade.bench.case import safety_standing
from app.trade.bench.facts import JobFacts
from app.trade.bench.final_readings import finals_standing
from app.trade.bench.flags import evaluate
from app.trade.bench.flags_laser import LASER_SET, laser_drive_changed
from app.trade.bench.modification_words import what_it_is
from app.trade.bench.modifications import live
from app.trade.bench.stages import STAYS_HERE, Outcome
from app.trade.bench.thresholds import DEFAULTS, Thresholds
from app.trade.sentence import Sentence, words


class Asks(StrEnum):
    """What the job asks for. ``KEEP`` closes it while the player stays in the shop (donor, uncollected)."""

    READY = words("to be ready")
    HAND_BACK = words("to be handed back")
    INVOICE = words("to be invoiced")
    KEEP = words("to be kept here")


class GateState(StrEnum):
    """An open box, a ticked one, or a step that this job does not need (so far)."""

    TO_DO = words("to do")
    DONE = words("done")
    NOT_NEEDED = words("not needed")


_LEAVING = frozenset({Asks.READY, Asks.HAND_BACK})
# The steps that hold a job already when it asks to be ready; the others only at the door.
READY_GATES = frozenset({"safety_missing", "final_missing", "laser_no_power", "not_agreed"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Gate:
    """One step. ``words`` names it beside its box; ``how`` says how it was done, or why it is not needed."""

    rule: str
    words: Sentence
    state: GateState
    at: frozenset[Asks]
    reason: Sentence  # as a stop, once the job asks to pass while the step is open
    how: Sentence | None = None
    link: Sentence | None = None  # what to press to do it

    @property
    def open(self) -> bool:
        """Still to do."""
        return self.state is GateState.TO_DO


def ask_for(outcome: Outcome | None) -> Asks:
    """What closing a job with this outcome asks for."""
    return Asks.KEEP if outcome in STAYS_HERE else Asks.HAND_BACK


def gates_of(facts: JobFacts, thresholds: Thresholds = DEFAULTS) -> tuple[Gate, ...]:
    """The steps of this job, done and open, in the order in which they stand under "Still to do"."""
    return (
        _safety_missing(facts),
        _final_missing(facts, thresholds),
        *_laser_no_power(facts),
        _not_agreed(facts),
        _told(facts),
        *_disc_inside(facts),
        *_owner_sees(facts, thresholds),
        *_unsafe_return(facts),
    )


def _state(to_do: bool, needed: bool = True) -> GateState:
    if to_do:
        return GateState.TO_DO
    return GateState.DONE if needed else GateState.NOT_NEEDED


def _safety_missing(facts: JobFacts) -> Gate:
    standing = safety_standing(facts.mains_class, facts.case_events, facts.safety_tests)
    return Gate(
        rule="safety_missing",
        words=Sentence("safety test"),
        state=_state(standing.owed, standing.test is not None),
        at=_LEAVING,
        reason=standing.words,
        how=None if standing.owed else standing.words,
        link=Sentence("Enter the test"),
    )


def _final_missing(facts: JobFacts, thresholds: Thresholds) -> Gate:
    standing = finals_standing(facts, thresholds)
    return Gate(
        rule="final_missing",
        words=Sentence("final readings"),
        state=_state(standing.owed, standing.needed),
        at=_LEAVING,
        reason=standing.words,
        how=None if standing.owed else standing.words,
        link=Sentence("Enter a reading"),
    )


def _laser_no_power(facts: JobFacts) -> Iterator[Gate]:
    changes = laser_drive_changed(facts)
    set_by_us = [t.at for t in facts.trials if t.change == LASER_SET] + [m.at for m in changes if m.ours]
    if not changes and not set_by_us:
        return
    # A change that was found is older than every reading of this job.
    since = max(set_by_us, default=None)
    measured = [
        r for r in facts.readings if r.quantity == "optical_power" and (since is None or r.at >= since)
    ]
    yield Gate(
        rule="laser_no_power",
        words=Sentence("light after the lens"),
        state=_state(not measured),
        at=_LEAVING,
        reason=Sentence("Laser drive was changed; light after the lens was not measured."),
        how=Sentence("{y}", {"y": measured[-1].value}) if measured else None,
        link=Sentence("Enter a reading"),
    )


def _not_agreed(facts: JobFacts) -> Gate:
    ours = [m for m in live(facts.modifications) if m.ours]
    without = [m for m in ours if not m.agreed]
    return Gate(
        rule="not_agreed",
        words=Sentence("changes agreed"),
        state=_state(bool(without), bool(ours)),
        at=_LEAVING | {Asks.INVOICE},
        reason=Sentence(
            "Without the customer's yes, {n} change(s) stay in the player: {list}.",
            {"n": len(without), "list": tuple(what_it_is(m) for m in without)},
        ),
        how=_how_agreed(ours[-1].agreed) if ours and not without else _no_change(bool(ours)),
        link=Sentence("Note the customer's yes"),
    )


def _how_agreed(agreed: Sentence | str) -> Sentence:
    return Sentence("{agreed}", {"agreed": agreed})


def _no_change(any_change: bool) -> Sentence | None:
    return None if any_change else Sentence("no change stays in the player")


def _told(facts: JobFacts) -> Gate:
    changes = live(facts.modifications)
    unnamed = [m for m in changes if not m.named_on]
    return Gate(
        rule="told",
        words=Sentence("changes named on paper"),
        state=_state(bool(unnamed), bool(changes)),
        at=frozenset({Asks.HAND_BACK}),
        reason=Sentence(
            "Not named on the paper that goes with the player, {n} change(s): {list}.",
            {"n": len(unnamed), "list": tuple(what_it_is(m) for m in unnamed)},
        ),
        how=_how_agreed(changes[-1].named_on) if changes and not unnamed else _no_change(bool(changes)),
        link=Sentence("File the invoice or a service report"),
    )


def _disc_inside(facts: JobFacts) -> Iterator[Gate]:
    here = [d for d in facts.discs if not d.returned]
    if facts.discs:
        yield Gate(
            rule="disc_inside",
            words=Sentence("disc returned"),
            state=_state(bool(here)),
            # The player may stay as a donor; the customer's disc does not. Nobody fetches an uncollected one.
            at=frozenset({Asks.HAND_BACK, Asks.KEEP})
            if facts.outcome is not Outcome.UNCOLLECTED
            else frozenset({Asks.HAND_BACK}),
            reason=Sentence(
                "The customer's disc is still here: {places}.", {"places": tuple(d.place for d in here)}
            ),
            link=Sentence("Tick the disc"),
        )


def _owner_sees(facts: JobFacts, thresholds: Thresholds) -> Iterator[Gate]:
    """A caution that the owner has to acknowledge goes out of the door only when that was done."""
    asked = [f for f in evaluate(facts, thresholds) if f.owner_sees]
    waiting = [f for f in asked if not f.acknowledged]
    if asked:
        yield Gate(
            rule="owner_sees",
            words=Sentence("seen by the owner"),
            state=_state(bool(waiting)),
            at=frozenset({Asks.HAND_BACK}),
            reason=Sentence(
                "The owner has not acknowledged: {list}.",
                {"list": tuple(dict.fromkeys(f.word for f in waiting))},
            ),
            link=Sentence("Acknowledge"),
        )


def _unsafe_return(facts: JobFacts) -> Iterator[Gate]:
    """Steps of the returned unrepaired and unsafe, once the owner has decided it."""
    way = facts.unsafe_return
    if way is None:
        return
    for rule, name, done, reason in (
        (
            "unsafe_signed",
            Sentence("warning signed by the customer"),
            way.signed,
            Sentence("The customer has not signed the warning."),
        ),
        (
            "unsafe_tagged",
            Sentence("plug tagged"),
            way.plug_tagged,
            Sentence("The plug does not carry its tag."),
        ),
    ):
        yield Gate(
            rule=rule,
            words=name,
            state=_state(not done),
            at=frozenset({Asks.HAND_BACK}),
            reason=reason,
            link=Sentence("Tick it"),
        )
