"""The bench's safety notes for one job: each has its own reason, and its words are filled in."""

import json
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from app.trade.bench.bench_notes import (
    BenchNote,
    bench_notes,
    for_technician_on_paper,
    for_user_on_paper,
    situation_of,
)
from app.trade.bench.facts import AskedFact, TrialFact, UnsafeReturn
from app.trade.bench.kinds import TransitLock
from app.trade.bench.modifications import Circuit, Kind, Law, Origin
from app.trade.bench.safety_notes import Situation, read_safety_notes
from app.trade.money import Money
from app.trade.wording import Wording

NOTES = read_safety_notes(
    json.loads((Path(__file__).parents[3] / "assets/bench/safety_notes.json").read_text(encoding="utf-8"))
)


@pytest.fixture
def foil(unlawful: Any) -> Any:
    return unlawful(Kind.FUSE, Circuit.FUSE, where="F1", was="T 1 A", now="foil", origin=Origin.FOUND)


def by_id(facts: Any, *, swing_arm: bool = True, standard: str = "") -> dict[str, BenchNote]:
    found = bench_notes(NOTES, facts, swing_arm=swing_arm, standard=standard)
    return {note.id: note for note in found}


def test_the_bench_notes_are_told_what_was_so(
    job: Any, modification: Any, reading: Any, opened: Any, at: Any
) -> None:
    facts = job(
        modifications=(modification(),),
        readings=(reading("laser_current", "51.2", "mA"), reading("driver_temp", "48", "°C")),
        trials=(TrialFact(number=1, change="pickup_renew", at=at(2)),),
        case_events=(opened(1),),
        transit_lock=TransitLock.RELEASED,
        asked=(AskedFact(1, "bridge the lid switch", refused=True),),
        by_post=True,
    )
    situation = situation_of(facts, swing_arm=True)
    assert situation.opened
    assert situation.laser_driven_open
    assert situation.pickup_handled
    assert situation.mains_inside
    assert situation.supply_opened
    assert situation.heat
    assert situation.swing_arm_opened
    assert situation.modified
    assert situation.adds_heat
    assert situation.refused
    assert situation.transit_lock
    assert situation.posted
    assert not situation.stop_open
    assert not situation.returned_unsafe
    assert not situation.wiring_work


def test_an_ordinary_closed_player_asks_for_no_bench_note_but_mains(job: Any) -> None:
    situation = situation_of(job(), swing_arm=True)
    assert situation == Situation(mains_inside=True)


def test_each_bench_note_needs_its_own_reason(
    job: Any, reading: Any, modification: Any, opened: Any, at: Any
) -> None:
    swap = TrialFact(number=1, change="transport_swap", at=at(2))
    closed_all_the_time = situation_of(
        job(readings=(reading("laser_current", "51.2", "mA"),), trials=(swap,)), swing_arm=True
    )
    assert closed_all_the_time == Situation(mains_inside=True)
    only_opened = situation_of(job(case_events=(opened(1),)), swing_arm=False)
    assert only_opened == Situation(opened=True, mains_inside=True, supply_opened=True)
    hot = situation_of(job(readings=(reading("driver_temp", "48", "°C"),)), swing_arm=False)
    assert hot == Situation(mains_inside=True, heat=True)
    joints = TrialFact(number=1, change="resolder", at=at(2))
    soldered = situation_of(job(trials=(joints,)), swing_arm=False)
    assert soldered == Situation(mains_inside=True, heat=True, soldered_or_cleaned=True)
    lens = TrialFact(number=1, change="clean_lens", at=at(2))
    cleaned = situation_of(job(trials=(lens,)), swing_arm=False)
    assert cleaned == Situation(mains_inside=True, soldered_or_cleaned=True)
    coil = (
        reading("radial_coil_r", "14.0", "Ω"),
        reading("radial_coil_r", "14.5", "Ω", 2, warm_minutes=30),
    )
    assert situation_of(job(readings=coil), swing_arm=False) == Situation(mains_inside=True, heat=True)
    gain = modification(circuit=Circuit.SERVO_GAIN, law=Law.GAIN, new_value=Decimal(10))
    assert not situation_of(job(modifications=(gain,)), swing_arm=False).adds_heat
    dear = job(agreed=Money(100, "EUR"), work_so_far=Money(200, "EUR"))  # a stop, but no danger
    assert not situation_of(dear, swing_arm=False).stop_open


