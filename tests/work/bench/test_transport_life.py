"""The life of a transport as facts on one time axis."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest
from sqlalchemy.exc import NoResultFound

from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import MainsClass, Moment, Outcome
from app.trade.bench.verdict import VerdictWord
from app.trade.counter.taking_in import Intake
from app.trade.sentence import Sentence
from app.work.bench.modifications import ModificationEntry, record_modification, reverse_modification
from app.work.bench.strike_out import strike_out
from app.work.bench.transport_life import transport_life
from app.work.bench.transports import put_in, renew_part, take_out
from app.work.counter.taking_in import receive_unit

RAISED = ModificationEntry(
    kind=Kind.REPLACED,
    circuit=Circuit.RADIAL_COIL,
    where="R314",
    law=Law.CURRENT,
    maker_value=Decimal("6.8"),
    new_value=Decimal("5.6"),
    in_transport=True,
)


def take_in_another(bench: Any) -> int:
    """A second player without a transport, as a job."""
    intake = Intake(
        name="Solveig Marrin", phone="01632 960245", maker="Quellmar", model="Larch 2", serial="0431 207",
        mains_class=MainsClass.II, fault="No disc is read.",
    )  # fmt: skip
    return int(receive_unit(bench.book, bench.shop.mirr, intake).value.job_id)


def test_a_reading_keeps_the_limit_and_the_verdict_of_its_day(bench: Any) -> None:
    bench.read("laser_current", "51.2")
    bench.read("seek_time", "4.8")
    (current, seek) = transport_life(bench.book, bench.transport).readings
    assert (current.value, current.unit, current.high, current.low) == (
        Decimal("51.2"),
        "mA",
        Decimal("57.6"),
        None,
    )
    assert current.uncertainty > 0
    assert (current.verdict, seek.verdict) == (VerdictWord.WITHIN, VerdictWord.HIGH)
    assert (current.moment, current.bound, current.job_id) == (Moment.ARRIVAL, False, bench.job)
    assert current.name == Sentence("laser current")


def test_a_struck_out_reading_is_left_out_and_an_open_circuit_has_no_place(bench: Any) -> None:
    wrong = bench.read("laser_current", "15.2")
    bench.read("laser_current", "51.2")
    bench.read("radial_coil_r", "open")
    strike_out(bench.book, bench.tobbe, "reading", wrong.id, "decimal mark in the wrong place")
    assert [r.value for r in transport_life(bench.book, bench.transport).readings] == [Decimal("51.2")]


def test_a_quantity_that_the_shop_no_longer_knows_keeps_its_id(bench: Any) -> None:
    from app.book.tables import Reading

    known = bench.read("laser_current", "51.2")
    with bench.book.change(bench.tobbe, Sentence("renamed")) as change:
        change.get(Reading, known.id).quantity = "gone_from_the_list"
    (reading,) = transport_life(bench.book, bench.transport).readings
    assert reading.name == Sentence("{id}", {"id": "gone_from_the_list"})
    assert reading.unit == "mA"


def test_a_modification_of_the_transport_goes_with_it_until_it_is_put_back(bench: Any) -> None:
    made = record_modification(bench.book, bench.tobbe, bench.job, RAISED).value
    (change,) = transport_life(bench.book, bench.transport).modifications
    assert (change.unit, change.circuit, change.job_id, change.reversed_at, change.ours) == (
        "", Circuit.RADIAL_COIL, bench.job, None, True,
    )  # fmt: skip
    bench.later(days=3)
    reverse_modification(bench.book, bench.tobbe, made.id, bench.job)
    (change,) = transport_life(bench.book, bench.transport).modifications
    assert change.reversed_at == bench.shop.clock()


def test_a_modification_of_the_player_counts_while_the_transport_was_in_it(bench: Any) -> None:
    record_modification(bench.book, bench.tobbe, bench.job, replace(RAISED, in_transport=False))
    bench.later(days=10)
    out = bench.shop.clock()
    take_out(bench.book, bench.tobbe, bench.job, shelf="S3")
    bench.later(days=5)
    other = take_in_another(bench)
    put_in(bench.book, bench.tobbe, other, bench.transport)
    (change,) = transport_life(bench.book, bench.transport).modifications
    assert (change.unit, change.reversed_at) == ("Quellmar Larch 2", out)


def test_what_was_put_back_before_the_transport_came_is_none_of_its_life(bench: Any) -> None:
    take_out(bench.book, bench.tobbe, bench.job)
    made = record_modification(bench.book, bench.tobbe, bench.job, replace(RAISED, in_transport=False)).value
    bench.later(days=1)
    reverse_modification(bench.book, bench.tobbe, made.id, bench.job)
    bench.later(days=1)
    put_in(bench.book, bench.tobbe, bench.job, bench.transport)
    assert transport_life(bench.book, bench.transport).modifications == ()


def test_a_stay_has_only_the_visits_during_it(bench: Any) -> None:
    first = bench.job
    bench.close()
    bench.come_again(days=40)
    take_out(bench.book, bench.tobbe, bench.job)
    second = bench.job
    bench.make_safe()
    bench.close(Outcome.NO_FAULT_SHOWN)
    bench.come_again(days=40)
    life = transport_life(bench.book, bench.transport)
    (stay,) = life.spans
    assert [job.id for job in stay.jobs] == [first, second]
    assert stay.jobs[0].outcome is Outcome.MENDED
    assert stay.jobs[0].fault == "Hangs when I jump to the last songs"
    assert stay.jobs[0].handed_back is not None


def test_a_renewed_pick_up_brings_the_label_that_counts_from_then(bench: Any) -> None:
    renew_part(bench.book, bench.tobbe, bench.job, "pick-up", label_after=Decimal("0.0586"))
    renew_part(bench.book, bench.tobbe, bench.job, "spindle motor")
    first, second = transport_life(bench.book, bench.transport).renewed
    assert first.label is not None
    assert (first.label.value, first.label.unit) == (Decimal("58.6"), "mA")
    assert (second.words, second.label, second.job_id) == ("spindle motor", None, bench.job)


def test_a_transport_that_is_not_there_is_an_error(bench: Any) -> None:
    with pytest.raises(NoResultFound):
        transport_life(bench.book, 999)
