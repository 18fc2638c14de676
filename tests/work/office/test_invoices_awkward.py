"""Invoices that somebody will type one day: 500 lines, names of 300 letters, other scripts, markup, huge amounts."""

from __future__ import annotations

import unicodedata
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace

import pytest

from app.trade.bench.stages import Stage
from app.trade.money import MICRO, Money
from app.trade.office.invoice import LineKind
from app.trade.office.vat import VatRate
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.trade.settings import CURRENCY
from app.work.counter.stages import set_stage
from app.work.counter.taking_in import receive_unit
from app.work.office.charges import ChargeEntry, add_charge
from app.work.office.credit_notes import issue_credit_note
from app.work.office.invoices import draft_invoice, issue_invoice
from app.work.office.settings import change_settings
from app.work.papers.issuing import paper_pdf
from tests.papers.reading import texts, whole, without_spaces
from tests.work.asked import credit_view
from tests.work.office.conftest import LARCH

FULL = VatRate(1900)
MARKUP = '<b>& <img src="file:///etc/passwd"/>'
HEBREW = "נגן תקליטורים"
COMBINED = "Zoe\u0308 and cafe\u0301"


def charge(bench, words, price=MICRO, **more):
    entry = ChargeEntry(kind=LineKind.FIXED_CHARGE, words=words, price=price, vat=FULL, **more)
    return add_charge(bench.book, bench.who, bench.job, entry)


def printed(bench):
    issued = issue_invoice(bench.book, bench.who, bench.job).value
    return issued, paper_pdf(bench.book, issued.paper_id).pdf


def test_words_in_any_script_and_markup_print_as_they_were_typed(bench):
    long = ("x" * 30 + " ") * 9 + "y" * 21
    for words in (MARKUP, HEBREW, COMBINED, long):
        charge(bench, words)
    _, pdf = printed(bench)
    text = without_spaces(whole(pdf))
    assert len(long) == 300
    for words in (MARKUP, HEBREW, long):
        assert without_spaces(words) in text
    assert without_spaces(COMBINED) in text or unicodedata.normalize("NFC", without_spaces(COMBINED)) in text


def test_a_customer_with_a_name_of_300_letters_gets_an_invoice(shop):
    from tests.work.office.conftest import Bench

    name = f"{MARKUP} {HEBREW} " + "Wolfe" * 47
    job = receive_unit(shop.book, shop.mirr, replace(LARCH, name=name[:300])).value.job_id
    set_stage(shop.book, shop.tobbe, job, Stage.ON_THE_BENCH)
    bench = Bench(shop, shop.book, shop.ine, job, 0)
    charge(bench, "Looked at")
    _, pdf = printed(bench)
    assert "Looked at" in whole(pdf)
    assert MARKUP.split()[0] in whole(pdf)


def test_500_lines_are_issued_and_credited_and_one_more_is_refused(bench):
    from app.book.tables import Charge
    from app.trade.office.credit_note import everything

    with bench.book.change(bench.who, Sentence("typed many lines")) as change:
        for at in range(500):
            row = {"job_id": bench.job, "kind": "fixed charge", "words": f"part {at}", "quantity": MICRO}
            more = {"price": 350_000, "vat_rate": 1900, "at": change.now, "by": change.by}
            change.session.add(Charge(**row, **more))
    charge(bench, "one too many")
    drafted = draft_invoice(bench.book, bench.job)
    assert set(drafted.wrong) == {"lines"}
    with pytest.raises(FieldRefusal):
        issue_invoice(bench.book, bench.who, bench.job)
    with bench.book.change(bench.who, Sentence("struck one out")) as change:
        row = change.get(Charge, drafted.charge_at(500))
        row.struck_at, row.struck_by, row.struck_reason = change.now, change.by, "too many"
    issued, pdf = printed(bench)
    pages = texts(pdf)
    # 500 x 0.35 = 175.00 and 33.25 VAT.
    assert "208.25" in pages[-2] + pages[-1]
    assert "carried forward" in pages[0]
    left = credit_view(bench.book, issued.id).left
    note = issue_credit_note(bench.book, bench.who, issued.id, everything(left), "wrong customer").value
    assert "208.25" in whole(paper_pdf(bench.book, note.paper_id).pdf)
    assert credit_view(bench.book, issued.id).left.amount == Money(0, "EUR")


