"""The takings of a day, of another day, and as a paper."""

from __future__ import annotations

from app.trade.bench.kinds import Means
from app.trade.money import Money
from app.work.office.invoices import issue_invoice
from app.work.office.payments import give_back, take_payment
from tests.papers.reading import whole
from tests.screens.office.conftest import lines, link


def pay(worked, minor, means=Means.CASH):
    take_payment(worked.book, worked.who, worked.job, Money(minor, "EUR"), means)


def test_a_day_without_money_says_so_and_waits_for_another_day(office):
    page = office.open("takings")
    assert "No money was taken or given back on this day" in office.sees()
    assert office.focus is page.day.edit


def test_payments_stand_by_means_with_their_sums(office, worked):
    pay(worked, 12000)
    issue_invoice(worked.book, worked.who, worked.job)
    give_back(worked.book, worked.who, worked.job, Money(124, "EUR"), Means.CASH)
    pay(worked, 1000, Means.CARD)
    page = office.open("takings")
    assert lines(page.table) == [
        "Cash: 2 payments, 118.76\u00a0EUR (120.00\u00a0EUR taken, 1.24\u00a0EUR given back)",
        [
            "10:30",
            "deposit",
            "Benedikt Arnsvik",
            "before the invoice job 1001",
            "",
            "Ine Varloes",
            "120.00 EUR",
        ],
        ["10:30", "given back", "Benedikt Arnsvik", "invoice 0001 job 1001", "", "Ine Varloes", "−1.24 EUR"],
        "Card: 1 payment, 10.00\u00a0EUR",
        ["10:30", "payment", "Benedikt Arnsvik", "invoice 0001 job 1001", "", "Ine Varloes", "10.00 EUR"],
    ]
    assert page.head.below() == "128.76\u00a0EUR in all."
    office.press("Return")
    assert office.page.title == "Invoice 0001"


def test_another_day_is_typed_or_stepped_to(office, worked):
    pay(worked, 2000)
    office.shop.clock.advance(days=1)
    page = office.open("takings")
    assert lines(page.table) == []
    office.type_into(page.day, "-1")
    office.press("Return")
    assert page.told() == ("Thursday\u00a012\u00a0March\u00a02026",)
    assert len(lines(page.table)) == 2
    office.push(link(page, "Day after"))
    assert lines(page.table) == []
    office.push(link(page, "Day before"))
    assert len(lines(page.table)) == 2
    office.type_into(page.day, "nonsense")
    assert len(lines(page.table)) == 2


def test_the_day_is_printed_with_its_sums(office, worked):
    pay(worked, 2000)
    office.open("takings", office.desk.today())
    office.press("Ctrl+P")
    text = whole(office.papers[-1].pdf)
    for words in ("Takings of a day", "Thursday", "Cash", "1 payment, 20.00", "20.00\u00a0EUR in all"):
        assert words.replace("\u00a0", " ") in text.replace("\u00a0", " ")


def test_an_empty_day_leads_to_the_invoices(office):
    page = office.open("takings")
    office.push(link(page.empty, "Go to the invoices"))
    assert office.page.title == "Invoices"
