"""The life of a player."""

from __future__ import annotations

from decimal import Decimal
from typing import Any
from zoneinfo import ZoneInfo

from app.trade.bench.kinds import Arrangement
from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import MainsClass, Moment, Outcome
from app.trade.counter.taking_in import Intake
from app.trade.wording import plain
from app.work.bench.modifications import ModificationEntry, record_modification, reverse_modification
from app.work.bench.transports import move_transport, put_in, take_out
from app.work.bench.unit_life import unit_life
from app.work.counter.taking_in import receive_unit

say = plain(ZoneInfo("UTC"))
RAISED = ModificationEntry(
    kind=Kind.REPLACED,
    circuit=Circuit.RADIAL_COIL,
    where="R314",
    law=Law.CURRENT,
    maker_value=Decimal("6.8"),
    new_value=Decimal("5.6"),
)


def test_a_player_shows_its_visits_and_the_transport_inside(bench: Any) -> None:
    life = unit_life(bench.book, bench.unit)
    assert [visit.job_id for visit in life.known.visits] == [bench.job]
    (fitting,) = life.fittings
    assert (fitting.transport_id, fitting.type_name, fitting.marking, fitting.until) == (
        bench.transport,
        "Velk A1",
        "55 871",
        None,
    )
    assert fitting.arrangement is Arrangement.SWING_ARM
    assert fitting.as_maker
    assert life.modifications == life.flags == ()


def test_a_transport_that_went_and_came_again_has_two_stays(bench: Any) -> None:
    take_out(bench.book, bench.tobbe, bench.job, shelf="S3")
    bench.later(days=1)
    put_in(bench.book, bench.tobbe, bench.job, bench.transport, belongs_type="Orrin S3")
    first, second = unit_life(bench.book, bench.unit).fittings
    assert first.until is not None
    assert second.until is None
    assert (second.as_maker, second.belongs_type) == (False, "Orrin S3")


def test_changes_of_the_player_stand_with_their_way_back_and_their_flag(bench: Any) -> None:
    made = record_modification(bench.book, bench.tobbe, bench.job, RAISED).value
    life = unit_life(bench.book, bench.unit)
    (change,) = life.modifications
    assert say(change.words).startswith("R314 (radial coil drive): 5.6")
    assert say(change.way_back) == "Fit 6.8\u00a0Ω at R314 again."
    assert (change.ours, change.job_id, change.reversed_at) == (True, bench.job, None)
    assert [say(flag.word) for flag in life.flags] == ["coil current up"]
    reverse_modification(bench.book, bench.tobbe, made.id, bench.job)
    life = unit_life(bench.book, bench.unit)
    assert life.modifications[0].reversed_at is not None
    assert life.flags == ()


def test_a_change_inside_the_transport_leaves_with_it(bench: Any) -> None:
    from dataclasses import replace

    record_modification(bench.book, bench.tobbe, bench.job, replace(RAISED, in_transport=True))
    assert unit_life(bench.book, bench.unit).modifications == ()


def test_what_is_inside_now_counts_the_transport_s_own_changes_too(bench: Any) -> None:
    from dataclasses import replace

    record_modification(bench.book, bench.tobbe, bench.job, replace(RAISED, in_transport=True))
    made = record_modification(bench.book, bench.tobbe, bench.job, replace(RAISED, where="R27")).value
    life = unit_life(bench.book, bench.unit)
    assert [(say(m.words).split(" ")[0], m.in_transport) for m in life.inside] == [
        ("R314", True),
        ("R27", False),
    ]
    reverse_modification(bench.book, bench.tobbe, made.id, bench.job)
    life = unit_life(bench.book, bench.unit)
    assert [m.in_transport for m in life.inside] == [True]
    assert [m.reversed_at is None for m in life.modifications] == [False]
    assert "coil current up" in [say(flag.word) for flag in life.flags]  # of the transport inside
    assert say(life.know_first[0].sentence).startswith("It departs from the maker's design in one place")


def test_where_a_transport_came_from_and_went_stands_with_its_stay(bench: Any) -> None:
    intake = Intake(
        name="Solveig Marrin", phone="01632 960245", maker="Quellmar", model="Larch 3", serial="9",
        mains_class=MainsClass.II, fault="No disc is read.",
    )  # fmt: skip
    other = receive_unit(bench.book, bench.shop.mirr, intake).value
    bench.later(days=1)
    move_transport(bench.book, bench.tobbe, other.job_id, bench.transport)
    (left,) = unit_life(bench.book, bench.unit).fittings
    (came,) = unit_life(bench.book, other.unit_id).fittings
    assert (left.came_from, left.went_to) == ("", "Quellmar Larch 3")
    assert (came.came_from, came.went_to) == ("Quellmar Larch 2", "")
    told = [say(one.sentence) for one in unit_life(bench.book, bench.unit).know_first]
    assert told == ["No transport is inside: it was taken out."]
    take_out(bench.book, bench.tobbe, other.job_id)
    bench.later(days=1)
    put_in(bench.book, bench.tobbe, bench.job, bench.transport)
    assert unit_life(bench.book, bench.unit).fittings[1].came_from == ""  # the shelf lay between


def test_a_visit_that_did_not_mend_it_and_a_worn_laser_are_told_first(bench: Any) -> None:
    for value in ("50.1", "51.3", "52.2", "53.4", "54.5"):
        bench.read("laser_current", value, Moment.FINAL)
        bench.later(days=60)
    bench.make_safe()
    bench.close(Outcome.NO_FAULT_SHOWN)
    assert [say(one.sentence) for one in unit_life(bench.book, bench.unit).know_first] == [
        "Job 1001 saw no fault: look for what comes and goes, warm, cold and on other discs.",
        "The transport wears towards its limit: laser current. Its life says when.",
    ]
