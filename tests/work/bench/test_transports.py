"""A transport leaves one unit and enters another, and keeps its whole life."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from sqlalchemy import select

from app.book.tables import Job, Unit
from app.trade.bench.kinds import Arrangement
from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import MainsClass, Stage
from app.trade.counter.taking_in import Intake
from app.trade.refusal import FieldRefusal, Refusal, StaleRow
from app.trade.sentence import Sentence
from app.trade.wording import plain
from app.work.bench.history_of_job import history_of_job
from app.work.bench.modifications import ModificationEntry, record_modification
from app.work.bench.sheet_of_job import job_sheet
from app.work.bench.transport_life import transport_life
from app.work.bench.transports import (
    change_label,
    move_transport,
    note_transport,
    put_in,
    renew_part,
    take_out,
    transports_for,
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


@pytest.fixture
def full(bench: Any) -> tuple[int, int]:
    """Another Larch 2 on a job here, with its own transport: job and transport."""
    intake = Intake(
        name="Solveig Marrin", phone="01632 960245", maker="Quellmar", model="Larch 2", serial="0431 207",
        mains_class=MainsClass.II, transport_type_id=bench.type, transport_serial="55 902", fault="No disc.",
    )  # fmt: skip
    job = receive_unit(bench.book, bench.shop.mirr, intake).value.job_id
    return job, job_sheet(bench.book, job).transport_id


def told(bench: Any, job: int) -> list[str]:
    """The newest action on a job and what it wrote."""
    wording = plain(bench.book.zone)
    entry = history_of_job(bench.book, job)[0]
    return [
        wording(entry.action),
        *(f"{wording(c.what)}: {wording(c.fields[0]).split(':')[0]}" for c in entry.changes),
    ]


def test_in_one_step_out_of_one_player_into_another(bench: Any, full: tuple[int, int]) -> None:
    other, transport = full
    bench.later(days=1)
    move_transport(bench.book, bench.tobbe, bench.job, transport, shelf=" S3 ")
    assert bench.sheet.transport_id == transport
    assert job_sheet(bench.book, other).transport_id is None
    moved, laid = transport_life(bench.book, transport), transport_life(bench.book, bench.transport)
    assert [span.serial for span in moved.spans] == ["0431 207", "0420 158"]
    assert moved.spans[0].until == moved.spans[1].since == bench.shop.clock()
    assert (laid.shelf, laid.spans[-1].until) == ("S3", bench.shop.clock())


def test_both_jobs_keep_the_move_in_their_history(bench: Any, full: tuple[int, int]) -> None:
    other, transport = full
    bench.later(days=1)
    move_transport(bench.book, bench.tobbe, bench.job, transport)
    action = "moved transport Velk A1 55 902 here out of Quellmar Larch 2"
    here, there = told(bench, bench.job), told(bench, other)
    assert here[0] == there[0] == action
    assert sorted(here[1:]).count("transport in the player: put in") == 1
    assert "transport in the player: taken out" in here
    assert "transport in the player: taken out" in there
    assert "case: opened" in there  # nobody takes a transport out of a closed case


def test_out_of_a_donor_it_is_this_job_that_took_it(bench: Any, full: tuple[int, int]) -> None:
    from app.book.tables import Fitting

    _, transport = full
    with bench.book.change(bench.shop.ine, Sentence("made a donor")) as change:
        job = change.get(Job, full[0])
        change.get(Unit, job.unit_id).is_donor = True
        job.stage = Stage.HANDED_BACK
    assert transports_for(bench.book, bench.job).choices[0].job_number is None
    move_transport(bench.book, bench.tobbe, bench.job, transport)
    with bench.book.ask() as session:
        ended = session.scalars(
            select(Fitting.removed_job_id).where(
                Fitting.transport_id == transport, Fitting.removed_at.is_not(None)
            )
        ).one()
    assert ended == bench.job


def test_from_the_shelf_into_an_empty_player(bench: Any, full: tuple[int, int]) -> None:
    other, transport = full
    take_out(bench.book, bench.tobbe, other, shelf="C 2")
    take_out(bench.book, bench.tobbe, bench.job)
    bench.later(days=1)
    move_transport(bench.book, bench.tobbe, bench.job, transport)
    assert told(bench, bench.job)[0] == "moved transport Velk A1 55 902 here from the shelf"
    assert transport_life(bench.book, transport).shelf == ""


def test_out_of_a_player_at_its_customer_s_nothing_is_moved(bench: Any, full: tuple[int, int]) -> None:
    _, transport = full
    with bench.book.change(bench.shop.ine, Sentence("closed")) as change:
        change.get(Job, full[0]).stage = Stage.HANDED_BACK
    with pytest.raises(Refusal) as refused:
        move_transport(bench.book, bench.tobbe, bench.job, transport)
    assert refused.value.next_step is not None
    assert bench.sheet.transport_id == bench.transport
    assert transports_for(bench.book, bench.job).choices == ()


def test_what_is_inside_already_is_not_moved_again(bench: Any) -> None:
    with pytest.raises(Refusal):
        move_transport(bench.book, bench.tobbe, bench.job, bench.transport)


def test_free_transports_of_the_right_type_are_offered_first(bench: Any, full: tuple[int, int]) -> None:
    sled = save_transport_type(
        bench.book, bench.shop.ine, TypeLine(name="Aldro S8", arrangement=Arrangement.SLED)
    ).value
    take_out(bench.book, bench.tobbe, bench.job, shelf="S3")
    note_transport(bench.book, bench.tobbe, bench.job, sled, "8 001", belongs_type="Velk A1")
    take_out(bench.book, bench.tobbe, bench.job, shelf="S4")
    found = transports_for(bench.book, bench.job)
    assert found.belongs == "Velk A1"
    assert [(c.marking, c.where, c.job_number, c.other_type) for c in found.choices] == [
        ("55 871", "S3", None, False),
        ("55 902", "Quellmar Larch 2", 1002, False),
        ("8 001", "S4", None, True),
    ]


def test_a_stay_that_ends_is_told_by_the_job_that_ended_it(bench: Any) -> None:
    first = bench.job
    bench.close()
    before = len(history_of_job(bench.book, first))
    bench.come_again(days=40)
    take_out(bench.book, bench.tobbe, bench.job)
    assert "transport in the player: taken out" in told(bench, bench.job)
    assert len(history_of_job(bench.book, first)) == before
