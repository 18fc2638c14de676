"""The bench's own safety notes for one job: which of them apply, with their words filled in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from app.trade.bench.case import MAINS_INSIDE, opened_in, safety_standing
from app.trade.bench.cautions import NoteSign, PaperNote, change_lines
from app.trade.bench.circuit_ratio import circuit_ratios
from app.trade.bench.facts import JobFacts, SafetyTestFact
from app.trade.bench.flags import evaluate
from app.trade.bench.flags_coil import COIL_READINGS, coil_warmings
from app.trade.bench.holds import UNSAFE_RULES, unsafe_stops
from app.trade.bench.kinds import TransitLock
from app.trade.bench.modifications import RESISTOR_KINDS, Circuit, Kind, Modification, live
from app.trade.bench.safety_notes import NoteDue, SafetyNote, Situation, notes_due
from app.trade.sentence import Sentence, Value

# Changes of the catalogue during which something is soldered, or cleaned with alcohol (bench practice, no source).
SOLDERED = frozenset(
    {
        "resolder", "servo_caps", "supply_caps", "regulator", "mains_part", "laser_supply_fix", "flex_renew",
        "driver_renew", "servo_part", "decoder", "audio_fix", "logic_fix", "coil_current", "sled_motor",
        "load_motor",
    }
)  # fmt: skip
CLEANED = frozenset({"clean_lens", "clean_behind", "clean_clamp", "switch_clean", "arm_clean"})
PICKUP_HANDLED = frozenset({"pickup_renew", "transport_swap", "flex_renew", "reseat"})
_LASER_DRIVEN = frozenset({"laser_current", "laser_rel", "optical_power"})
_MAINS_SIDE = frozenset({Circuit.MAINS, Circuit.EARTH})
# Notes that stand on a paper by themselves; the others are told there by C1 to C5 and T1 to T5.
_FOR_USER = frozenset({"refused", "wiring", "transit", "safety_test"})
_FOR_TECHNICIAN = frozenset({"hot", "fume", "magnet", "refused", "wiring", "transit"})
_SIGNS = {"hot": NoteSign.HOT}


@dataclass(frozen=True, slots=True)
class BenchNote:
    """One note with its words; None: nothing for that reader. ``large``: it stands out."""

    id: str
    title: Sentence
    technician: Sentence | None
    customer: Sentence | None
    large: bool = False


def situation_of(facts: JobFacts, *, swing_arm: bool) -> Situation:
    """What the bench's safety notes depend on, as the facts tell it."""
    opened = opened_in(facts.case_events, facts.number)
    changes = live(facts.modifications)
    quantities = {r.quantity for r in facts.readings}
    changed = {t.change for t in facts.trials}
    done_here = [m for m in facts.modifications if m.ours and m.job == facts.number]
    soldered = bool(changed & SOLDERED) or any(m.kind in RESISTOR_KINDS for m in done_here)
    warmed = any(coil_warmings(facts.readings, quantity) for quantity in COIL_READINGS.values())
    mains = facts.mains_class in MAINS_INSIDE
    return Situation(
        opened=opened,
        laser_driven_open=opened and bool(quantities & _LASER_DRIVEN),
        pickup_handled=opened and bool(changed & PICKUP_HANDLED),
        mains_inside=mains,
        supply_opened=opened and mains,  # the supply lies open with the case
        heat=soldered or warmed or "driver_temp" in quantities,
        soldered_or_cleaned=soldered or bool(changed & CLEANED),
        swing_arm_opened=opened and swing_arm,
        modified=bool(changes),
        adds_heat=any(
            r.of_current and r.k is not None and r.k > 1 for r in circuit_ratios(facts.modifications)
        )
        or any(_raised(m) for m in changes),
        refused=any(asked.refused for asked in facts.asked),
        stop_open=any(f.rule in UNSAFE_RULES for f in evaluate(facts)),
        returned_unsafe=facts.unsafe_return is not None,
        wiring_work=any(m.circuit in _MAINS_SIDE for m in facts.modifications),
        transit_lock=facts.transit_lock is not TransitLock.NONE,
        posted=facts.by_post,
    )


def _raised(m: Modification) -> bool:
    """A rail above the maker's voltage, or one of which that is not known."""
    if m.kind is not Kind.SUPPLY:
        return False
    return m.maker_value is None or m.new_value is None or abs(m.new_value) > abs(m.maker_value)


def bench_notes(
    notes: Mapping[str, SafetyNote], facts: JobFacts, *, swing_arm: bool, standard: str = ""
) -> tuple[BenchNote, ...]:
    """The notes that apply now, in their order. ``standard``: as the shop entered it, with its edition."""
    due = notes_due(notes, situation_of(facts, swing_arm=swing_arm))
    return tuple(_filled(one, facts, standard) for one in due)


def _filled(due: NoteDue, facts: JobFacts, standard: str) -> BenchNote:
    note, values = due.note, _values(due.note.id, facts, standard)
    customer = due.customer
    if note.id == "safety_test":  # "tested" is said only of a test that was passed
        customer = _tested(facts) is not None
    return BenchNote(
        note.id,
        Sentence(note.title),
        Sentence(note.technician, values) if due.technician else None,
        Sentence(note.customer, values) if customer and note.id != "modified" else None,
        due.large,
    )


def _values(note: str, facts: JobFacts, standard: str) -> dict[str, Value]:
    if note == "modified":
        return {"what": tuple(change_lines(facts))}
    if note == "refused":
        return {"what": tuple(asked.what for asked in facts.asked if asked.refused)}
    if note == "unsafe_return" and facts.unsafe_return is not None:
        what = tuple(dict.fromkeys(f.word for f in unsafe_stops(facts)))
        return {"what": what, "reason": facts.unsafe_return.reason}
    if note == "safety_test":
        test = _tested(facts)
        if test is not None:
            return {"standard": test.edition, "date": test.at}
        return {"standard": standard or Sentence("no standard and edition entered yet")}
    return {}


def _tested(facts: JobFacts) -> SafetyTestFact | None:
    return safety_standing(facts.mains_class, facts.case_events, facts.safety_tests).test


def for_user_on_paper(notes: tuple[BenchNote, ...]) -> tuple[PaperNote, ...]:
    """Those that the paper tells the person who uses the player, beside C1 to C5."""
    return tuple(
        PaperNote(n.id, _head(n), n.customer) for n in notes if n.id in _FOR_USER and n.customer is not None
    )


def for_technician_on_paper(notes: tuple[BenchNote, ...]) -> tuple[PaperNote, ...]:
    """Those that the paper tells the next technician, beside T1 to T5."""
    return tuple(
        PaperNote(n.id, _head(n), n.technician, _SIGNS.get(n.id))
        for n in notes
        if n.id in _FOR_TECHNICIAN and n.technician is not None
    )


def _head(note: BenchNote) -> Sentence:
    return Sentence("{title}.", {"title": note.title})
