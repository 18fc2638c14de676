"""The list of customers."""

from __future__ import annotations

from dataclasses import replace

from app.trade.people.customer import CustomerForm
from app.work.counter.taking_in import receive_unit
from app.work.people.customer_list import customer_list, customers_to_print
from app.work.people.customers import add_customer
from tests.work.counter.test_taking_in import LARCH


def names(lines):
    return [line.name for line in lines]


def test_who_was_here_last_stands_first_and_cards_without_a_job_after(shop):
    receive_unit(shop.book, shop.mirr, LARCH)
    add_customer(shop.book, shop.mirr, CustomerForm(name="Odile Varenne"))
    receive_unit(shop.book, shop.mirr, replace(LARCH, name="Jun Okeland", phone="", serial="9"))
    lines = customer_list(shop.book)
    assert names(lines) == ["Jun Okeland", "Benedikt Arnsvik", "Odile Varenne"]
    assert [(line.jobs, line.last_at) for line in lines] == [(1, shop.clock()), (1, shop.clock()), (0, None)]


def test_they_are_found_by_name_number_town_and_its_end(shop):
    add_customer(shop.book, shop.mirr, CustomerForm(name="Odile Varenne", city="Mossgate Quay"))
    receive_unit(shop.book, shop.mirr, LARCH)
    assert names(customer_list(shop.book, "varen")) == ["Odile Varenne"]
    assert names(customer_list(shop.book, "mossgate")) == ["Odile Varenne"]
    assert names(customer_list(shop.book, "01632")) == ["Benedikt Arnsvik"]
    assert names(customer_list(shop.book, "0142")) == ["Benedikt Arnsvik"]
    assert customer_list(shop.book, "zzz") == ()


def test_for_a_paper_those_that_have_no_room_are_counted(shop):
    for at in range(4):
        add_customer(shop.book, shop.mirr, CustomerForm(name=f"Odile Varenne {at}"))
    lines, more = customers_to_print(shop.book, "", 3)
    assert (len(lines), more) == (3, 1)
    assert [customers_to_print(shop.book, "", most)[1] for most in (4, 5)] == [0, 0]
    assert [customers_to_print(shop.book, "odile", most)[1] for most in (3, 4)] == [-1, 0]
