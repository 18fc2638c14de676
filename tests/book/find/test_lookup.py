"""The search index answers by words and by ends of numbers, with full text and without."""

from __future__ import annotations

import pytest

from app.book.find import lookup
from app.book.find.lookup import ids_by_tail, ids_by_words
from app.trade.people.customer import CustomerForm
from app.work.people.customers import add_customer
from tests.work.conftest import cheap_pins, shop, shop_template  # noqa: F401  # fixtures

KIND = ("customer",)


@pytest.fixture(params=["full text", "portable"])
def cards(request, shop, monkeypatch):  # noqa: F811
    """Three cards; asked by either way."""
    for number, name in ((142, "Benedikt Arnsvik"), (777, "Søren Łukaszewicz"), (778, "Sven Arnold")):
        add_customer(shop.book, shop.mirr, CustomerForm(name=name, phone=f"01632 960 {number}"))
    if request.param == "portable":
        monkeypatch.setattr(lookup, "has_fts", lambda connection: False)
    return shop.book


def by_words(book, question, most=8):
    with book.ask() as session:
        return ids_by_words(session, question, KIND, most)["customer"]


def by_tail(book, question):
    with book.ask() as session:
        return ids_by_tail(session, question, KIND, 8)["customer"]


def test_every_word_is_a_beginning_in_any_order_the_newest_first(cards):
    assert by_words(cards, "arn") == [3, 1]
    assert by_words(cards, "arns bene") == [1]
    assert by_words(cards, "s") == [3, 2]
    assert by_words(cards, "arn", most=1) == [3]
    assert by_words(cards, "nsvik") == []


@pytest.mark.parametrize("question", ["", "  ", "((", '"', "%"])
def test_a_question_without_a_word_finds_nothing(cards, question):
    assert by_words(cards, question) == []


def test_four_figures_are_enough_and_three_are_not(cards):
    assert by_tail(cards, "0777") == [2]
    assert by_tail(cards, "777") == []
    assert by_tail(cards, "6077") == [3, 2]  # held, not at the end


def test_numbers_that_end_so_stand_before_those_that_only_hold_it(cards):
    add_customer(cards, 1, CustomerForm(name="Jun Okeland", phone="0777 1234"))
    assert by_tail(cards, "0777") == [2]
    assert by_tail(cards, "7771") == [4]
    assert by_tail(cards, "6096") == []
    assert by_tail(cards, "2960") == [3, 2, 1]
