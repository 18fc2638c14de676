"""Safety notes on papers: wording for the technician and for the customer, and when each is printed.

Own wording; local rules and a competent person decide.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from app.trade.bench.data_record import Record
from app.trade.sentence import Sentence, Value


@dataclass(frozen=True, kw_only=True)
class Situation:
    """What was so in this job, as far as safety notes depend on it."""

    opened: bool = False
    laser_driven_open: bool = False
    pickup_handled: bool = False
    mains_inside: bool = False
    supply_opened: bool = False
    heat: bool = False  # a driver or coil temperature was read, a coil runs hot, or something was soldered
    soldered_or_cleaned: bool = False
    swing_arm_opened: bool = False
    modified: bool = False
    adds_heat: bool = False  # a live modification does
    refused: bool = False  # something unsafe was asked for and refused
    stop_open: bool = False
    returned_unsafe: bool = False
    wiring_work: bool = False  # on cord, plug or earth
    transit_lock: bool = False
    posted: bool = False


_WHEN: dict[str, Callable[[Situation], bool]] = {
    "laser": lambda s: s.opened,
    "esd": lambda s: s.pickup_handled,
    "mains": lambda s: s.mains_inside,
    "capacitors": lambda s: s.supply_opened,
    "hot": lambda s: s.heat or s.adds_heat,
    "fume": lambda s: s.soldered_or_cleaned,
    "magnet": lambda s: s.swing_arm_opened,
    "modified": lambda s: s.modified,
    "refused": lambda s: s.refused,
    "stop_use": lambda s: s.stop_open,
    "unsafe_return": lambda s: s.returned_unsafe,
    "safety_test": lambda s: s.mains_inside and s.opened,
    "wiring": lambda s: s.wiring_work,
    "transit": lambda s: s.transit_lock or s.posted,
}
_LARGE: dict[str, Callable[[Situation], bool]] = {
    "laser": lambda s: s.laser_driven_open,
    "unsafe_return": lambda s: True,
}
_CUSTOMER_ONLY_WHEN: dict[str, Callable[[Situation], bool]] = {"hot": lambda s: s.adds_heat}


@dataclass(frozen=True)
class SafetyNote:
    """One note. Its texts are templates whose braces the paper fills; empty: nothing for that reader."""

    id: str
    title: str
    technician: str
    customer: str

    def for_technician(self, **values: Value) -> Sentence:
        """The wording on the technician's paper."""
        return Sentence(self.technician, values)

    def for_customer(self, **values: Value) -> Sentence:
        """The wording on the customer's paper."""
        return Sentence(self.customer, values)


@dataclass(frozen=True)
class NoteDue:
    """A note to print, with the readers it is for; ``large`` in its own frame."""

    note: SafetyNote
    technician: bool
    customer: bool
    large: bool


def read_safety_notes(data: object) -> dict[str, SafetyNote]:
    """The notes from parsed JSON (the list in assets/bench/safety_notes.json), by id, in the order of print.
    Refusal where one is missing, twice or not known."""
    whole = Record({"safety_notes": data}, "safety_notes")
    notes = [
        SafetyNote(
            record.text("id"),
            record.text("title"),
            record.optional_text("technician"),
            record.optional_text("customer"),
        )
        for record in whole.records("safety_notes")
    ]
    if sorted(note.id for note in notes) != sorted(_WHEN):
        whole.refuse(Sentence("a safety note is missing, twice or not known"))
    return {note.id: note for note in notes}


def notes_due(notes: Mapping[str, SafetyNote], situation: Situation) -> tuple[NoteDue, ...]:
    """The notes to print for a job, in their order."""
    due = []
    for note in notes.values():
        if not _WHEN[note.id](situation):
            continue
        customer = bool(note.customer) and _CUSTOMER_ONLY_WHEN.get(note.id, _always)(situation)
        large = _LARGE.get(note.id, _never)(situation)
        due.append(NoteDue(note, bool(note.technician), customer, large))
    return tuple(due)


def _always(_: Situation) -> bool:
    return True


def _never(_: Situation) -> bool:
    return False
