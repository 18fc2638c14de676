"""Customers: found while typing, edited with care, merged without losing anything."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.book.tables import Customer
from app.trade.people.customer import CustomerForm
from app.trade.refusal import FieldRefusal, Refusal, StaleRow
from app.trade.sentence import Sentence
from app.trade.settings.shop import CALLING_CODE
from app.work.counter.taking_in import receive_unit
from app.work.office.settings import change_settings
from app.work.people.customers import (
    add_customer,
    customer_card,
    edit_customer,
    match_customers,
    merge_customers,
)
from tests.work.counter.test_taking_in import LARCH

ARNSVIK = CustomerForm(name="Benedikt Arnsvik", phone="01632 960 142", city="Mossgate Quay")


@pytest.fixture
def arnsvik(shop) -> int:
    return add_customer(shop.book, shop.mirr, ARNSVIK).value


def names(matches) -> list[str]:
    return [match.name for match in matches]


def test_a_name_is_matched_by_beginnings_of_its_words_in_any_order(shop, arnsvik):
    add_customer(shop.book, shop.mirr, CustomerForm(name="Benno Arnold"))
    for typed in ("arnsv", "BEN arns", "arnsvik bened", "Árnsvík"):
        assert names(match_customers(shop.book, name=typed)) == ["Benedikt Arnsvik"]
    assert names(match_customers(shop.book, name="be")) == ["Benno Arnold", "Benedikt Arnsvik"]
    assert match_customers(shop.book, name="b") == ()
    assert match_customers(shop.book, name="brelik") == ()


def test_a_number_is_matched_from_its_beginning_and_by_its_last_four_figures(shop, arnsvik):
    for typed in ("01632", "01632 960", "0142", "960142", "+1632 960 142"):
        assert names(match_customers(shop.book, phone=typed)) == ["Benedikt Arnsvik"], typed
    assert match_customers(shop.book, phone="99") == ()
    assert match_customers(shop.book, phone="01632 961") == ()


def test_with_the_calling_code_a_national_and_an_international_number_are_one(shop):
    change_settings(shop.book, shop.ine, {CALLING_CODE: "44"})
    add_customer(shop.book, shop.mirr, ARNSVIK)
    for typed in ("+44 1632 960", "0044 1632", "01632 960 142", "+44 (0)1632 960 142"):
        assert names(match_customers(shop.book, phone=typed)) == ["Benedikt Arnsvik"], typed


def test_a_match_says_since_when_and_how_many_jobs(shop):
    receive_unit(shop.book, shop.mirr, LARCH)
    (match,) = match_customers(shop.book, name="arnsvik")
    assert (match.jobs, match.since) == (1, shop.clock())


def test_the_card_shows_jobs_and_players(shop):
    taken = receive_unit(shop.book, shop.mirr, LARCH).value
    card = customer_card(shop.book, taken.customer_id)
    assert [(job.number, job.player) for job in card.jobs] == [(1001, "Quellmar Larch 2")]
    assert [(unit.maker, unit.serial) for unit in card.units] == [("Quellmar", "0420 158")]
    assert card.form.phone == "01632 960 142"


def test_what_cannot_be_right_is_named_by_field(shop):
    wrong = CustomerForm(
        name=" ", phone="ring", email="@", country="de", vat_id="DE 1", language="xx", street="x" * 241
    )
    with pytest.raises(FieldRefusal) as refusal:
        add_customer(shop.book, shop.mirr, wrong)
    assert set(refusal.value.fields) == {
        "name",
        "phone",
        "email",
        "street",
        "country",
        "vat_id",
        "language",
    }


def test_the_second_saver_of_a_card_is_told(shop, arnsvik):
    edit_customer(shop.book, shop.mirr, arnsvik, 1, replace(ARNSVIK, city="Harrow Quay"))
    with pytest.raises(StaleRow) as stale:
        edit_customer(shop.book, shop.ine, arnsvik, 1, replace(ARNSVIK, city="Elsewhere"))
    assert stale.value.theirs["city"] == "Harrow Quay"
    assert customer_card(shop.book, arnsvik).form.city == "Harrow Quay"


def test_merging_moves_jobs_and_players_and_loses_nothing(shop):
    keep = add_customer(
        shop.book, shop.mirr, CustomerForm(name="Benedikt Arnsvik", email="b@example.org", note="rings twice")
    ).value
    other = receive_unit(shop.book, shop.mirr, replace(LARCH, city="Mossgate Quay")).value.customer_id
    edit_customer(
        shop.book,
        shop.mirr,
        other,
        customer_card(shop.book, other).version,
        CustomerForm(name="B. Arnsvik", phone="01632 960 142", email="ben@example.org", city="Mossgate Quay"),
    )
    third = add_customer(shop.book, shop.mirr, CustomerForm(name="Arnsvik, B.")).value
    merge_customers(shop.book, shop.mirr, other, customer_card(shop.book, other).version, third, 1)
    merge_customers(shop.book, shop.mirr, keep, 1, other, customer_card(shop.book, other).version)
    card = customer_card(shop.book, keep)
    assert [job.number for job in card.jobs] == [1001]
    assert len(card.units) == 1
    assert (card.form.name, card.form.email, card.form.city) == (
        "Benedikt Arnsvik",
        "b@example.org",
        "Mossgate Quay",
    )
    assert card.form.phone == "01632 960 142"
    assert card.form.note.splitlines() == ["rings twice", "ben@example.org"]
    assert set(card.stands_for) == {"B. Arnsvik", "Arnsvik, B."}
    assert customer_card(shop.book, other).merged_into == keep
    assert customer_card(shop.book, third).merged_into == keep
    assert names(match_customers(shop.book, name="arnsvik")) == ["Benedikt Arnsvik"]


def test_a_merged_or_erased_card_is_not_merged_again(shop, arnsvik):
    other = add_customer(shop.book, shop.mirr, CustomerForm(name="B. Arnsvik")).value
    with pytest.raises(Refusal, match="one and the same"):
        merge_customers(shop.book, shop.mirr, arnsvik, 1, arnsvik, 1)
    merge_customers(shop.book, shop.mirr, arnsvik, 1, other, 1)
    with pytest.raises(Refusal, match="merged into another"):
        merge_customers(shop.book, shop.mirr, arnsvik, 1, other, 2)
    with shop.book.change(shop.ine, Sentence("erased")) as change:
        change.get(Customer, arnsvik).erased_at = change.now
    with pytest.raises(Refusal, match="erased"):
        edit_customer(shop.book, shop.mirr, arnsvik, 2, ARNSVIK)


def test_a_number_of_zeros_alone_matches_nobody(shop, arnsvik):
    assert match_customers(shop.book, phone="0000") == ()
