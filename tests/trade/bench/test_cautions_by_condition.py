"""Which safety notes stand on a paper: each condition prints its own, and nothing else prints it."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from itertools import combinations
from typing import Any

import pytest

from app.book.shipped import shipped
from app.trade.bench.bench_notes import bench_notes, for_technician_on_paper, for_user_on_paper
from app.trade.bench.cautions import NoteSign, PaperKind, notes_for_technician, notes_for_user
from app.trade.bench.facts import AskedFact, JobFacts, ReadingFact, TrialFact
from app.trade.bench.kinds import TransitLock
from app.trade.bench.modifications import Circuit, Kind, Law, Origin
from app.trade.bench.safety_notes import read_safety_notes
from app.trade.bench.stages import MainsClass, Moment
from app.trade.sentence import Measure, Sentence

NOTES = read_safety_notes(shipped("bench/safety_notes"))
# The table of the papers, common practice, no source: what stands on every invoice and report of a player without
# mains inside that nobody opened or changed, then what each condition adds, for the user and for the technician.
ALWAYS = ({"C1"}, {"T1", "T3"})
ADDS: Mapping[str, tuple[set[str], set[str]]] = {
    "mains": ({"C2", "C4"}, {"T2"}),
    "changed, no current": ({"C3"}, {"T4"}),
    "more current": ({"C3", "C4"}, {"T4", "hot"}),
    "dangerous": ({"C3", "C4", "C5"}, {"T4"}),
    "opened": (set(), {"T5"}),
    "driver read": (set(), {"hot"}),
    "transit lock": ({"transit"}, {"transit"}),
    "refused": ({"refused"}, {"refused"}),
    "soldered": (set(), {"fume", "hot"}),
}


@pytest.fixture
def facts(job: Any, modification: Any, unlawful: Any, opened: Any, at: Any) -> Any:
    """The facts of a job in which these conditions hold, and no other."""
    changes = {
        "changed, no current": unlawful(
            Kind.REPLACED, Circuit.MECHANICS, number=1, where="spring", origin=Origin.FOUND
        ),
        "more current": modification(number=2, origin=Origin.FOUND),
        "dangerous": unlawful(Kind.FUSE, Circuit.FUSE, number=3, where="F1", origin=Origin.FOUND),
    }
    warm = ReadingFact(
        quantity="driver_temp",
        name=Sentence("driver temperature"),
        value=Measure(Decimal(48), "°C"),
        moment=Moment.DURING,
        at=at(2),
    )

    def make(*held: str) -> JobFacts:
        return job(  # type: ignore[no-any-return]
            mains_class=MainsClass.II if "mains" in held else MainsClass.BATTERY,
            modifications=tuple(change for name, change in changes.items() if name in held),
            case_events=(opened(1),) if "opened" in held else (),
            trials=(TrialFact(number=1, change="resolder", at=at(3)),) if "soldered" in held else (),
            readings=(warm,) if "driver read" in held else (),
            transit_lock=TransitLock.SET if "transit lock" in held else TransitLock.NONE,
            asked=(AskedFact(1, "bridge the cover switch", True),) if "refused" in held else (),
        )

    return make


def printed(facts: JobFacts, paper: PaperKind) -> tuple[list[str], list[str]]:
    """Ids of the notes of a paper, for the user and for the technician."""
    more = bench_notes(NOTES, facts, swing_arm=False, standard="EN 50678:2020")
    return (
        [note.id for note in (*notes_for_user(facts, paper), *for_user_on_paper(more))],
        [note.id for note in (*notes_for_technician(facts, paper), *for_technician_on_paper(more))],
    )


@pytest.mark.parametrize("paper", [PaperKind.INVOICE, PaperKind.REPORT])
def test_every_condition_prints_its_notes_and_nothing_else_does(facts: Any, paper: PaperKind) -> None:
    for count in range(len(ADDS) + 1):
        for held in combinations(ADDS, count):
            user, technician = printed(facts(*held), paper)
            assert set(user) == ALWAYS[0].union(*(ADDS[name][0] for name in held)), held
            assert set(technician) == ALWAYS[1].union(*(ADDS[name][1] for name in held)), held
            assert len(user) == len(set(user)), held
            assert len(technician) == len(set(technician)), held


def test_a_change_that_follows_no_law_still_counts_as_one_of_current_where_it_is_in_such_a_circuit(
    facts: Any, job: Any, modification: Any
) -> None:
    changed = modification(circuit=Circuit.LASER_SUPPLY, law=Law.NEITHER, maker_value=None, new_value=None)
    user, _ = printed(job(mains_class=MainsClass.BATTERY, modifications=(changed,)), PaperKind.REPORT)
    assert "C4" in user


def test_hot_parts_have_their_sign(facts: Any) -> None:
    more = bench_notes(NOTES, facts("driver read"), swing_arm=False, standard="")
    assert [note.sign for note in for_technician_on_paper(more)] == [NoteSign.HOT]
