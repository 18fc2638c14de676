"""The life of a player."""

from __future__ import annotations

from decimal import Decimal
from typing import Any
from zoneinfo import ZoneInfo

from app.trade.bench.kinds import Arrangement
from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.wording import plain
from app.work.bench.modifications import ModificationEntry, record_modification, reverse_modification
from app.work.bench.transports import put_in, take_out
from app.work.bench.unit_life import unit_life

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
