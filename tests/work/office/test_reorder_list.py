"""The reorder list: use from the moves, each part's own waiting time and service, orders by supplier."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from app.trade.money import Money
from app.trade.settings import LEAD_DAYS, ORDER_LASTS, SERVICE_LEVEL
from app.work.bench.work_done import put_part_back, use_part
from app.work.office.parts import PartEntry, save_part
from app.work.office.reorder_list import reorder_list
from app.work.office.settings import change_settings
from app.work.office.stock import count_part, receive_part, scrap_part

BELT = PartEntry(code="B-30", words="Loading belt 30 mm", price=4_200_000)


def use(bench, part, count):
    return use_part(bench.book, bench.who, bench.job, part, Decimal(count)).value.id


def test_what_is_enough_is_not_listed_unless_all_are_asked_for(bench):
    assert reorder_list(bench.book) == ()
    (line,) = reorder_list(bench.book, every=True)
    assert (line.part.code, line.used, line.found.order, line.cost) == ("B-22", 0, 0, None)


def test_a_part_is_listed_once_no_more_is_there_than_its_reorder_point(bench):
    use(bench, bench.part, 8)
    bench.shop.clock.advance(days=100)
    (line,) = reorder_list(bench.book)
    # 8 in 101 days, so 1.109 in 14 days of waiting: 3 meet 95 in 100 (scipy.stats.poisson.ppf). Two are there;
    # 90 days use 7.13 more: 3 + 7.13 - 2.
    assert (line.used, line.found.seen, line.found.point, line.found.order) == (8, 101, 3, 9)
    receive_part(bench.book, bench.who, bench.part, Decimal(2))
    assert reorder_list(bench.book) == ()


def test_what_was_put_back_scrapped_or_counted_is_no_use(bench):
    put_part_back(bench.book, bench.who, use(bench, bench.part, 4))
    scrap_part(bench.book, bench.who, bench.part, Decimal(2), note="bent")
    count_part(bench.book, bench.who, bench.part, Decimal(0))
    (line,) = reorder_list(bench.book, every=True)
    assert (line.part.on_hand, line.used, line.found.order) == (0, 0, 0)


def test_use_of_more_than_a_year_ago_counts_no_longer(bench):
    use(bench, bench.part, 8)
    bench.shop.clock.advance(days=366)
    assert reorder_list(bench.book, every=True)[0].used == 0


def test_a_part_with_its_own_waiting_time_and_service_goes_by_them(bench):
    use(bench, bench.part, 6)
    change_settings(bench.book, bench.who, {LEAD_DAYS: 1, SERVICE_LEVEL: 8000, ORDER_LASTS: 30})
    assert reorder_list(bench.book) == ()
    own = replace(BELT, code="B-22", words="Loading belt 22 mm", lead_days=30, service=9900, cost=1_255_000)
    save_part(bench.book, bench.who, own, part_id=bench.part)
    (line,) = reorder_list(bench.book)
    # 6 in the least time of 30 days: mean 6, 12 meet 99 in 100 (scipy.stats.poisson.ppf); 12 + 6 - 4.
    assert (line.lead_days, line.service, line.found.point, line.found.order) == (30, 9900, 12, 14)
    assert line.cost == Money(1757, "EUR")


def test_orders_stand_by_supplier_and_those_without_one_last(bench):
    for code, supplier in (("A-1", ""), ("Z-1", "Brackwater Belts"), ("Y-1", "Harlow Components")):
        save_part(bench.book, bench.who, replace(BELT, code=code, supplier=supplier))
    save_part(bench.book, bench.who, replace(BELT, code="OLD", retired=True))
    codes = [line.part.code for line in reorder_list(bench.book, every=True)]
    assert codes == ["Z-1", "Y-1", "A-1", "B-22"]


def test_one_part_is_asked_about_alone_also_when_it_is_no_longer_kept(bench):
    other = save_part(bench.book, bench.who, replace(BELT, retired=True)).value
    assert [line.part.code for line in reorder_list(bench.book, every=True, part_id=other)] == ["B-30"]
    assert [line.part.code for line in reorder_list(bench.book, every=True, part_id=bench.part)] == ["B-22"]
    assert reorder_list(bench.book, part_id=bench.part) == ()
