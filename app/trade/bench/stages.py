"""Where a job stands and how it closed, and the other words every record of the bench is kept with.

Each member's value is the English word itself: it is what the book stores and what the catalogue translates.
"""

from __future__ import annotations

from enum import StrEnum

from app.trade.sentence import Sentence, words


class Stage(StrEnum):
    """The steps of a job, in their order."""

    TAKEN_IN = words("taken in")
    ON_THE_BENCH = words("on the bench")
    RUNNING_IN = words("running in")
    READY = words("ready")
    HANDED_BACK = words("handed back")


class Waiting(StrEnum):
    """Beside the stage: what the job waits for. It is no step of its own."""

    NOTHING = words("nothing")
    ANSWER = words("answer")
    PART = words("part")
    CUSTOMER = words("customer")


class Outcome(StrEnum):
    """How a job closed."""

    MENDED = words("mended")
    MENDED_MODIFIED = words("mended with a modification")
    NO_FAULT_SHOWN = words("no fault shown")
    DECLINED = words("declined")
    BEYOND_REPAIR = words("beyond repair")
    REFUSED = words("refused")
    KEPT_AS_DONOR = words("kept as donor")
    UNCOLLECTED = words("uncollected")


class MainsClass(StrEnum):
    """Protection against electric shock (classes of IEC 61140), or where the player gets its power from."""

    I = words("class I")  # noqa: E741  # the class's own name
    II = words("class II")
    BATTERY = words("battery")
    EXTERNAL = words("external supply")
    NOT_KNOWN = words("not known")


class Moment(StrEnum):
    """When in the job a reading or start-up was taken."""

    ARRIVAL = words("arrival")
    DURING = words("during")
    FINAL = words("final")


class Mark(StrEnum):
    """What a member of staff may sign for."""

    OWNER = words("owner")
    COMPETENT = words("may test electrical safety")


class Way(StrEnum):
    """By which way the customer was spoken to."""

    IN_PERSON = words("in person")
    TELEPHONE = words("telephone")
    MESSAGE = words("message")
    LETTER = words("letter")


class CauseFound(StrEnum):
    """What was at the bottom of the fault, one for each closed job."""

    WORN = words("worn or aged part")
    ELECTRICAL = words("failed electrical part")
    DIRT = words("dirt or film")
    GREASE = words("grease or oil")
    CONTACT = words("joint, contact or flex")
    ADJUSTMENT = words("out of adjustment")
    DAMAGE = words("mechanical damage or foreign body")
    EARLIER_WORK = words("earlier repair or modification")
    DISC = words("disc or use")
    NO_FAULT = words("no fault shown")
    NOT_ESTABLISHED = words("not established")
    OTHER = words("other")


class Collector(StrEnum):
    """Who fetched the player."""

    CUSTOMER = words("the customer")
    TICKET = words("with the ticket")
    NAMED = words("named by telephone")
    TICKET_LOST = words("ticket lost")


class TrialOutcome(StrEnum):
    """What a trial did, as the technician decides it."""

    CURED = words("cured")
    BETTER = words("better")
    NO_DIFFERENCE = words("no difference")
    WORSE = words("worse")


class Left(StrEnum):
    """What became of a change that was tried."""

    NOT_SAID = words("not said")
    PUT_BACK = words("put back")
    LEFT_SO = words("left so")  # nothing outside the maker's design stays
    LEFT_INSIDE = words("left inside")  # a departure from the maker's design, so a modification
    RAISED_PUT_BACK = words("raised, put back")  # current, light, gain or supply beyond the maker's data

    @property
    def modifies(self) -> bool:
        """Whether the trial told by more than the maker's data: what it did establishes no cause."""
        return self in (Left.LEFT_INSIDE, Left.RAISED_PUT_BACK)

    @property
    def undone(self) -> bool:
        """Whether the change is out again."""
        return self in (Left.PUT_BACK, Left.RAISED_PUT_BACK)


class CaseStep(StrEnum):
    """The case of the player, opened or shut."""

    OPENED = words("case opened")
    CLOSED = words("case closed")


# With these the player stays in the shop: closing the job hands nothing back.
STAYS_HERE = frozenset({Outcome.KEPT_AS_DONOR, Outcome.UNCOLLECTED})
# With these the customer's fault was not worked on to an end.
NOT_MENDED = frozenset({Outcome.DECLINED, Outcome.BEYOND_REPAIR, Outcome.REFUSED})

_NEXT: dict[Stage, frozenset[Stage]] = {
    # Straight to ready: declined or refused before any work.
    Stage.TAKEN_IN: frozenset({Stage.ON_THE_BENCH, Stage.READY}),
    Stage.ON_THE_BENCH: frozenset({Stage.TAKEN_IN, Stage.RUNNING_IN, Stage.READY}),
    Stage.RUNNING_IN: frozenset({Stage.ON_THE_BENCH, Stage.READY}),
    Stage.READY: frozenset({Stage.ON_THE_BENCH, Stage.RUNNING_IN, Stage.HANDED_BACK}),
    Stage.HANDED_BACK: frozenset(),
}


def said(word: StrEnum) -> Sentence:
    """A stored word as a sentence, so that the edge words it in its language."""
    return Sentence(word.value)


def next_stages(stage: Stage) -> tuple[Stage, ...]:
    """The stages a job may move to from ``stage``, in their order."""
    return tuple(s for s in Stage if s in _NEXT[stage])


def move_refused(stage: Stage, to: Stage, outcome: Outcome | None) -> Sentence | None:
    """Why a job may not move from ``stage`` to ``to``; None when it may. Stops and gates are asked apart."""
    if stage is Stage.HANDED_BACK:
        return Sentence("This job is closed. A player that comes again is taken in as a new job.")
    if stage is to:
        return Sentence("The job is {stage} already.", {"stage": said(stage)})
    if to not in _NEXT[stage]:
        return Sentence(
            "A job that is {stage} cannot become {to}; it can become: {next}.",
            {"stage": said(stage), "to": said(to), "next": tuple(said(s) for s in next_stages(stage))},
        )
    if to is Stage.HANDED_BACK and outcome is None:
        return Sentence("Say first how the job ends: choose its outcome.")
    return None


def where_it_stands(stage: Stage, outcome: Outcome | None) -> Sentence:
    """The stage in words; a closed job whose player stays here is named by its outcome instead."""
    if stage is Stage.HANDED_BACK and outcome in STAYS_HERE:
        return said(outcome)
    return said(stage)
