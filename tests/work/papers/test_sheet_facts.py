"""What every paper is told: the shop's head, the customer's address and language, the terms as the shop wrote them."""

from __future__ import annotations

from dataclasses import replace

from app.book import attachments
from app.book.tables import Customer, Paper
from app.trade.money import Money
from app.trade.sentence import Sentence
from app.trade.settings.shop import ADDRESS_LINES, CITY, COUNTRY, LOGO, POSTCODE, SHOP_NAME
from app.trade.settings.terms import TERMS, Term
from app.work.counter.taking_in import receive_unit
from app.work.office.settings import change_settings
from tests.work.counter.test_taking_in import LARCH, close


def ticket(shop, **differs):
    done = receive_unit(shop.book, shop.mirr, replace(LARCH, **differs)).value
    with shop.book.ask() as session:
        return session.get_one(Paper, done.ticket_id).facts, done


def test_the_head_and_the_address_come_from_settings_and_card(shop):
    logo = attachments.store(shop.book.files, b"\x89PNG invented").sha256
    change_settings(
        shop.book,
        shop.ine,
        {
            SHOP_NAME: "Lanternfield Workshop",
            ADDRESS_LINES: ("3 Harbour Steps",),
            POSTCODE: "MQ1 2AB",
            CITY: "Mossgate Quay",
            COUNTRY: "GB",
            LOGO: logo,
        },
    )
    facts, _ = ticket(shop, street="9 Weir Lane\nYard house", postcode="MQ1 4CD", city="Mossgate Quay")
    assert facts["sheet"]["shop"]["name"] == "Lanternfield Workshop"
    assert facts["sheet"]["shop"]["address"] == ["3 Harbour Steps", "Mossgate Quay", "MQ1 2AB"]
    assert facts["sheet"]["shop"]["logo"]
    assert facts["customer"]["address"] == ["9 Weir Lane", "Yard house", "Mossgate Quay", "MQ1 4CD"]
    assert facts["customer"]["number"] == "C 0001"


def test_a_lost_logo_never_keeps_a_ticket_waiting(shop):
    change_settings(shop.book, shop.ine, {LOGO: "0" * 64})
    facts, _ = ticket(shop)
    assert facts["sheet"]["shop"]["logo"] == ""


def test_a_paper_speaks_the_customers_language(shop):
    _, done = ticket(shop)
    with shop.book.change(shop.mirr, Sentence("card")) as c:
        c.get(Customer, done.customer_id).language = "de"
    close(shop, done.job_id)
    facts, _ = ticket(shop)
    assert facts["sheet"]["language"] == "de"


def test_a_term_that_names_a_fee_is_printed_only_where_one_was_told(shop):
    change_settings(
        shop.book, shop.ine, {TERMS: (Term("Looking", "costs {diagnosis_fee} {smile}."), Term("", "Bye."))}
    )
    facts, _ = ticket(shop)
    assert [clause["text"] for clause in facts["terms"]] == ["Bye."]
    facts, _ = ticket(shop, serial="9", diagnosis_fee=Money(4500, "EUR"), diagnosis_fee_told=True)
    assert facts["terms"][0]["text"] == "costs 45.00\u00a0EUR {smile}."


def test_earlier_visits_stand_on_the_customers_half(shop):
    first, done = ticket(shop)
    assert first["here_before"] == ""
    close(shop, done.job_id)
    second, done = ticket(shop)
    assert second["here_before"]["sentence"][0] == "once: {visits}"
    close(shop, done.job_id)
    third, _ = ticket(shop)
    assert third["here_before"]["sentence"][1]["count"] == 2
