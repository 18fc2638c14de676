"""The one list of safety notes: each condition prints its own, and nothing else prints it."""

from __future__ import annotations

import json
from collections.abc import Mapping
from decimal import Decimal
from itertools import combinations
from pathlib import Path
from typing import Any

import pytest

from app.trade.bench.facts import AskedFact, JobFacts, ReadingFact, TrialFact, UnsafeReturn
from app.trade.bench.kinds import TransitLock
from app.trade.bench.modifications import Circuit, Kind, Law, Origin
from app.trade.bench.safety_notes import (
    CONDITIONS,
    NoteSign,
    NoteTold,
    Reader,
    notes_for,
    read_safety_notes,
)
from app.trade.bench.stages import MainsClass, Moment
from app.trade.refusal import Refusal
from app.trade.sentence import Measure, Sentence
from app.trade.wording import Wording

SHIPPED = json.loads(
    (Path(__file__).parents[3] / "assets/bench/safety_notes.json").read_text(encoding="utf-8")
)
NOTES = read_safety_notes(SHIPPED)
# Common practice, no source: what every reader is told of a player without mains inside that nobody opened or
# changed, then what each condition adds for ticket, user, next technician, and beside the job.
ALWAYS = ({"laser"}, {"laser"}, {"laser", "static"}, set[str]())
ADDS: Mapping[str, tuple[set[str], set[str], set[str], set[str]]] = {
    "mains": (set(), {"mains", "trouble"}, {"mains", "capacitors"}, {"mains"}),
    "changed, no current": (set(), {"modified"}, {"modified"}, {"modified"}),
    "more current": (set(), {"modified", "trouble"}, {"modified", "hot"}, {"modified", "hot"}),
    "dangerous": (
        {"do_not_use"},
        {"modified", "trouble", "do_not_use"},
        {"modified"},
        {"modified", "do_not_use"},
    ),
    "opened": (set(), set(), {"after_repair"}, {"laser"}),
    "pick-up out": (set(), set(), set(), set()),
    "driver read": (set(), set(), {"hot"}, {"hot"}),
    "soldered": (set(), set(), {"fume", "hot"}, {"fume", "hot"}),
    "earth": (
        {"do_not_use"}, {"modified", "wiring", "do_not_use"}, {"modified", "wiring"},
        {"modified", "wiring", "do_not_use"},
    ),
    "transit lock": (set(), {"transit"}, {"transit"}, {"transit"}),
    "refused": (set(), {"refused"}, {"refused"}, {"refused"}),
}  # fmt: skip
# What only two of them together add.
TOGETHER: Mapping[tuple[str, str], tuple[set[str], set[str], set[str], set[str]]] = {
    ("mains", "opened"): (set(), set(), set(), {"capacitors", "safety_test"}),
    ("opened", "pick-up out"): (set(), set(), set(), {"static"}),
}
READERS = (Reader.TICKET, Reader.USER, Reader.TECHNICIAN, Reader.BENCH)


@pytest.fixture
def foil(unlawful: Any) -> Any:
    return unlawful(Kind.FUSE, Circuit.FUSE, where="F1", was="T 1 A", now="foil", origin=Origin.FOUND)


@pytest.fixture
def facts(job: Any, modification: Any, unlawful: Any, opened: Any, at: Any) -> Any:
    """The facts of a job in which these conditions hold, and no other."""
    changes = {
        "changed, no current": unlawful(
            Kind.REPLACED, Circuit.MECHANICS, number=1, where="spring", origin=Origin.FOUND
        ),
        "more current": modification(number=2, origin=Origin.FOUND),
        "dangerous": unlawful(Kind.FUSE, Circuit.FUSE, number=3, where="F1", origin=Origin.FOUND),
        "earth": unlawful(Kind.WIRING, Circuit.EARTH, number=4, where="the plug", origin=Origin.FOUND),
    }
    warm = ReadingFact(
        quantity="driver_temp",
        name=Sentence("driver temperature"),
        value=Measure(Decimal(48), "°C"),
        moment=Moment.DURING,
        at=at(2),
    )
    trials = {
        "soldered": TrialFact(number=1, change="resolder", at=at(3)),
        "pick-up out": TrialFact(number=2, change="reseat", at=at(4)),
    }

    def make(*held: str) -> JobFacts:
        return job(  # type: ignore[no-any-return]
            mains_class=MainsClass.II if "mains" in held else MainsClass.BATTERY,
            modifications=tuple(change for name, change in changes.items() if name in held),
            case_events=(opened(1),) if "opened" in held else (),
            trials=tuple(trial for name, trial in trials.items() if name in held),
            readings=(warm,) if "driver read" in held else (),
            transit_lock=TransitLock.SET if "transit lock" in held else TransitLock.NONE,
            asked=(AskedFact(1, "bridge the cover switch", True),) if "refused" in held else (),
        )

    return make


