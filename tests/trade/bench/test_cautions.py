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
)
from app.trade.bench.facts import AskedFact
from app.trade.bench.modifications import Circuit, Kind, Law, Origin
from app.trade.bench.stages import MainsClass
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
