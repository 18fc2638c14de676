"""Ordered parts: written down, come in wholly and partly, late, given up, and the job that waits for them."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import pytest
from sqlalchemy import text

from app.book.tables import Job
from app.trade.bench.stages import Outcome, Stage, Waiting
from app.trade.office.part_orders import OrderState
from app.trade.office.stock import MoveKind
from app.trade.refusal import Fault, FieldRefusal, Refusal, StaleRow
from app.trade.sentence import Sentence
from app.work.bench.sheet_of_job import job_sheet
from app.work.bench.work_done import use_part
from app.work.counter.job_rows import job_rows
from app.work.counter.stages import set_waiting
from app.work.office.part_orders import (
    OrderEntry,
    expect_order,
    give_up_order,
    order_part,
    order_parts,
    orders_late,
    part_orders,
    receive_order,
)
from app.work.office.parts import PartEntry, parts, save_part
from app.work.office.reorder_list import reorder_list
from app.work.office.stock import part_moves

BELT = PartEntry(
    code="B-30", words="Loading belt 30 mm", price=4_200_000, supplier="Brackwater Belts", lead_days=9
)


@pytest.fixture
def today(bench):
    return bench.book.today()


def order(bench, count=20, **fields):
    entry = OrderEntry(part_id=fields.pop("part_id", bench.part), quantity=Decimal(count), **fields)
    return order_part(bench.book, bench.who, entry).value


def waits_for(bench):
    with bench.book.ask() as session:
        return session.get_one(Job, bench.job).waiting


def test_an_order_goes_to_the_parts_supplier_and_is_expected_after_its_time(bench, today):
    belt = save_part(bench.book, bench.who, BELT).value
    order(bench, 25, part_id=belt, note="by letter")
    order(bench, 5)
    own, others = part_orders(bench.book)
    assert (own.code, own.supplier, own.by, own.note) == (
        "B-30",
        "Brackwater Belts",
        "Ine Varloes",
        "by letter",
    )
    assert (own.ordered_on, own.ordered.expected_on) == (today, today + timedelta(days=9))
    # 14 days are what the settings say; a part without a supplier has none in its order.
    assert (others.supplier, others.ordered.expected_on) == ("", today + timedelta(days=14))


def test_what_is_on_order_is_no_stock(bench):
    order(bench)
    (line,) = parts(bench.book)
    assert (line.on_hand, line.on_order) == (10, 20)
    assert line.expected_on == part_orders(bench.book)[0].ordered.expected_on


def test_an_order_comes_in_parts_as_bought_moves(bench):
    key = order(bench)
    receive_order(bench.book, bench.who, key, Decimal(12), note="delivery note 7")
    (line,) = part_orders(bench.book, part_id=bench.part, open_only=True)
    assert (line.state, line.ordered.came, line.ordered.to_come) == (OrderState.PARTLY, 12, 8)
    assert parts(bench.book)[0].on_order == 8
    receive_order(bench.book, bench.who, key, Decimal(8))
    assert part_orders(bench.book, open_only=True) == ()
    assert part_orders(bench.book)[0].state is OrderState.HERE
    last, first, _ = part_moves(bench.book, bench.part)
    assert [(m.kind, m.quantity, m.after) for m in (first, last)] == [
        (MoveKind.RECEIVED, 12, 22),
        (MoveKind.RECEIVED, 8, 30),
    ]
    assert (first.note, parts(bench.book)[0].on_order) == ("delivery note 7", 0)
    assert first.ordered_on == bench.book.today()


def test_more_than_was_ordered_may_come(bench):
    key = order(bench)
    receive_order(bench.book, bench.who, key, Decimal(25))
    assert (parts(bench.book)[0].on_hand, part_orders(bench.book)[0].state) == (35, OrderState.HERE)
    assert parts(bench.book)[0].on_order == 0


def test_what_comes_no_more_is_given_up_with_a_reason_and_stays_legible(bench):
    key = order(bench)
    receive_order(bench.book, bench.who, key, Decimal(5))
    with pytest.raises(FieldRefusal) as refusal:
        give_up_order(bench.book, bench.who, key, " ")
    assert set(refusal.value.fields) == {"reason"}
    with pytest.raises(FieldRefusal):
        give_up_order(bench.book, bench.who, key, "x" * 201)
    give_up_order(bench.book, bench.who, key, "no longer made")
    (line,) = part_orders(bench.book)
    assert (line.state, line.ordered.came, line.ordered.to_come) == (OrderState.GIVEN_UP, 5, 0)
    assert line.reason == "no longer made"
    assert (parts(bench.book)[0].on_hand, parts(bench.book)[0].on_order) == (15, 0)
    for deed in (
        lambda: give_up_order(bench.book, bench.who, key, "again"),
        lambda: receive_order(bench.book, bench.who, key, Decimal(1)),
        lambda: expect_order(bench.book, bench.who, key, bench.book.today(), version=line.version),
    ):
        with pytest.raises(Refusal, match="given up already"):
            deed()


def test_an_order_is_counted_when_it_is_asked_what_to_order(bench):
    use_part(bench.book, bench.who, bench.job, bench.part, Decimal(8))
    (line,) = reorder_list(bench.book)
    # 8 in the least time of 30 days: 3.73 in 14, 7 meet 95 in 100 (scipy.stats.poisson.ppf); 7 + 24 - 2.
    assert (line.found.point, line.found.order) == (7, 29)
    key = order(bench, 5)
    (line,) = reorder_list(bench.book)  # 2 + 5 are no more than 7
    assert (line.part.on_order, line.found.order) == (5, 24)
    order(bench, 1)
    assert reorder_list(bench.book) == ()
    give_up_order(bench.book, bench.who, key, "forgotten there")
    assert reorder_list(bench.book)[0].found.order == 28


def test_a_whole_list_is_ordered_in_one_action_or_not_at_all(bench):
    belt = save_part(bench.book, bench.who, BELT).value
    entries = [
        OrderEntry(part_id=bench.part, quantity=Decimal(3)),
        OrderEntry(part_id=belt, quantity=Decimal(0)),
    ]
    with pytest.raises(FieldRefusal):
        order_parts(bench.book, bench.who, entries)
    assert part_orders(bench.book) == ()
    entries[1] = OrderEntry(part_id=belt, quantity=Decimal(4), supplier="Harlow Components")
    assert len(order_parts(bench.book, bench.who, entries).value) == 2
    assert {(line.code, line.ordered.quantity, line.supplier) for line in part_orders(bench.book)} == {
        ("B-22", 3, ""),
        ("B-30", 4, "Harlow Components"),
    }


def test_a_supplier_that_takes_longer_moves_the_day_and_the_second_saver_is_told(bench, today):
    key = order(bench)
    later = today + timedelta(days=40)
    with pytest.raises(FieldRefusal):
        expect_order(bench.book, bench.who, key, today - timedelta(days=1), version=1)
    expect_order(bench.book, bench.who, key, later, version=1)
    assert part_orders(bench.book)[0].ordered.expected_on == later
    with pytest.raises(StaleRow):
        expect_order(bench.book, bench.who, key, today, version=1)


def test_late_orders_are_counted_until_they_are_here(bench, today):
    key = order(bench, ordered_on=today, expected_on=today)
    bench.shop.clock.advance(days=2)
    (line,) = part_orders(bench.book)
    with bench.book.ask() as session:
        assert (line.days_late, orders_late(session, bench.book.today())) == (2, 1)
        assert orders_late(session, today) == 0
    receive_order(bench.book, bench.who, key, Decimal(20))
    with bench.book.ask() as session:
        assert orders_late(session, bench.book.today()) == 0


def test_a_job_waits_for_what_was_ordered_for_it_and_goes_on_when_all_is_here(bench):
    first, second = order(bench, 2, job=1001), order(bench, 1, job=1001)
    assert waits_for(bench) is Waiting.PART
    assert [line.job for line in part_orders(bench.book, job_id=bench.job)] == [1001, 1001]
    done = receive_order(bench.book, bench.who, first, Decimal(2))
    assert bench.job in done.changes.jobs
    assert waits_for(bench) is Waiting.PART
    receive_order(bench.book, bench.who, second, Decimal(1))
    assert waits_for(bench) is Waiting.NOTHING


def test_the_sheet_and_the_list_tell_what_a_job_waits_for(bench, today):
    assert job_rows(bench.book, [bench.job])[0].part_due is None
    set_waiting(bench.book, bench.who, bench.job, Waiting.PART)
    assert job_rows(bench.book, [bench.job])[0].part_due is None
    first = order(bench, 2, job=1001, expected_on=today + timedelta(days=3), supplier="Harlow Components")
    order(bench, 1, job=1001, expected_on=today + timedelta(days=8))
    assert job_rows(bench.book, [bench.job])[0].part_due == today + timedelta(days=8)
    receive_order(bench.book, bench.who, first, Decimal(1))
    sooner, later = job_sheet(bench.book, bench.job).ordered
    assert (sooner.code, sooner.supplier, sooner.ordered.came, sooner.ordered.to_come) == (
        "B-22",
        "Harlow Components",
        1,
        1,
    )
    assert later.ordered.state is OrderState.ON_ORDER


def test_a_job_that_waits_for_something_else_goes_on_waiting_for_it(bench):
    set_waiting(bench.book, bench.who, bench.job, Waiting.ANSWER)
    key = order(bench, 2, job=1001)
    receive_order(bench.book, bench.who, key, Decimal(2))
    assert waits_for(bench) is Waiting.ANSWER


@pytest.mark.parametrize(
    ("wrong", "fields"),
    [
        ({"count": 0}, {"quantity"}),
        ({"ordered_on": date(2027, 1, 1), "expected_on": date(2026, 1, 1)}, {"ordered_on", "expected_on"}),
        ({"ordered_on": date.max}, {"ordered_on", "expected_on"}),
        ({"expected_on": date.max}, {"expected_on"}),
        ({"count": 10**12}, {"quantity"}),
        ({"supplier": "x" * 81}, {"supplier"}),
        ({"supplier": "Har\x1blow"}, {"supplier"}),
        ({"note": "x" * 201}, {"note"}),
        ({"job": 77}, {"job"}),
    ],
)
def test_an_order_that_cannot_be_right_is_refused_at_its_field(bench, wrong, fields):
    with pytest.raises(FieldRefusal) as refusal:
        order(bench, **wrong)
    assert set(refusal.value.fields) == fields


def test_an_order_of_any_day_before_can_be_written_down_and_is_late(bench):
    order(bench, ordered_on=date.min)
    (line,) = part_orders(bench.book)
    assert (line.ordered_on, line.days_late > 700_000) == (date.min, True)


def test_nothing_is_ordered_for_a_player_that_is_gone_or_of_a_part_that_is_no_longer_kept(bench):
    with bench.book.change(bench.who, Sentence("gone")) as change:
        job = change.get(Job, bench.job)
        job.stage, job.outcome = Stage.HANDED_BACK, Outcome.MENDED
    (part,) = parts(bench.book)
    gone = PartEntry(code=part.code, words=part.words, price=part.price, retired=True)
    save_part(bench.book, bench.who, gone, part_id=part.id)
    with pytest.raises(FieldRefusal) as refusal:
        order(bench, job=1001)
    assert set(refusal.value.fields) == {"job", "part"}


def test_nothing_comes_in_that_is_no_number(bench):
    key = order(bench)
    with pytest.raises(FieldRefusal) as refusal:
        receive_order(bench.book, bench.who, key, Decimal(0), note="x" * 201)
    assert set(refusal.value.fields) == {"quantity", "note"}


def test_no_hand_in_the_file_alters_what_was_ordered(bench):
    order(bench)
    for statement in ("UPDATE part_orders SET quantity = 1", "DELETE FROM part_orders"):
        with (
            pytest.raises(Fault, match="part_orders"),
            bench.book.change(bench.who, Sentence("by hand")) as change,
        ):
            change.session.connection().execute(text(statement))