def test_heat_comes_from_more_current_or_a_raised_rail_and_not_from_less(
    job: Any, modification: Any, unlawful: Any, foil: Any, at: Any
) -> None:
    less = modification(kind=Kind.SERIES, new_value=Decimal("1.5"))
    assert not situation_of(job(modifications=(less,)), swing_arm=False).adds_heat
    rail = unlawful(Kind.SUPPLY, Circuit.SUPPLY_RAIL, maker_value=Decimal(9), new_value=Decimal(10))
    assert situation_of(job(modifications=(rail,)), swing_arm=False).adds_heat
    lower = unlawful(Kind.SUPPLY, Circuit.SUPPLY_RAIL, maker_value=Decimal(9), new_value=Decimal(8))
    assert not situation_of(job(modifications=(lower,)), swing_arm=False).adds_heat
    way = UnsafeReturn("Ine", at(8), "declined", law_looked_at=True)
    unsafe = situation_of(job(modifications=(foil,), unsafe_return=way), swing_arm=False)
    assert unsafe.stop_open
    assert unsafe.returned_unsafe


def test_a_note_names_what_it_speaks_of(
    job: Any, modification: Any, opened: Any, foil: Any, at: Any, english: Wording
) -> None:
    facts = job(
        modifications=(modification(), foil),
        asked=(AskedFact(1, "bridge the lid switch", refused=True), AskedFact(2, "not refused yet")),
        case_events=(opened(1),),
        unsafe_return=UnsafeReturn("Ine", at(8), "declined", law_looked_at=True),
    )
    notes = by_id(facts)
    said = {
        note.id: english(note.technician).replace("\u00a0", " ")
        for note in notes.values()
        if note.technician is not None
    }
    assert said["modified"].startswith("Current in the radial coil is 21 % above the maker's figure")
    assert "foil" in said["modified"]
    assert said["refused"] == "Asked for bridge the lid switch; refused; nothing changed."
    assert said["unsafe_return"].startswith("Unsafe as it left: fuse; not repaired because declined.")
    assert notes["modified"].customer is None  # C3 tells it, with the way back
    assert notes["unsafe_return"].large


def test_tested_is_said_to_the_customer_only_of_a_test_that_was_passed(
    job: Any, opened: Any, closed: Any, passed: Any, english: Wording
) -> None:
    owed = by_id(job(case_events=(opened(1), closed(2))))["safety_test"]
    assert owed.customer is None
    assert "no standard and edition entered yet" in english(owed.technician)  # type: ignore[arg-type]
    named = by_id(job(case_events=(opened(1), closed(2))), standard="EN 50678:2020")["safety_test"]
    assert "; EN 50678:2020;" in english(named.technician)  # type: ignore[arg-type]
    done = by_id(job(case_events=(opened(1), closed(2)), safety_tests=(passed(3),)))["safety_test"]
    assert done.customer is not None
    assert "values on request" in english(done.customer)


def test_a_paper_tells_only_what_its_own_notes_do_not(
    job: Any, opened: Any, closed: Any, passed: Any, at: Any
) -> None:
    facts = job(
        case_events=(opened(1), closed(2)),
        safety_tests=(passed(3),),
        trials=(TrialFact(number=1, change="resolder", at=at(2)),),
        transit_lock=TransitLock.SET,
        asked=(AskedFact(1, "bridge the lid switch", refused=True),),
    )
    notes = tuple(by_id(facts).values())
    assert [n.id for n in for_technician_on_paper(notes)] == ["hot", "fume", "magnet", "refused", "transit"]
    assert [n.id for n in for_user_on_paper(notes)] == ["refused", "safety_test", "transit"]
