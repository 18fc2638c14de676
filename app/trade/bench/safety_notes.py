"""The one list of safety notes: each with its reader, its words, its sign, and the condition that prints it.

Own wording; local rules and a competent person decide. The words stand in assets/bench/safety_notes.json, the
conditions that they name stand here.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from app.trade.bench.changes_told import change_lines
from app.trade.bench.data_record import Record
from app.trade.bench.facts import JobFacts
from app.trade.bench.holds import electrical_dangers, unsafe_stops
from app.trade.bench.modifications import live
from app.trade.bench.safety_situation import Situation, passed_test, situation_of
from app.trade.sentence import Sentence, Value, joined


class Reader(StrEnum):
    """Who reads a note, and where: on the intake ticket, on what leaves with the player (invoice and service
    report, one box for each of two people), beside the job while it is worked on."""

    TICKET = "ticket"
    USER = "user"
    TECHNICIAN = "technician"
    BENCH = "bench"


class NoteSign(StrEnum):
    """The drawing beside a note, by the name that papers know it."""

    GENERAL = "general"
    LASER = "laser"
    ELECTRIC = "electric"
    STATIC = "static"
    HOT = "hot"
    PLUG = "plug"


CONDITIONS: Mapping[str, Callable[[Situation], bool]] = {
    "always": lambda s: True,
    "opened": lambda s: s.opened,
    "laser driven open": lambda s: s.laser_driven_open,
    "pick-up handled": lambda s: s.pickup_handled,
    "mains inside": lambda s: s.mains_inside,
    "no mains inside": lambda s: not s.mains_inside,
    "mains opened": lambda s: s.mains_inside and s.opened,
    "supply opened": lambda s: s.mains_inside and s.opened,  # the supply lies open with the case
    "hot parts": lambda s: s.heat or s.adds_heat,
    "soldered or cleaned": lambda s: s.soldered_or_cleaned,
    "swing arm opened": lambda s: s.swing_arm_opened,
    "modified": lambda s: s.modified > 0,
    "modified in one place": lambda s: s.modified == 1 and not s.way_back_unknown,
    "modified in several places": lambda s: s.modified > 1 and not s.way_back_unknown,
    "modified, the way back not known": lambda s: s.way_back_unknown,
    "a current changed, no mains inside": lambda s: s.current_changed and not s.mains_inside,
    "refused": lambda s: s.refused,
    "stop open": lambda s: s.stop_open,
    "danger": lambda s: s.danger,
    "returned unsafe": lambda s: s.returned_unsafe,
    "tested": lambda s: s.tested,
    "work on the wiring": lambda s: s.wiring_work,
    "transit lock or post": lambda s: s.transit_lock or s.posted,
}


@dataclass(frozen=True, slots=True)
class SafetyNote:
    """One line of the list. ``lead`` stands out and ``text`` follows, templates both; ``when`` and ``large`` name
    a condition, under which it is printed, and stands out of the others; ``large`` may be empty: never."""

    id: str
    reader: Reader
    when: str
    lead: str
    text: str
    sign: NoteSign | None = None
    large: str = ""


@dataclass(frozen=True, slots=True)
class NoteTold:
    """A note that applies to a job, its braces filled."""

    id: str
    title: Sentence
    text: Sentence
    sign: NoteSign | None = None
    large: bool = False


def read_safety_notes(data: object) -> tuple[SafetyNote, ...]:
    """The list from parsed JSON (assets/bench/safety_notes.json), in the order of print. Refusal where a reader, a
    sign or a condition is not known."""
    whole = Record({"safety_notes": data}, "safety_notes")
    return tuple(_note(record) for record in whole.records("safety_notes"))


def _note(record: Record) -> SafetyNote:
    reader, sign = record.text("reader"), record.optional_text("sign")
    when, large = record.text("when"), record.optional_text("large")
    if reader not in set(Reader) or (sign and sign not in set(NoteSign)):
        record.refuse(Sentence("its reader or its sign is not known"))
    if when not in CONDITIONS or (large and large not in CONDITIONS):
        record.refuse(Sentence("its condition is not known"))
    return SafetyNote(
        record.text("id"),
        Reader(reader),
        when,
        record.text("lead"),
        record.text("text"),
        NoteSign(sign) if sign else None,
        large,
    )


def notes_for(
    reader: Reader,
    notes: Sequence[SafetyNote],
    facts: JobFacts,
    *,
    swing_arm: bool = False,
    standard: str = "",
) -> tuple[NoteTold, ...]:
    """What this reader is told of this job, in the order of print. ``standard``: as the shop entered it."""
    situation = situation_of(facts, swing_arm=swing_arm)
    return tuple(
        NoteTold(
            note.id,
            Sentence(note.lead),
            Sentence(note.text, _values(note, facts, standard)),
            note.sign,
            bool(note.large) and CONDITIONS[note.large](situation),
        )
        for note in notes
        if note.reader is reader and CONDITIONS[note.when](situation)
    )


def _values(note: SafetyNote, facts: JobFacts, standard: str) -> dict[str, Value]:
    """What the braces of a note stand for, those of its own only."""
    values = _known(note.id, facts, standard)
    return {name: value for name, value in values.items() if f"{{{name}}}" in note.text}


def _known(note: str, facts: JobFacts, standard: str) -> dict[str, Value]:
    match note:
        case "do_not_use":
            return {"what": tuple(dict.fromkeys(f.word for f in electrical_dangers(facts)))}
        case "modified":
            changes = tuple(change_lines(facts))
            return {"n": len(live(facts.modifications)), "changes": joined(changes)}
        case "refused":
            return {"what": tuple(asked.what for asked in facts.asked if asked.refused)}
        case "unsafe_return":
            assert facts.unsafe_return is not None
            what = tuple(dict.fromkeys(f.word for f in unsafe_stops(facts)))
            return {"what": what, "reason": facts.unsafe_return.reason}
        case "safety_test":
            test = passed_test(facts)
            if test is not None:
                return {"standard": test.edition, "date": test.at}
            return {"standard": standard or Sentence("no standard and edition entered yet")}
        case _:
            return {}
