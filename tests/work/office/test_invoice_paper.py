"""What the invoice on paper is told: sums, the agreed price, the guarantee in the shop's words."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import zxingcpp
from stdnum import iso11649 as oracle

from app.book.bench.job_facts import facts_of
from app.book.bench.job_rows import JobRows
from app.book.office.job_lines import draft_of
from app.book.tables import Agreement, Job
from app.papers.press import printed
from app.trade.bench.kinds import Means
from app.trade.money import MICRO, Money
from app.trade.office.creditor_reference import numbers_referred
from app.trade.office.invoice import LineKind, work_out
from app.trade.office.vat import VatRate
from app.trade.sentence import Sentence
from app.trade.settings import (
    ACCOUNT_HOLDER,
    BANK_LINES,
    BIC,
    CURRENCY,
    GUARANTEE_DAYS,
    GUARANTEE_WORDS,
    IBAN,
    ROUND_DUE_TO,
    SHOP_NAME,
)
from app.work.office.charges import ChargeEntry, add_charge, give_discount
from app.work.office.invoice_paper import invoice_facts, payment_panel
from app.work.office.payments import take_payment
from app.work.office.settings import change_settings
from app.work.papers.sheet_facts import wording_of
from tests.papers.reading import picture


def facts(bench, **more):
    with bench.book.ask() as session:
        job = session.get_one(Job, bench.job)
        rows = JobRows(session, job)
        draft = draft_of(rows, fees_only=rows.unsafe_return is not None)
        today = bench.book.today()
        told = facts_of(session, job, today, rows)
        return invoice_facts(bench.book.files, rows, told, draft, work_out(draft), "0001", today, **more)


def test_lines_sums_and_the_day_to_pay_by(worked):
    add_charge(
        worked.book,
        worked.who,
        worked.job,
        ChargeEntry(kind=LineKind.TEXT, words="Laser and arm as before.", vat=VatRate(1900)),
    )
    told = facts(worked)
    labour, belt, text = told.lines
    assert (labour.quantity, labour.each, labour.vat) == (Decimal("1.5"), Decimal("64.00"), Decimal(19))
    assert (belt.unit, belt.net, belt.discount) == (Sentence("piece"), Money(380, "EUR"), None)
    assert (text.what, text.net) == ("Laser and arm as before.", None)
    assert [(g.rate, g.base, g.vat) for g in told.vat] == [
        (Decimal(19), Money(9980, "EUR"), Money(1896, "EUR"))
    ]
    assert (told.total, told.balance, told.pay_by) == (
        Money(11876, "EUR"),
        Money(11876, "EUR"),
        date(2026, 3, 26),
    )
    assert (told.number, told.panel is not None, told.rounding) == ("0001", True, None)


def test_a_rate_with_a_part_of_a_percent_is_written_as_it_is(worked):
    add_charge(
        worked.book,
        worked.who,
        worked.job,
        ChargeEntry(kind=LineKind.FEE, words="Copy", price=MICRO, vat=VatRate(550)),
    )
    assert facts(worked).lines[-1].vat == Decimal("5.5")


def test_a_draft_has_no_number_yet(worked):
    told = facts(worked, preview=True)
    assert (told.number, told.sheet.draft) == ("", True)


def test_what_was_paid_and_taken_off_stands_on_it(worked):
    take_payment(worked.book, worked.who, worked.job, Money(20000, "EUR"), Means.CASH)
    give_discount(worked.book, worked.who, worked.job, "regular customer", 10 * MICRO, VatRate(1900))
    change_settings(worked.book, worked.who, {ROUND_DUE_TO: 5})
    told = facts(worked)
    assert told.discounts[0].reason == "regular customer"
    assert told.payments[0].words.values["means"] == Sentence("in cash")
    assert told.balance == Money(-9315, "EUR")
    assert (told.pay_by, told.panel, told.rounding) == (None, None, Money(-1, "EUR"))


def test_the_last_price_that_was_agreed_opens_the_letter(worked):
    assert facts(worked).intro == ""
    with worked.book.change(worked.who, Sentence("noted")) as change:
        for what, amount, yes in (
            ("up to a hundred", 10000, True),
            ("belt and cleaning.", 12000, True),
            ("a new pick-up", 30000, False),
        ):
            change.add(
                Agreement(
                    job_id=worked.job,
                    **_agreement(what, amount, yes),
                    said_at=change.now,
                    at=change.now,
                    by=change.by,
                )
            )
    intro = facts(worked).intro
    assert intro.values == {"day": date(2026, 3, 12), "what": "belt and cleaning"}


def _agreement(what, amount, yes):
    from app.trade.bench.stages import Way

    return {"what": what, "amount": amount, "yes": yes, "way": Way.TELEPHONE, "kind": "price", "said_by": ""}


def test_the_guarantee_is_translated_while_unedited_and_printed_as_the_shop_wrote_it(worked):
    told = facts(worked)
    assert told.guarantee.key == GUARANTEE_WORDS.default
    assert told.guarantee.values["until"] == date(2026, 9, 8)
    own = "{guarantee_days} days on everything, until {until}. {unknown} stays."
    change_settings(worked.book, worked.who, {GUARANTEE_WORDS: own})
    assert facts(worked).guarantee == "180 days on everything, until 8\u00a0Sept\u00a02026. {unknown} stays."
    change_settings(worked.book, worked.who, {GUARANTEE_DAYS: 0})
    assert facts(worked).guarantee == ""


def test_a_player_returned_unsafe_gets_fees_and_no_guarantee(worked):
    from tests.work.office.test_invoices import decide

    decide(worked)
    told = facts(worked)
    assert (told.heading, told.guarantee) == (Sentence("Fees for your disc player"), "")


ACCOUNT = {IBAN: "de89 3704 0044 0532 0130 00", BIC: "XMPLDEFF", SHOP_NAME: "Lanternfield Workshop"}


def test_the_shops_account_stands_where_an_open_balance_is_paid(worked):
    change_settings(worked.book, worked.who, ACCOUNT)
    panel = facts(worked).panel
    assert (panel.holder, panel.iban, panel.bic) == (
        "Lanternfield Workshop",
        "DE89 3704 0044 0532 0130 00",
        "XMPLDEFF",
    )
    assert numbers_referred(panel.reference) == (("", 1),)
    assert facts(worked).sheet.shop.bank_lines == ("IBAN DE89 3704 0044 0532 0130 00", "BIC XMPLDEFF")
    assert facts(worked).sheet.shop.name == "Lanternfield Workshop"
    change_settings(worked.book, worked.who, {ACCOUNT_HOLDER: "Lanternfield Ltd", BIC: ""})
    assert facts(worked).panel.holder == "Lanternfield Ltd"
    assert facts(worked).sheet.shop.bank_lines == ("Lanternfield Ltd", "IBAN DE89 3704 0044 0532 0130 00")
    change_settings(worked.book, worked.who, {BANK_LINES: ("Bank of ours",)})
    assert facts(worked).sheet.shop.bank_lines == ("Bank of ours",)


def test_a_draft_names_the_account_but_no_reference_as_it_has_no_number(worked):
    change_settings(worked.book, worked.who, ACCOUNT)
    with worked.book.ask() as session:
        rows = JobRows(session, session.get_one(Job, worked.job))
        assert payment_panel(rows.settings, "", date(2026, 3, 26)).reference == ""


def test_the_code_on_the_printed_invoice_fills_a_transfer_in(worked):
    """Oracle: zxing-cpp reads the page; EPC069-12 says in which line stands what, ISO 11649 how the reference is made."""
    change_settings(worked.book, worked.who, ACCOUNT)
    told = facts(worked)
    pdf = printed(told, wording_of(told.sheet))
    codes = zxingcpp.read_barcodes(picture(pdf, 200, grey=True))
    (transfer,) = [code.text.split("\n") for code in codes if code.text.startswith("BCD")]
    assert transfer[5:8] == ["Lanternfield Workshop", "DE89370400440532013000", "EUR118.76"]
    assert oracle.is_valid(transfer[9])
    assert transfer[9] == told.panel.reference.replace(" ", "")
    change_settings(worked.book, worked.who, {CURRENCY: "GBP"})
    told = facts(worked)
    codes = zxingcpp.read_barcodes(picture(printed(told, wording_of(told.sheet)), 200, grey=True))
    assert not any(code.text.startswith("BCD") for code in codes)  # the guideline is for euro alone
