"""The catalogue of changes that are tried at the bench: what each addresses, needs and leaves behind."""

from __future__ import annotations

from collections.abc import Container, Mapping
from dataclasses import dataclass
from enum import StrEnum

from app.trade.bench.data_record import Record, unique
from app.trade.sentence import Sentence, words


class Grade(StrEnum):
    """How well a change addresses a suspect: aims at it, often helps, by the way."""

    AIMS = "A"
    OFTEN = "B"
    BY_THE_WAY = "C"


class Leaves(StrEnum):
    """What a change leaves in the player."""

    NOTHING = words("nothing")
    DEPENDS = words("depends")  # nothing within the maker's design, else a modification
    MODIFICATION = words("modification")
    FITTING = words("fitting")


@dataclass(frozen=True)
class BenchChange:
    """One change of the catalogue. ``addresses``: suspects with their grade; without one (None) the change
    also overcomes what it does not mend, and establishes no cause. ``leaves_words`` says it in full. ``last``:
    hard to undo or opens the pick-up, so kept for last."""

    id: str
    words: str
    addresses: Mapping[str, Grade | None]
    tools: str
    minutes: int
    leaves: Leaves
    leaves_words: str
    caution: str
    last: bool = False

    @property
    def name(self) -> Sentence:
        """Its words."""
        return Sentence(self.words)

    @property
    def quick(self) -> bool:
        """Leaves nothing and takes at most ten minutes: such changes come first."""
        return self.leaves is Leaves.NOTHING and self.minutes <= 10


def read_changes(data: object, suspects: Container[str]) -> dict[str, BenchChange]:
    """The catalogue from parsed JSON (the list in assets/bench/changes.json), by id, in its order. Refusal
    where the data are wrong: an id twice, a suspect nobody knows, a grade on what leaves a modification."""
    whole = Record({"changes": data}, "changes")
    changes = [_change(record, suspects) for record in whole.records("changes")]
    unique([change.id for change in changes], whole)
    return {change.id: change for change in changes}


def _change(record: Record, suspects: Container[str]) -> BenchChange:
    leaves = record.text("leaves")
    if leaves not in list(Leaves):
        record.refuse(Sentence("{leaves} is nothing that a change leaves", {"leaves": leaves}))
    addresses = _addresses(record.record("addresses"), suspects)
    if leaves == Leaves.MODIFICATION and any(addresses.values()):
        record.refuse(Sentence("a change that leaves a modification has no grade"))
    return BenchChange(
        id=record.text("id"),
        words=record.text("words"),
        addresses=addresses,
        tools=record.optional_text("tools"),
        minutes=record.whole("minutes", 1, 600),
        leaves=Leaves(leaves),
        leaves_words=record.text("leaves_words"),
        caution=record.optional_text("caution"),
        last=record.truth("last"),
    )


def _addresses(record: Record, suspects: Container[str]) -> dict[str, Grade | None]:
    addresses: dict[str, Grade | None] = {}
    for suspect, grade in record.items():
        if suspect not in suspects:
            record.refuse(Sentence("{suspect} is no suspect", {"suspect": suspect}))
        if grade is not None and grade not in list(Grade):
            record.refuse(Sentence("the grade of {suspect} is none of A, B and C", {"suspect": suspect}))
        addresses[suspect] = None if grade is None else Grade(str(grade))
    return addresses
