"""Safety notes on papers: which, when, and in which words."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from app.trade.bench.cautions import (
    NoteSign,
    PaperKind,
    PaperNote,
    change_lines,
    electrical_dangers,
    notes_for_technician,
    notes_for_user,
    situation_of,
)
from app.trade.bench.facts import AskedFact, TrialFact, UnsafeReturn
from app.trade.bench.kinds import TransitLock
from app.trade.bench.modifications import Circuit, Kind, Law, Origin
from app.trade.bench.safety_notes import Situation
from app.trade.bench.stages import MainsClass
from app.trade.money import Money
from app.trade.wording import Wording


def ids(notes: tuple[PaperNote, ...]) -> list[str]:
    return [note.id for note in notes]


def text(notes: tuple[PaperNote, ...], wanted: str, english: Wording) -> str:
    (note,) = [n for n in notes if n.id == wanted]
    return f"{english(note.title)} {english(note.text)}".replace("\u00a0", " ")


@pytest.fixture
def foil(unlawful: Any) -> Any:
    return unlawful(Kind.FUSE, Circuit.FUSE, where="F1", was="T 1 A", now="foil", origin=Origin.FOUND)


@pytest.mark.parametrize("paper", [PaperKind.INVOICE, PaperKind.REPORT])
def test_the_invoice_and_report_of_a_modified_mains_player_carry_all_notes(
    paper: PaperKind, job: Any, modification: Any, opened: Any, closed: Any
) -> None:
    facts = job(modifications=(modification(),), case_events=(opened(1), closed(7)))
    assert ids(notes_for_user(facts, paper)) == ["C1", "C2", "C3", "C4"]
    assert ids(notes_for_technician(facts, paper)) == ["T1", "T2", "T3", "T4", "T5"]
    signs = [n.sign for n in notes_for_user(facts, paper) + notes_for_technician(facts, paper) if n.sign]
    assert signs == [NoteSign.LASER, NoteSign.PLUG, NoteSign.LASER, NoteSign.ELECTRIC, NoteSign.STATIC]


def test_an_unopened_battery_player_carries_laser_and_static_only(job: Any, english: Wording) -> None:
    facts = job(mains_class=MainsClass.BATTERY)
    assert ids(notes_for_user(facts, PaperKind.INVOICE)) == ["C1"]
    assert ids(notes_for_technician(facts, PaperKind.INVOICE)) == ["T1", "T3"]
    assert "take its supply away" in text(notes_for_user(facts, PaperKind.TICKET), "C1", english)


def test_a_changed_current_brings_the_trouble_note_without_any_plug(
    job: Any, modification: Any, unlawful: Any, english: Wording
) -> None:
    facts = job(mains_class=MainsClass.BATTERY, modifications=(modification(),))
    assert ids(notes_for_user(facts, PaperKind.INVOICE)) == ["C1", "C3", "C4"]
    assert "plug" not in text(notes_for_user(facts, PaperKind.INVOICE), "C4", english)
    shim = unlawful(Kind.MECHANICAL, Circuit.MECHANICS, now="shim")
    cold = job(mains_class=MainsClass.BATTERY, modifications=(shim,))
    assert ids(notes_for_user(cold, PaperKind.INVOICE)) == ["C1", "C3"]


def test_a_player_whose_class_nobody_knows_is_warned_like_a_mains_player(job: Any) -> None:
    facts = job(mains_class=MainsClass.NOT_KNOWN)
    assert ids(notes_for_user(facts, PaperKind.INVOICE)) == ["C1", "C2", "C4"]
    assert "C2" in ids(notes_for_user(facts, PaperKind.INVOICE))
    assert "T2" in ids(notes_for_technician(facts, PaperKind.INVOICE))


def test_the_ticket_says_one_thing_in_short(job: Any, english: Wording) -> None:
    assert text(notes_for_user(job(), PaperKind.TICKET), "C1", english) == (
        "Invisible laser light inside. Keep the cover closed. If, after the repair, it smells, smokes or "
        "runs hot: switch off, pull the plug and bring it back."
    )
    assert notes_for_technician(job(), PaperKind.TICKET) == ()


def test_a_danger_seen_at_intake_stands_first_on_the_ticket(job: Any, foil: Any, english: Wording) -> None:
    notes = notes_for_user(job(modifications=(foil,)), PaperKind.TICKET)
    assert ids(notes) == ["C5", "C1"]
    assert not any(note.large for note in notes)
    assert text(notes, "C5", english) == (
        "Do not use. Do not plug it in. "
        "This player can start a fire or give an electric shock until it is made safe: fuse."
    )


def test_the_unsafe_sheet_is_headed_by_one_large_warning(job: Any, foil: Any) -> None:
    (note,) = notes_for_user(job(modifications=(foil,)), PaperKind.UNSAFE)
    assert (note.id, note.large, note.sign) == ("C5", True, NoteSign.GENERAL)


def test_an_open_interlock_is_no_electrical_danger(job: Any, unlawful: Any) -> None:
    lid = unlawful(Kind.INTERLOCK, Circuit.INTERLOCK, now="taped")
    facts = job(modifications=(lid,), asked=(AskedFact(1, "bridge the lid switch"),))
    assert electrical_dangers(facts) == ()


def test_modified_says_how_many_and_whether_it_can_be_put_back(
    job: Any, modification: Any, unlawful: Any, put_back: Any, english: Wording
) -> None:
    def said(*changes: Any) -> str:
        return text(notes_for_user(job(modifications=changes), PaperKind.INVOICE), "C3", english)

    assert said(modification()).startswith("Modified. One part of this player no longer follows")
    assert "In 2 places" in said(modification(), modification(number=2, where="R315"))
    blind = unlawful(Kind.TRIMMER, Circuit.SERVO_GAIN, number=3, where="VR1")
    assert "How far it can be put back" in said(modification(), blind)
    written = unlawful(Kind.TRIMMER, Circuit.SERVO_GAIN, number=3, where="VR1", way_back="to the red dot")
    assert "It can be put back" in said(written)
    read = unlawful(Kind.TRIMMER, Circuit.SERVO_GAIN, number=3, where="VR1", reading_before=True)
    assert "It can be put back" in said(read)
    gone = modification(reversal=put_back())
    assert "C3" not in ids(notes_for_user(job(modifications=(gone,)), PaperKind.INVOICE))


def test_the_next_technician_reads_the_factor_and_the_purpose(
    job: Any, modification: Any, english: Wording
) -> None:
    notes = notes_for_technician(job(modifications=(modification(),)), PaperKind.INVOICE)
    assert text(notes, "T4", english) == (
        "Modification. Current in the radial coil is 21 % above the maker's figure on purpose (R314). "
        "Read “Modification” before judging readings."
    )


def test_every_change_is_named_and_only_ours_are_called_on_purpose(
    job: Any, modification: Any, unlawful: Any, english: Wording
) -> None:
    found = modification(origin=Origin.FOUND)
    gain = modification(
        number=2,
        where="R40",
        circuit=Circuit.SERVO_GAIN,
        law=Law.GAIN,
        maker_value=Decimal(47000),
        new_value=Decimal(56000),
    )
    shim = unlawful(Kind.MECHANICAL, Circuit.MECHANICS, number=3, where="clamp spring", now="shim 0.3 mm")
    facts = job(modifications=(found, gain, shim))
    assert [english(line).replace("\u00a0", " ") for line in change_lines(facts)] == [
        "Current in the radial coil is 21 % above the maker's figure (R314).",
        "Loop gain in the servo is 19 % above the maker's figure (R40).",
        "Changed: mechanical shift at clamp spring (mechanics): shim 0.3 mm.",
    ]
    said = text(notes_for_technician(facts, PaperKind.REPORT), "T4", english)
    assert said.count("maker's figure") == 2
    assert "shim 0.3 mm. Read “Modification”" in said


def test_no_note_calls_a_power_or_a_distance_safe(
    job: Any, modification: Any, foil: Any, opened: Any, english: Wording
) -> None:
    facts = job(modifications=(modification(), foil), case_events=(opened(1),))
    notes = notes_for_user(facts, PaperKind.INVOICE) + notes_for_technician(facts, PaperKind.INVOICE)
    for note in notes:
        said = english(note.title) + english(note.text)
        assert "mW" not in said
        assert " cm" not in said
        assert "safe distance" not in said


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
    situation = situation_of(facts, swing_arm=True, soldered_or_cleaned=True, supply_opened=True)
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
    assert only_opened == Situation(opened=True, mains_inside=True)
    hot = situation_of(job(readings=(reading("driver_temp", "48", "°C"),)), swing_arm=False)
    assert hot == Situation(mains_inside=True, heat=True)
    soldered = situation_of(job(), swing_arm=False, soldered_or_cleaned=True)
    assert soldered == Situation(mains_inside=True, heat=True, soldered_or_cleaned=True)
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
    way = UnsafeReturn("Ine", at(8), "declined", law_looked_at=True)
    unsafe = situation_of(job(modifications=(foil,), unsafe_return=way), swing_arm=False)
    assert unsafe.stop_open
    assert unsafe.returned_unsafe
