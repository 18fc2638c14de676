"""What is still to do before a job may be ready, handed back or invoiced, and what holds it now."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

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