def ids(notes: tuple[NoteTold, ...]) -> list[str]:
    return [note.id for note in notes]


def text(facts: JobFacts, reader: Reader, wanted: str, english: Wording, **more: Any) -> str:
    (note,) = [n for n in notes_for(reader, NOTES, facts, **more) if n.id == wanted]
    return f"{english(note.title)} {english(note.text)}".replace("\u00a0", " ")


def test_every_condition_prints_its_notes_and_nothing_else_does(facts: Any) -> None:
    for count in range(4):
        for held in combinations(ADDS, count):
            found = facts(*held)
            for at, reader in enumerate(READERS):
                told = ids(notes_for(reader, NOTES, found))
                wanted = ALWAYS[at].union(*(ADDS[name][at] for name in held))
                for pair, adds in TOGETHER.items():
                    wanted |= adds[at] if set(pair) <= set(held) else set()
                assert set(told) == wanted, (held, reader)
                assert len(told) == len(set(told)), (held, reader)


def test_a_player_that_goes_by_post_is_told_of_its_lock(job: Any) -> None:
    assert "transit" in ids(notes_for(Reader.USER, NOTES, job(by_post=True)))


def test_a_swing_arm_that_was_opened_brings_its_magnet(job: Any, opened: Any) -> None:
    inside = job(case_events=(opened(1),))
    for reader in (Reader.TECHNICIAN, Reader.BENCH):
        assert "magnet" in ids(notes_for(reader, NOTES, inside, swing_arm=True))
        assert "magnet" not in ids(notes_for(reader, NOTES, job(), swing_arm=True))


def test_tested_is_said_only_of_a_test_that_was_passed(
    job: Any, opened: Any, closed: Any, passed: Any, english: Wording
) -> None:
    owed = job(case_events=(opened(1), closed(2)))
    assert "safety_test" not in ids(notes_for(Reader.USER, NOTES, owed))
    assert "no standard and edition entered yet" in text(owed, Reader.BENCH, "safety_test", english)
    named = text(owed, Reader.BENCH, "safety_test", english, standard="EN 50678:2020")
    assert "; EN 50678:2020;" in named
    done = job(case_events=(opened(1), closed(2)), safety_tests=(passed(3),))
    assert "values on request" in text(done, Reader.USER, "safety_test", english)


def test_an_unsafe_player_is_told_large_beside_its_job(
    job: Any, foil: Any, at: Any, english: Wording
) -> None:
    way = UnsafeReturn("Ine", at(8), "declined", law_looked_at=True)
    facts = job(modifications=(foil,), unsafe_return=way)
    (note,) = [n for n in notes_for(Reader.BENCH, NOTES, facts) if n.id == "unsafe_return"]
    assert note.large
    assert english(note.text).startswith("Unsafe as it left: fuse; not repaired because declined.")


def test_the_laser_is_large_beside_the_job_once_it_was_driven_open(
    job: Any, opened: Any, reading: Any
) -> None:
    current = reading("laser_current", "51.2", "mA")
    for readings, large in (((), False), ((current,), True)):
        facts = job(case_events=(opened(1),), readings=readings)
        assert [n.large for n in notes_for(Reader.BENCH, NOTES, facts) if n.id == "laser"] == [large]


def test_a_danger_seen_at_intake_stands_first_on_the_ticket(job: Any, foil: Any, english: Wording) -> None:
    facts = job(modifications=(foil,))
    assert ids(notes_for(Reader.TICKET, NOTES, facts)) == ["do_not_use", "laser"]
    assert text(facts, Reader.TICKET, "do_not_use", english) == (
        "Do not use. Do not plug it in. "
        "This player can start a fire or give an electric shock until it is made safe: fuse."
    )


def test_an_open_interlock_is_no_electrical_danger(job: Any, unlawful: Any) -> None:
    lid = unlawful(Kind.INTERLOCK, Circuit.INTERLOCK, now="taped")
    facts = job(modifications=(lid,), asked=(AskedFact(1, "bridge the lid switch"),))
    assert "do_not_use" not in ids(notes_for(Reader.USER, NOTES, facts))
    assert "do_not_use" in ids(notes_for(Reader.BENCH, NOTES, facts))


