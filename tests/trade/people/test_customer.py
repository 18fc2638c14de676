"""A customer's card: what cannot be right in it, and when two may be one."""

from __future__ import annotations

from app.trade.people.customer import CustomerForm, check_customer, may_be_one


def test_a_card_needs_nothing_but_a_name():
    assert check_customer(CustomerForm(name="Mossgate Choir")) == {}
    assert set(check_customer(CustomerForm())) == {"name"}
    assert set(check_customer(CustomerForm(name="x" * 301))) == {"name"}


def test_country_and_vat_number_are_written_in_their_form():
    right = CustomerForm(name="A", country="DE", vat_id="DE123456789", language="de")
    assert check_customer(right) == {}
    wrong = CustomerForm(name="A", country="Germany", vat_id="123", language="de_DE")
    assert set(check_customer(wrong)) == {"country", "vat_id", "language"}


def test_only_name_and_number_together_mean_one_person():
    assert may_be_one("benedikt arnsvik", "01632-960142", "Benedikt Árnsvik", "01632 960 142")
    assert not may_be_one("Benedikt Arnsvik", "", "Benedikt Arnsvik", "")
    assert not may_be_one("Greta Lindqvarn", "01632 960142", "Benedikt Arnsvik", "01632 960 142")
    assert may_be_one("A", "+44 1632 960142", "a", "01632 960142", "44")
