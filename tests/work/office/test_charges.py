"""Charges, fees, text lines and discounts: what the draft says of them, and what is refused."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.trade.bench.stages import Stage
from app.trade.money import MICRO, Money
from app.trade.office.invoice import LineKind
from app.trade.office.vat import VatCategory, VatRate
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.trade.settings import CURRENCY, PRICES_WITH_VAT
from app.work.bench.strike_out import strike_out
from app.work.office.charges import ChargeEntry, add_charge, give_discount
from app.work.office.invoices import draft_invoice, issue_invoice
from app.work.office.settings import change_settings

FULL, LOW = VatRate(1900), VatRate(700)
MANUAL = ChargeEntry(kind=LineKind.FIXED_CHARGE, words=" Copy of the manual ", price=12_500_000, vat=LOW)


def last_line(bench):
    return draft_invoice(bench.book, bench.job).draft.lines[-1]


def test_a_fixed_charge_stands_on_the_draft_with_its_rate(bench):
    done = add_charge(bench.book, bench.who, bench.job, MANUAL)
    line = last_line(bench)
    assert (line.words, line.price, line.vat_rate) == ("Copy of the manual", 12_500_000, 700)
    drafted = draft_invoice(bench.book, bench.job)
    assert (drafted.totals.net, drafted.totals.vat) == (Money(1250, "EUR"), Money(88, "EUR"))
    assert drafted.charge_at(0) == done.value
    assert bench.job in done.changes.jobs


def test_three_pieces_cost_three_times_one(bench):
    add_charge(bench.book, bench.who, bench.job, replace(MANUAL, quantity=3 * MICRO))
    assert draft_invoice(bench.book, bench.job).totals.lines_net == Money(3750, "EUR")


def test_a_price_typed_with_vat_comes_back_to_the_cent(bench):
    change_settings(bench.book, bench.who, {PRICES_WITH_VAT: True})
    add_charge(
        bench.book,
        bench.who,
        bench.job,
        ChargeEntry(kind=LineKind.FEE, words="Diagnosis", price=45 * MICRO, vat=FULL),
    )
    assert last_line(bench).price_with_vat == 45 * MICRO
    assert draft_invoice(bench.book, bench.job).totals.due == Money(4500, "EUR")


def test_without_vat_a_price_is_what_was_typed(bench):
    change_settings(bench.book, bench.who, {PRICES_WITH_VAT: True})
    exempt = VatRate(0, VatCategory.EXEMPT, "small business")
    add_charge(bench.book, bench.who, bench.job, replace(MANUAL, vat=exempt))
    line = last_line(bench)
    assert (line.price, line.price_with_vat, line.vat_reason) == (12_500_000, None, "small business")


def test_a_text_line_charges_nothing_whatever_quantity_it_was_given(bench):
    text = ChargeEntry(kind=LineKind.TEXT, words="Laser and arm as before.", vat=FULL)
    add_charge(bench.book, bench.who, bench.job, text)
    assert (last_line(bench).quantity, draft_invoice(bench.book, bench.job).totals.gross.minor) == (0, 0)


@pytest.mark.parametrize(
    ("entry", "fields"),
    [
        (replace(MANUAL, words="  "), {"words"}),
        (replace(MANUAL, price=-1), {"price"}),
        (replace(MANUAL, quantity=0), {"quantity"}),
        (replace(MANUAL, vat=VatRate(0)), {"vat_rate"}),
        (replace(MANUAL, kind=LineKind.TEXT), {"kind"}),
        (replace(MANUAL, kind=LineKind.LABOUR), {"kind"}),
    ],
)
def test_what_cannot_be_right_is_refused_by_its_field(bench, entry, fields):
    with pytest.raises(FieldRefusal) as refusal:
        add_charge(bench.book, bench.who, bench.job, entry)
    assert set(refusal.value.fields) == fields
    assert draft_invoice(bench.book, bench.job).draft.lines == ()


def test_a_discount_lowers_the_base_of_its_rate(worked):
    done = give_discount(worked.book, worked.who, worked.job, " regular customer ", 10 * MICRO, FULL)
    drafted = draft_invoice(worked.book, worked.job)
    assert drafted.draft.discounts[0].reason == "regular customer"
    assert drafted.behind.discount_ids == (done.value,)
    assert drafted.totals.net == Money(9600 + 380 - 1000, "EUR")


@pytest.mark.parametrize(
    ("reason", "amount", "vat", "fields"),
    [
        ("", 10 * MICRO, FULL, {"reason"}),
        ("regular customer", 0, FULL, {"amount"}),
        ("regular customer", -MICRO, FULL, {"amount"}),
        ("regular customer", 10_005_000, FULL, {"amount"}),  # half a cent
        ("regular customer", 10 * MICRO, VatRate(0), {"vat_rate"}),
    ],
)
def test_a_discount_that_cannot_be_right_is_refused(worked, reason, amount, vat, fields):
    with pytest.raises(FieldRefusal) as refusal:
        give_discount(worked.book, worked.who, worked.job, reason, amount, vat)
    assert set(refusal.value.fields) == fields


def test_a_currency_without_small_coins_has_no_discount_of_half_a_coin(bench):
    change_settings(bench.book, bench.who, {CURRENCY: "JPY"})
    with pytest.raises(FieldRefusal):
        give_discount(bench.book, bench.who, bench.job, "regular customer", 10_500_000, FULL)
    give_discount(bench.book, bench.who, bench.job, "regular customer", 10 * MICRO, FULL)
    assert draft_invoice(bench.book, bench.job).draft.discounts[0].amount == 10


def test_a_discount_larger_than_the_work_is_told_before_anybody_issues(worked):
    give_discount(worked.book, worked.who, worked.job, "goodwill", 1000 * MICRO, FULL)
    assert set(draft_invoice(worked.book, worked.job).wrong) == {"discounts.0.amount"}


def test_a_struck_out_charge_leaves_the_draft_and_stays_in_the_book(worked):
    before = draft_invoice(worked.book, worked.job).totals
    charge = add_charge(worked.book, worked.who, worked.job, MANUAL).value
    discount = give_discount(worked.book, worked.who, worked.job, "goodwill", 5 * MICRO, FULL).value
    for key in (charge, discount):
        strike_out(worked.book, worked.who, "charge", key, "typed on the wrong job")
    assert draft_invoice(worked.book, worked.job).totals == before


def test_nothing_is_put_on_an_invoiced_job(worked):
    issue_invoice(worked.book, worked.who, worked.job)
    with pytest.raises(Refusal, match="invoiced already"):
        add_charge(worked.book, worked.who, worked.job, MANUAL)
    with pytest.raises(Refusal, match="invoiced already"):
        give_discount(worked.book, worked.who, worked.job, "goodwill", MICRO, FULL)


def test_nothing_is_put_on_a_closed_job(worked):
    from app.book.tables import Job

    with worked.book.change(worked.who, Sentence("handed back")) as change:
        change.get(Job, worked.job).stage = Stage.HANDED_BACK
    with pytest.raises(Refusal, match="is closed"):
        add_charge(worked.book, worked.who, worked.job, MANUAL)
