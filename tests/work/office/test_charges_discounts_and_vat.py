"""Facts about discounts on a line, charges on the whole, invoices without VAT and the shop that charges none."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC

import pytest

from app.trade.money import MICRO, Money
from app.trade.office.invoice import LineKind
from app.trade.office.on_the_bill import LineOf, check_no_vat, rates_offered
from app.trade.office.vat import VatCategory, VatRate
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.settings import (
    DIAGNOSIS_FEE,
    PRICES_WITH_VAT,
    SMALL_BUSINESS,
    SMALL_BUSINESS_WORDS,
    ShopSettings,
)
from app.work.bench.sheet_of_job import job_sheet
from app.work.bench.strike_out import strike_out
from app.work.office.charges import (
    ChargeEntry,
    add_charge,
    discount_line,
    give_discount,
    leave_vat_out,
    put_on_top,
)
from app.work.office.e_invoices import e_invoice_of
from app.work.office.invoices import draft_invoice, issue_invoice
from app.work.office.settings import change_settings
from app.work.papers.issuing import paper_pdf
from app.work.people.customers import customer_card, edit_customer
from tests.papers.reading import whole

FULL = VatRate(1900)
AWAY = "The buyer owes the VAT (reverse charge)."


def draft(bench):
    return draft_invoice(bench.book, bench.job)


def off(bench, line, amount, reason="scratched"):
    source = draft(bench).source(line)
    return discount_line(bench.book, bench.who, bench.job, source, reason, amount).value


def test_a_discount_lowers_its_line_and_says_why(worked):
    key = off(worked, 1, 1_500_000)
    drafted = draft(worked)
    assert drafted.behind.line_discount_ids == {drafted.source(1): key}
    assert drafted.can_strike
    assert (drafted.draft.lines[1].discount, drafted.draft.lines[1].discount_reason) == (150, "scratched")
    assert drafted.totals.net == Money(9600 + 380 - 150, "EUR")
    strike_out(worked.book, worked.who, "charge", key, "wrong line")
    assert draft(worked).draft.lines[1].discount == 0
    assert not draft(worked).can_strike


def test_the_paper_names_the_discount_of_a_line(worked):
    off(worked, 1, 1_500_000, "<b>scratched</b> & bent")
    issued = issue_invoice(worked.book, worked.who, worked.job).value
    text = whole(paper_pdf(worked.book, issued.paper_id).pdf)
    assert "less 1.50: <b>scratched</b> & bent" in text


@pytest.mark.parametrize(
    ("amount", "reason", "fields"),
    [
        (0, "why", {"amount"}),
        (-MICRO, "why", {"amount"}),
        (3_810_000, "why", {"amount"}),  # the line is 3.80
        (1_005_000, "why", {"amount"}),  # half a cent
        (MICRO, " ", {"reason"}),
        (MICRO, "a\x07b", {"reason"}),
        (MICRO, "x" * 301, {"reason"}),
    ],
)
def test_a_discount_of_a_line_that_cannot_be_right_is_refused_by_its_field(worked, amount, reason, fields):
    with pytest.raises(FieldRefusal) as refused:
        off(worked, 1, amount, reason)
    assert set(refused.value.fields) == fields


def test_a_line_has_one_discount_and_a_line_that_is_gone_none(worked):
    off(worked, 0, MICRO)
    with pytest.raises(Refusal, match="its discount already"):
        off(worked, 0, MICRO)
    with pytest.raises(Refusal, match="not on the invoice"):
        discount_line(worked.book, worked.who, worked.job, (LineOf.CHARGE, 99), "why", MICRO)
    text = ChargeEntry(kind=LineKind.TEXT, words="Thank you.", vat=FULL)
    add_charge(worked.book, worked.who, worked.job, text)
    with pytest.raises(Refusal, match="charges nothing"):
        off(worked, 2, MICRO)


def test_a_discount_goes_with_its_line(worked):
    key = add_charge(
        worked.book,
        worked.who,
        worked.job,
        ChargeEntry(kind=LineKind.FIXED_CHARGE, words="Packing", price=5 * MICRO, vat=FULL),
    ).value
    assert draft(worked).charge_at(2) == key
    assert draft(worked).charge_at(0) is None
    before = draft(worked).totals.net
    off(worked, 2, MICRO)
    strike_out(worked.book, worked.who, "charge", key, "not needed")
    assert draft(worked).totals.net == before - Money(500, "EUR")


def test_a_charge_on_the_whole_raises_its_rate_and_stands_on_the_paper(worked):
    done = put_on_top(worked.book, worked.who, worked.job, "done on a Sunday", 20 * MICRO, FULL)
    drafted = draft(worked)
    assert drafted.behind.surcharge_ids == (done.value,)
    assert drafted.totals.charge == Money(2000, "EUR")
    assert drafted.totals.net == Money(9980 + 2000, "EUR")
    issued = issue_invoice(worked.book, worked.who, worked.job).value
    assert "done on a Sunday (VAT 19 %) 20.00" in whole(paper_pdf(worked.book, issued.paper_id).pdf)


def test_what_is_put_on_the_whole_is_checked(worked):
    with pytest.raises(FieldRefusal) as refused:
        put_on_top(worked.book, worked.who, worked.job, "", 1_005_000, FULL)
    assert set(refused.value.fields) == {"amount", "reason"}


def test_an_invoice_goes_out_without_vat_for_one_reason(worked):
    give_discount(worked.book, worked.who, worked.job, "regular", 10 * MICRO, FULL)
    key = leave_vat_out(worked.book, worked.who, worked.job, VatCategory.REVERSE_CHARGE, AWAY).value
    assert list(draft(worked).wrong) == ["customer_vat_id"]  # BR-AE-02: who owes the VAT is named by number
    card = customer_card(worked.book, 1)
    edit_customer(worked.book, worked.who, 1, card.version, replace(card.form, vat_id="NL123456789B01"))
    drafted = draft(worked)
    assert drafted.behind.no_vat_id == key
    assert drafted.wrong == {}
    assert [(g.rate, g.category, g.reason) for g in drafted.totals.groups] == [
        (0, VatCategory.REVERSE_CHARGE, AWAY)
    ]
    assert drafted.totals.gross == drafted.totals.net == Money(8980, "EUR")
    issued = issue_invoice(worked.book, worked.who, worked.job).value
    assert f"VAT 0 % on 89.80: {AWAY}" in whole(paper_pdf(worked.book, issued.paper_id).pdf)


def test_vat_comes_back_when_the_entry_is_struck_out(worked):
    key = leave_vat_out(worked.book, worked.who, worked.job, VatCategory.ZERO, "").value
    with pytest.raises(Refusal, match="left out already"):
        leave_vat_out(worked.book, worked.who, worked.job, VatCategory.ZERO, "")
    strike_out(worked.book, worked.who, "charge", key, "they live here")
    assert draft(worked).totals.vat.minor > 0


def test_a_price_typed_with_vat_is_charged_without_it_where_vat_is_left_out(worked):
    change_settings(worked.book, worked.who, {PRICES_WITH_VAT: True})
    entry = ChargeEntry(kind=LineKind.FEE, words="Diagnosis", price=11_900_000, vat=FULL)
    add_charge(worked.book, worked.who, worked.job, entry)
    leave_vat_out(worked.book, worked.who, worked.job, VatCategory.EXEMPT, "export")
    assert draft(worked).totals.line_nets[2] == Money(1000, "EUR")
    assert draft(worked).totals.rounding.minor == 0


@pytest.mark.parametrize(
    ("category", "reason", "fields"),
    [
        (VatCategory.STANDARD, "why", {"category"}),
        (VatCategory.EXEMPT, " ", {"reason"}),
        (VatCategory.OUTSIDE, "a\x07b", {"reason"}),
        (VatCategory.REVERSE_CHARGE, "x" * 201, {"reason"}),
        (VatCategory.ZERO, "", set()),
    ],
)
def test_leaving_vat_out_needs_its_kind_and_reason(worked, category, reason, fields):
    assert set(check_no_vat(category, reason)) == fields
    if fields:
        with pytest.raises(FieldRefusal) as refused:
            leave_vat_out(worked.book, worked.who, worked.job, category, reason)
        assert set(refused.value.fields) == fields


def test_a_small_business_charges_no_vat_and_says_so_on_every_invoice(worked):
    change_settings(worked.book, worked.who, {PRICES_WITH_VAT: True})
    entry = ChargeEntry(kind=LineKind.FEE, words="Diagnosis", price=11_900_000, vat=FULL)
    add_charge(worked.book, worked.who, worked.job, entry)
    give_discount(worked.book, worked.who, worked.job, "regular", 10 * MICRO, FULL)
    change_settings(worked.book, worked.who, {SMALL_BUSINESS: True})
    drafted = draft(worked)
    # What was told with VAT costs what was told; the rest costs its price.
    assert drafted.totals.gross == Money(9600 + 380 + 1190 - 1000, "EUR")
    assert drafted.totals.vat.minor == 0
    assert drafted.wrong == {}
    with pytest.raises(Refusal, match="small business"):
        leave_vat_out(worked.book, worked.who, worked.job, VatCategory.ZERO, "")
    issued = issue_invoice(worked.book, worked.who, worked.job).value
    assert [one.reason for one in e_invoice_of(worked.book, issued.paper_id).groups] == [
        "No VAT is charged: small business exemption."
    ]
    text = whole(paper_pdf(worked.book, issued.paper_id).pdf)
    assert "VAT 0 % on 101.70: No VAT is charged: small business exemption." in text


def test_the_words_of_a_small_business_are_its_own_or_translated():
    from app.trade.office.invoice import Draft, Line, work_out
    from app.trade.sentence import Sentence
    from app.work.language import wording_for
    from app.work.office.invoice_paper import told, vat_groups

    line = Line(
        "belt", LineKind.PART, MICRO, "H87", MICRO, 0, VatCategory.EXEMPT, SMALL_BUSINESS_WORDS.default
    )
    totals = work_out(Draft("EUR", (line,)))
    german = told(totals, wording_for("de", UTC))
    assert german.groups[0].reason.startswith("Es wird keine Umsatzsteuer berechnet")
    assert vat_groups(totals)[0].reason == Sentence(SMALL_BUSINESS_WORDS.default)
    own = work_out(Draft("EUR", (replace(line, vat_reason="as our law says"),)))
    assert told(own, wording_for("de", UTC)) == own
    assert vat_groups(own)[0].reason == "as our law says"


def test_a_small_business_offers_one_rate():
    settings = ShopSettings({SMALL_BUSINESS: True})
    assert rates_offered(settings) == (VatRate(0, VatCategory.EXEMPT, SMALL_BUSINESS_WORDS.default),)
    assert rates_offered(ShopSettings()) == (VatRate(1900), VatRate(700))
    assert SMALL_BUSINESS_WORDS.check(" ") is not None
    assert SMALL_BUSINESS_WORDS.check("a\x07b") is not None
    assert DIAGNOSIS_FEE.check(0) is None


def test_the_job_sheet_tells_what_was_put_on_the_bill(worked):
    off(worked, 0, MICRO)
    put_on_top(worked.book, worked.who, worked.job, "Sunday", 2 * MICRO, FULL)
    leave_vat_out(worked.book, worked.who, worked.job, VatCategory.REVERSE_CHARGE, AWAY)
    told = [(line.kind, line.words, line.net.minor) for line in job_sheet(worked.book, worked.job).work]
    assert told[2:] == [
        ("discount on a line", "scratched", -100),
        ("charge on the whole", "Sunday", 200),
        ("no VAT on the whole", AWAY, 0),
    ]