@pytest.mark.parametrize(
    ("words", "price", "quantity", "field"),
    [
        ("Packing", 10**12 * MICRO, MICRO, "price"),
        ("Packing", -MICRO, MICRO, "price"),
        ("Packing", MICRO, -MICRO, "quantity"),
        ("Packing", MICRO, 10**12 * MICRO, "quantity"),
        ("x" * 301, MICRO, MICRO, "words"),
        ("a\x07b", MICRO, MICRO, "words"),
        ("a\u202eb", MICRO, MICRO, "words"),
    ],
)
def test_what_cannot_stand_on_an_invoice_is_refused_at_its_field(bench, words, price, quantity, field):
    with pytest.raises(FieldRefusal) as refused:
        charge(bench, words, price, quantity=quantity)
    assert set(refused.value.fields) == {field}


def test_the_dearest_line_prints_in_full(bench):
    charge(bench, "A gold player", 10**9 * MICRO, quantity=900 * MICRO)
    assert draft_invoice(bench.book, bench.job).totals.gross == Money(107_100_000_000_000, "EUR")
    _, pdf = printed(bench)
    assert "900000000000.00" in without_spaces(whole(pdf)).replace(",", "")


def test_a_line_that_costs_nothing_prints_with_its_nought(bench):
    charge(bench, "Cleaned under guarantee", 0)
    charge(bench, "Postage", 5 * MICRO)
    _, pdf = printed(bench)
    assert "Cleaned under guarantee 1 each 0.00 19 % 0.00" in whole(pdf)


@pytest.mark.parametrize(
    ("currency", "price", "line", "total"),
    [
        # 3 x 33.5 JPY is 100.5, rounded to 101; 19 % of 101 is 19.19.
        ("JPY", 33_500_000, "Belt 3 each 33.5 19 % 101", "Balance to pay, JPY 120"),
        # 3 x 1.2345 KWD is 3.7035, rounded to 3.704; 19 % is 0.70376.
        ("KWD", 1_234_500, "Belt 3 each 1.2345 19 % 3.704", "Balance to pay, KWD 4.408"),
        ("EUR", 1_234_500, "Belt 3 each 1.2345 19 % 3.70", "Balance to pay, EUR 4.40"),
    ],
)
def test_a_currency_prints_and_credits_with_its_own_decimals(bench, currency, price, line, total):
    change_settings(bench.book, bench.who, {CURRENCY: currency})
    charge(bench, "Belt", price, quantity=3 * MICRO)
    issued, pdf = printed(bench)
    assert line in whole(pdf)
    assert total in whole(pdf)
    note = issue_credit_note(bench.book, bench.who, issued.id, {0: MICRO}, "one was enough").value
    assert f"Credited to you, {currency}" in whole(paper_pdf(bench.book, note.paper_id).pdf)
    rest = credit_view(bench.book, issued.id).left
    issue_credit_note(bench.book, bench.who, issued.id, {0: rest.quantities[0]}, "all of it")
    assert credit_view(bench.book, issued.id).open == Money(0, currency)


def test_numbers_have_no_gap_when_two_people_issue_at_once(bench):
    jobs = [bench.job]
    for serial in ("0420 159", "0420 160", "0420 161", "0420 162", "0420 163"):
        taken = receive_unit(bench.book, bench.who, replace(LARCH, serial=serial)).value.job_id
        set_stage(bench.book, bench.who, taken, Stage.ON_THE_BENCH)
        jobs.append(taken)
    for job in jobs:
        entry = ChargeEntry(kind=LineKind.FEE, words="Diagnosis", price=40 * MICRO, vat=FULL)
        add_charge(bench.book, bench.who, job, entry)
    with ThreadPoolExecutor(2) as two:
        issued = list(two.map(lambda job: issue_invoice(bench.book, bench.who, job).value.number, jobs))
    assert sorted(issued) == [f"{number:04d}" for number in range(1, 7)]
