"""The case of the player, opened and closed, and whether its electrical safety test is still owed."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from app.trade.bench.facts import CaseEvent, SafetyTestFact
from app.trade.bench.stages import CaseStep, MainsClass, said
from app.trade.sentence import Sentence

# Mains voltage is, or may be, inside the player itself.
MAINS_INSIDE = frozenset({MainsClass.I, MainsClass.II, MainsClass.NOT_KNOWN})

# Every other quantity is an inside reading: taking it means that the case was opened.
TAKEN_WITHOUT_OPENING = frozenset(
    {
        "mains_v",
        "unit_power",
        "load_time",
        "leadin_time",
        "seek_time",
        "audio_level",
        "audio_balance",
        "pe_resistance",
        "insulation",
        "pe_current",
        "touch_current",
    }
)


def is_open(events: tuple[CaseEvent, ...]) -> bool:
    """Whether the case is open now; one that nobody opened counts as closed."""
    return bool(events) and events[-1].step is CaseStep.OPENED


def last_step(events: tuple[CaseEvent, ...], step: CaseStep) -> CaseEvent | None:
    """The latest opening or closing."""
    return next((event for event in reversed(events) if event.step is step), None)


def opened_in(events: tuple[CaseEvent, ...], job: int) -> bool:
    """Whether the case was opened in this job."""
    return any(event.job == job and event.step is CaseStep.OPENED for event in events)


def opens_the_case(quantity: str) -> bool:
    """Whether a reading of this quantity is taken inside the player."""
    return quantity not in TAKEN_WITHOUT_OPENING


def assumed_opening(events: tuple[CaseEvent, ...], *, at: datetime, by: str, job: int) -> CaseEvent | None:
    """The opening that the book takes for granted when a part, a modification or an inside reading is entered.

    None when the case is open already. ``at`` is the time of what was entered.
    """
    if at.tzinfo is None:
        raise ValueError("a naive instant has no place in the book")
    if is_open(events):
        return None
    return CaseEvent(CaseStep.OPENED, at, by, job, assumed=True)


def assumed_words(entered: Sentence) -> Sentence:
    """What the book says about it: ``entered`` is what was entered, such as a part or a reading."""
    return Sentence(
        "The case counted as closed. Since {entered} was entered, the book takes it as opened.",
        {"entered": entered},
    )


def step_refused(events: tuple[CaseEvent, ...], step: CaseStep) -> Sentence | None:
    """Why the case cannot be noted as opened or closed now; None when it can."""
    if step is CaseStep.OPENED and is_open(events):
        return Sentence("The case is noted as open already.")
    if step is CaseStep.CLOSED and not is_open(events):
        return Sentence("The case is noted as closed already.")
    return None


@dataclass(frozen=True, slots=True)
class SafetyStanding:
    """``owed``: a test has to be passed before the player may leave. ``words`` says why, or why not."""

    owed: bool
    words: Sentence
    test: SafetyTestFact | None = None


def safety_standing(
    mains_class: MainsClass, events: tuple[CaseEvent, ...], tests: tuple[SafetyTestFact, ...]
) -> SafetyStanding:
    """Whether the safety test is owed: mains inside, case opened, test absent or older than the last closing.

    ``events`` and ``tests`` are of the unit's whole life here, in the order of time, so that a player that
    went back unsafe still owes its test when it comes again.
    """
    if mains_class not in MAINS_INSIDE:
        return SafetyStanding(False, Sentence("no mains inside: {class}", {"class": said(mains_class)}))
    opening = last_step(events, CaseStep.OPENED)
    if opening is None:
        return SafetyStanding(False, Sentence("the case was not opened"))
    if mains_class is MainsClass.NOT_KNOWN:
        return SafetyStanding(
            True,
            Sentence("The mains class is not known: a competent person names it, then the player is tested."),
        )
    closing = last_step(events, CaseStep.CLOSED)
    if closing is None or is_open(events):
        return SafetyStanding(
            True, Sentence("The case is open since {at}: close it, then test.", {"at": opening.at})
        )
    failed = max((test.at for test in tests if test.failed), default=None)
    passed = [t for t in tests if t.counts and t.at >= closing.at and (failed is None or t.at > failed)]
    if passed:
        return SafetyStanding(
            False, Sentence("passed {at}, {by}", {"at": passed[-1].at, "by": passed[-1].by}), passed[-1]
        )
    return SafetyStanding(True, Sentence("Opened {at} and not tested since.", {"at": opening.at}))
