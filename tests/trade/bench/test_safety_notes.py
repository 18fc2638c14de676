"""Safety notes: wording for two readers, and when each is printed."""

import json
from datetime import UTC
from pathlib import Path

import pytest

from app.trade.bench.safety_notes import Situation, notes_due, read_safety_notes
from app.trade.refusal import Refusal
from app.trade.wording import plain

SAY = plain(UTC)
SHIPPED = json.loads(
    (Path(__file__).parents[3] / "assets/bench/safety_notes.json").read_text(encoding="utf-8")
)
NOTES = read_safety_notes(SHIPPED)


def due(situation: Situation) -> list[str]:
    return [found.note.id for found in notes_due(NOTES, situation)]


@pytest.mark.parametrize(
    ("situation", "notes"),
    [
        (Situation(), []),
        (Situation(opened=True), ["laser"]),
        (Situation(opened=True, mains_inside=True), ["laser", "mains", "safety_test"]),
        (Situation(mains_inside=True), ["mains"]),
        (Situation(pickup_handled=True), ["esd"]),
        (Situation(supply_opened=True), ["capacitors"]),
        (Situation(heat=True), ["hot"]),
        (Situation(soldered_or_cleaned=True), ["fume"]),
        (Situation(swing_arm_opened=True), ["magnet"]),
        (Situation(modified=True, adds_heat=True), ["hot", "modified"]),
        (Situation(refused=True), ["refused"]),
        (Situation(stop_open=True), ["stop_use"]),
        (Situation(stop_open=True, returned_unsafe=True), ["stop_use", "unsafe_return"]),
        (Situation(wiring_work=True), ["wiring"]),
        (Situation(transit_lock=True), ["transit"]),
        (Situation(posted=True), ["transit"]),
    ],
)
def test_a_note_is_printed_when_its_danger_was_there(situation: Situation, notes: list[str]) -> None:
    assert due(situation) == notes


def test_the_customer_hears_of_heat_only_when_a_modification_adds_some() -> None:
    for adds, customer in ((False, False), (True, True)):
        (found,) = notes_due(NOTES, Situation(heat=True, adds_heat=adds))
        assert (found.technician, found.customer) == (True, customer)


def test_some_notes_are_for_the_technician_alone() -> None:
    (found,) = notes_due(NOTES, Situation(pickup_handled=True))
    assert (found.technician, found.customer, found.large) == (True, False, False)


def test_the_laser_is_large_when_it_was_driven_open_and_unsafe_always() -> None:
    assert [found.large for found in notes_due(NOTES, Situation(opened=True))] == [False]
    assert [found.large for found in notes_due(NOTES, Situation(opened=True, laser_driven_open=True))] == [
        True
    ]
    assert [found.large for found in notes_due(NOTES, Situation(returned_unsafe=True))] == [True]


def test_braces_are_filled_by_the_paper() -> None:
    note = NOTES["modified"]
    assert SAY(note.for_technician(what="R314 5.6 Ω for 6.8 Ω, ×1.214")) == (
        "R314 5.6 Ω for 6.8 Ω, ×1.214: read before measuring, old limits may not hold."
    )
    said = SAY(note.for_customer(plain_words="more current in the arm", way_back="fit 6.8 Ω again"))
    assert said.startswith("This player was changed outside its maker’s design: more current in the arm.")


def test_a_missing_or_unknown_note_is_refused() -> None:
    for rows in (SHIPPED[1:], [*SHIPPED, SHIPPED[0]], [{**SHIPPED[0], "id": "luck"}, *SHIPPED[1:]]):
        with pytest.raises(Refusal):
            read_safety_notes(rows)