def test_a_player_whose_class_nobody_knows_is_warned_like_a_mains_player(job: Any, english: Wording) -> None:
    facts = job(mains_class=MainsClass.NOT_KNOWN)
    assert ids(notes_for(Reader.USER, NOTES, facts)) == ["laser", "mains", "trouble"]
    assert "pull the plug" in text(facts, Reader.TICKET, "laser", english)
    battery = job(mains_class=MainsClass.BATTERY)
    assert "take its supply away" in text(battery, Reader.TICKET, "laser", english)


def test_a_changed_current_brings_the_trouble_note_without_any_plug(
    job: Any, modification: Any, english: Wording
) -> None:
    changed = modification(circuit=Circuit.LASER_SUPPLY, law=Law.NEITHER, maker_value=None, new_value=None)
    facts = job(mains_class=MainsClass.BATTERY, modifications=(changed,))
    assert "plug" not in text(facts, Reader.USER, "trouble", english)


def test_modified_says_how_many_and_whether_it_can_be_put_back(
    job: Any, modification: Any, unlawful: Any, put_back: Any, english: Wording
) -> None:
    def said(*changes: Any) -> str:
        return text(job(modifications=changes), Reader.USER, "modified", english)

    assert said(modification()).startswith("Modified. One part of this player no longer follows")
    assert "In 2 places" in said(modification(), modification(number=2, where="R315"))
    blind = unlawful(Kind.TRIMMER, Circuit.SERVO_GAIN, number=3, where="VR1")
    assert "How far it can be put back" in said(modification(), blind)
    written = unlawful(Kind.TRIMMER, Circuit.SERVO_GAIN, number=3, where="VR1", way_back="to the red dot")
    assert "It can be put back" in said(written)
    read = unlawful(Kind.TRIMMER, Circuit.SERVO_GAIN, number=3, where="VR1", reading_before=True)
    assert "It can be put back" in said(read)
    gone = modification(reversal=put_back())
    assert "modified" not in ids(notes_for(Reader.USER, NOTES, job(modifications=(gone,))))


def test_the_next_technician_reads_the_factor_and_the_purpose(
    job: Any, modification: Any, english: Wording
) -> None:
    assert text(job(modifications=(modification(),)), Reader.TECHNICIAN, "modified", english) == (
        "Modification. Current in the radial coil is 21 % above the maker's figure on purpose (R314). "
        "Read “Modification” before judging readings."
    )
    beside = text(job(modifications=(modification(),)), Reader.BENCH, "modified", english)
    assert beside.endswith("on purpose (R314). Read before measuring: old limits may not hold.")


def test_what_was_refused_is_named(job: Any, english: Wording) -> None:
    facts = job(asked=(AskedFact(1, "bridge the lid switch", refused=True), AskedFact(2, "not refused yet")))
    assert text(facts, Reader.BENCH, "refused", english) == (
        "Refused Asked for bridge the lid switch; refused; nothing changed."
    )


def test_both_boxes_of_a_modified_mains_player_have_their_signs(
    job: Any, modification: Any, opened: Any, closed: Any
) -> None:
    facts = job(modifications=(modification(),), case_events=(opened(1), closed(7)))
    user, technician = (notes_for(reader, NOTES, facts) for reader in (Reader.USER, Reader.TECHNICIAN))
    assert [n.sign for n in user if n.sign] == [NoteSign.LASER, NoteSign.PLUG]
    signs = list(dict.fromkeys(n.sign for n in technician if n.sign))
    assert signs == [NoteSign.LASER, NoteSign.ELECTRIC, NoteSign.STATIC, NoteSign.HOT]


def test_no_note_calls_a_power_or_a_distance_safe() -> None:
    for note in NOTES:
        for words in ("mW", " cm", "safe distance"):
            assert words not in note.lead + note.text


def test_every_condition_is_named_by_a_note() -> None:
    assert {note.when for note in NOTES} | {note.large for note in NOTES if note.large} == set(CONDITIONS)


@pytest.mark.parametrize(
    "wrong",
    [
        {"reader": "nobody"},
        {"sign": "skull"},
        {"when": "luck"},
        {"large": "luck"},
        {"text": ""},
        {"lead": None},
    ],
)
def test_a_note_that_names_what_is_not_there_is_refused(wrong: dict[str, object]) -> None:
    with pytest.raises(Refusal):
        read_safety_notes([{**SHIPPED[0], **wrong}, *SHIPPED[1:]])
