"""Stock of a part: sent back, scrapped, taken out of a donor; every move stands with who and why."""

from __future__ import annotations

from decimal import Decimal

import pytest

from app.book.tables import Job, Unit
from app.trade.bench.stages import MainsClass
from app.trade.office.stock import MoveKind
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.work.bench.unit_life import unit_life
from app.work.bench.work_done import put_part_back, use_part
from app.work.office.invoices import draft_invoice
from app.work.office.parts import parts
from app.work.office.stock import (
    count_part,
    donors,
    part_moves,
    receive_part,
    scrap_part,
    send_back_part,
    take_from_donor,
)


def unit_of(bench):
    with bench.book.ask() as session:
        return session.get_one(Job, bench.job).unit_id


@pytest.fixture
def donor(bench):
    """The player of the job, as if it had stayed here for its parts."""
    unit = unit_of(bench)
    with bench.book.change(bench.who, Sentence("kept as donor")) as change:
        change.get(Unit, unit).is_donor = True
    return unit


def test_what_goes_back_to_the_supplier_and_what_is_scrapped_leaves_the_stock(bench):
    send_back_part(bench.book, bench.who, bench.part, Decimal(2), note="wrong width")
    scrap_part(bench.book, bench.who, bench.part, Decimal(3), note="gone hard")
    scrapped, sent, _ = part_moves(bench.book, bench.part)
    assert (sent.kind, sent.quantity, sent.after, sent.note) == (MoveKind.SENT_BACK, -2, 8, "wrong width")
    assert (scrapped.kind, scrapped.quantity, scrapped.after) == (MoveKind.SCRAPPED, -3, 5)
    assert parts(bench.book)[0].on_hand == 5


@pytest.mark.parametrize("deed", [scrap_part, send_back_part])
def test_more_than_there_is_cannot_leave(bench, deed):
    with pytest.raises(FieldRefusal) as refusal:
        deed(bench.book, bench.who, bench.part, Decimal(11), note="gone hard")
    assert refusal.value.fields["quantity"].values == {"count": Decimal(10)}


def test_nothing_is_scrapped_without_a_reason(bench):
    with pytest.raises(FieldRefusal) as refusal:
        scrap_part(bench.book, bench.who, bench.part, Decimal(1), note=" ")
    assert set(refusal.value.fields) == {"note"}


def test_a_donor_gives_a_part_and_both_tell_it(bench, donor):
    assert [(line.player, line.serial, line.taken) for line in donors(bench.book)] == [
        ("Quellmar Larch 2", "0420 158", 0)
    ]
    take_from_donor(bench.book, bench.who, bench.part, donor, Decimal(1), note="hardly worn")
    move = part_moves(bench.book, bench.part)[0]
    assert (move.kind, move.quantity, move.after) == (MoveKind.FROM_DONOR, 1, 11)
    assert (move.unit_id, move.player, move.job) == (donor, "Quellmar Larch 2", None)
    (given,) = unit_life(bench.book, donor).given
    assert (given.code, given.quantity, given.note, given.by) == ("B-22", 1, "hardly worn", "Ine Varloes")
    assert donors(bench.book)[0].taken == 1


def test_a_player_of_a_customer_gives_no_parts(bench):
    with pytest.raises(FieldRefusal) as refusal:
        take_from_donor(bench.book, bench.who, bench.part, unit_of(bench), Decimal(1))
    assert set(refusal.value.fields) == {"unit"}
    assert donors(bench.book) == ()


def test_a_part_fitted_goes_to_the_invoice_and_to_the_players_life(bench):
    used = use_part(bench.book, bench.who, bench.job, bench.part, Decimal(2), note="both loaders").value.id
    (line,) = draft_invoice(bench.book, bench.job).draft.lines
    assert (line.words, line.quantity, line.price) == ("Loading belt 22 mm", 2_000_000, 3_800_000)
    (fitted,) = unit_life(bench.book, unit_of(bench)).fitted
    assert (fitted.words, fitted.quantity, fitted.job, fitted.note) == (
        "Loading belt 22 mm",
        2,
        1001,
        "both loaders",
    )
    assert part_moves(bench.book, bench.part)[0].player == "Quellmar Larch 2"
    put_part_back(bench.book, bench.who, used)
    assert unit_life(bench.book, unit_of(bench)).fitted == ()
    assert draft_invoice(bench.book, bench.job).draft.lines == ()


def test_a_part_that_goes_straight_from_a_donor_into_a_job_is_told_from_both_ends(bench, donor):
    with bench.book.change(bench.who, Sentence("another player")) as change:
        other = change.add(
            Unit(
                maker="Kestovar",
                model="Kelp 1",
                serial="77",
                mains_class=MainsClass.II,
                created_at=change.now,
                is_donor=True,
            )
        )
    use_part(bench.book, bench.who, bench.job, bench.part, Decimal(1), note="quiet", donor=other.id)
    used, taken, _ = part_moves(bench.book, bench.part)
    assert (used.kind, used.after, used.player, used.out_of) == (
        MoveKind.USED,
        10,
        "Quellmar Larch 2",
        "Kestovar Kelp 1",
    )
    assert (taken.kind, taken.after, taken.player, taken.out_of) == (
        MoveKind.FROM_DONOR,
        11,
        "Kestovar Kelp 1",
        "",
    )
    (fitted,) = unit_life(bench.book, unit_of(bench)).fitted
    assert (fitted.donor, fitted.note) == ("Kestovar Kelp 1, 77", "quiet")
    (given,) = unit_life(bench.book, other.id).given
    assert (given.job, given.quantity, given.donor) == (1001, 1, "")
    assert {line.player: line.taken for line in donors(bench.book)} == {
        "Kestovar Kelp 1": 1,
        "Quellmar Larch 2": 0,
    }
    (line,) = draft_invoice(bench.book, bench.job).draft.lines
    assert line.quantity == 1_000_000


def test_no_part_comes_straight_out_of_a_customers_player(bench):
    with pytest.raises(FieldRefusal) as refusal:
        use_part(bench.book, bench.who, bench.job, bench.part, Decimal(1), donor=unit_of(bench))
    assert set(refusal.value.fields) == {"donor"}
    assert len(part_moves(bench.book, bench.part)) == 1


def test_only_the_newest_moves_are_asked_for_where_many_are(bench):
    for count in (3, 4):
        receive_part(bench.book, bench.who, bench.part, Decimal(count))
    assert [(move.quantity, move.after) for move in part_moves(bench.book, bench.part, most=2)] == [
        (4, 17),
        (3, 13),
    ]


def test_stock_is_the_sum_of_all_its_moves(bench, donor):
    receive_part(bench.book, bench.who, bench.part, Decimal("2.5"))
    take_from_donor(bench.book, bench.who, bench.part, donor, Decimal(1))
    used = use_part(bench.book, bench.who, bench.job, bench.part, Decimal(3)).value.id
    put_part_back(bench.book, bench.who, used)
    scrap_part(bench.book, bench.who, bench.part, Decimal(1), note="bent")
    count_part(bench.book, bench.who, bench.part, Decimal(12))
    moves = part_moves(bench.book, bench.part)
    assert sum(move.quantity for move in moves) == moves[0].after == parts(bench.book)[0].on_hand == 12


def test_a_note_that_has_no_room_keeps_a_part_on_the_shelf(bench):
    with pytest.raises(FieldRefusal) as refusal:
        use_part(bench.book, bench.who, bench.job, bench.part, Decimal(0), note="x" * 201)
    assert set(refusal.value.fields) == {"note", "quantity"}
    assert parts(bench.book)[0].on_hand == 10
