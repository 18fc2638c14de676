"""A transport leaves one unit and enters another, and keeps its whole life."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from app.trade.bench.kinds import Arrangement
from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import MainsClass
from app.trade.counter.taking_in import Intake
from app.trade.refusal import FieldRefusal, Refusal, StaleRow
from app.work.bench.modifications import ModificationEntry, record_modification
from app.work.bench.transport_life import transport_life
from app.work.bench.transports import (
    change_label,
    note_transport,
    put_in,
    renew_part,
    take_out,
    transports_on_hand,
)
from app.work.counter.taking_in import receive_unit
from app.work.office.shop_lists import TypeLine, save_transport_type


@pytest.fixture
def other(bench: Any) -> int:
    """A second Larch 2 whose transport nobody noted, as a job."""
    return int(
        receive_unit(
            bench.book,
            bench.shop.mirr,
            Intake(
                name="Odile Varenne",
                maker="Quellmar",
                model="Larch 2",
                serial="0431 207",
                mains_class=MainsClass.II,
                fault="Remote does nothing.",
            ),
        ).value.job_id
    )


def test_out_of_one_unit_and_into_another_both_remember(bench: Any, other: int) -> None:
    bench.read("laser_current", "51.2")
    take_out(bench.book, bench.tobbe, bench.job, shelf="C 4")
    assert bench.sheet.transport_id is None
    choice = transports_on_hand(bench.book)[0]
    assert (choice.type_name, choice.marking, choice.where) == ("Velk A1", "55 871", "C 4")
    bench.later(days=1)
    put_in(bench.book, bench.tobbe, other, bench.transport)
    first = bench.job
    bench.job = other
    bench.read("laser_current", "52.0")
    life = transport_life(bench.book, bench.transport)
    assert [span.serial for span in life.spans] == ["0420 158", "0431 207"]
    assert [span.until is None for span in life.spans] == [False, True]
    assert [reading.value for reading in life.readings] == [Decimal("51.2"), Decimal("52.0")]
    assert first in [job.id for job in life.spans[0].jobs]
    assert life.label is not None
    assert (str(life.label.value), life.label.unit) == ("48", "mA")
    assert transports_on_hand(bench.book) == ()


def test_it_is_never_in_two_units(bench: Any, other: int) -> None:
    with pytest.raises(Refusal):
        put_in(bench.book, bench.tobbe, other, bench.transport)


def test_a_unit_holds_one(bench: Any) -> None:
    with pytest.raises(Refusal):
        note_transport(bench.book, bench.tobbe, bench.job, bench.type, "77 001")
    assert bench.sheet.transport_marking == "55 871"


def test_nothing_inside_cannot_be_taken_out_or_mended(bench: Any, other: int) -> None:
    with pytest.raises(Refusal):
        take_out(bench.book, bench.tobbe, other)
    with pytest.raises(Refusal):
        renew_part(bench.book, bench.tobbe, other, "pick-up")


def test_out_of_a_donor_it_goes_straight_into_the_next(bench: Any, other: int) -> None:
    from sqlalchemy import select

    from app.book.tables import Unit
    from app.trade.sentence import Sentence

    with bench.book.change(bench.shop.ine, Sentence("made a donor")) as change:
        change.get(Unit, bench.unit).is_donor = True
    assert transports_on_hand(bench.book)[0].where == "Quellmar Larch 2"
    put_in(bench.book, bench.tobbe, other, bench.transport)
    with bench.book.ask() as session:
        assert session.scalars(select(Unit.is_donor).where(Unit.id == bench.unit)).one()
    assert transport_life(bench.book, bench.transport).spans[-1].serial == "0431 207"


def test_another_type_than_belongs_there_is_flagged(bench: Any, other: int) -> None:
    kind = save_transport_type(
        bench.book, bench.shop.ine, TypeLine(name="Drevvo S8", arrangement=Arrangement.SLED)
    ).value
    note_transport(bench.book, bench.tobbe, other, kind, "9", Decimal("0.062"), belongs_type="Ponnik S5")
    bench.job = other
    assert "other_type" in bench.rules()


def test_a_new_pick_up_brings_its_own_label(bench: Any) -> None:
    renew_part(bench.book, bench.tobbe, bench.job, "pick-up", label_after=Decimal("0.0586"))
    renew_part(bench.book, bench.tobbe, bench.job, "spindle motor")
    sheet = bench.sheet
    assert sheet.laser_label is not None
    assert sheet.laser_label.value == Decimal("58.6")
    assert [part.words for part in transport_life(bench.book, bench.transport).renewed] == [
        "pick-up",
        "spindle motor",
    ]
    with pytest.raises(FieldRefusal):
        renew_part(bench.book, bench.tobbe, bench.job, " ")


@pytest.mark.parametrize("current", [Decimal("0.009"), Decimal("0.21")])
def test_a_label_is_tens_of_milliamperes(bench: Any, current: Decimal) -> None:
    version = transport_life(bench.book, bench.transport).version
    with pytest.raises(FieldRefusal):
        change_label(bench.book, bench.tobbe, bench.transport, "55 871", current, version=version)


def test_the_second_who_corrects_a_label_is_told(bench: Any) -> None:
    version = transport_life(bench.book, bench.transport).version
    change_label(bench.book, bench.tobbe, bench.transport, "55 872", None, version=version)
    with pytest.raises(StaleRow) as stale:
        change_label(bench.book, bench.shop.sanna, bench.transport, "55 873", None, version=version)
    assert stale.value.theirs["marking"] == "55 872"
    assert transport_life(bench.book, bench.transport).label is None


def test_its_modifications_travel_with_it(bench: Any, other: int) -> None:
    record_modification(
        bench.book,
        bench.tobbe,
        bench.job,
        ModificationEntry(
            kind=Kind.REPLACED,
            circuit=Circuit.RADIAL_COIL,
            law=Law.CURRENT,
            where="R314",
            in_transport=True,
            maker_value=Decimal("6.8"),
            new_value=Decimal("5.6"),
        ),
    )
    bench.read("radial_coil_r", "open")
    take_out(bench.book, bench.tobbe, bench.job)
    put_in(bench.book, bench.tobbe, other, bench.transport)
    bench.job = other
    assert "coil_up" in bench.rules()
    life = transport_life(bench.book, bench.transport)
    assert [m.job_number for m in life.modifications] == [1001]
    assert life.readings == ()
