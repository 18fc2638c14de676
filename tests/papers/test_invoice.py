"""The invoice: sums at one edge, long ones over pages, and what stays with the player."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
import zxingcpp

from app.papers.facts import Clause, Customer, PaperSize
from app.papers.invoice_facts import Discount, InvoiceLine, PaymentLine, VatGroup
from app.papers.modification_facts import Measured, ModificationFacts
from app.papers.press import printed
from app.trade.money import Money
from app.trade.sentence import Measure
from tests.papers import story
from tests.papers.conftest import pdf_of
from tests.papers.reading import letters, picture, right_edges, texts, whole, without_spaces
from tests.papers.story import INVOICE, MODIFICATION, SHEET, TECHNICIAN_NOTES, USER_NOTES, euro

Press = Callable[..., bytes]


@pytest.mark.parametrize(("letter", "edge"), [(False, 190.0), (True, 195.9)])
def test_every_amount_of_the_page_ends_at_one_edge(letter: bool, edge: float) -> None:
    pdf = pdf_of("invoice", letter)
    for amount in ("139.50", "178.15", "−10.00", "168.15", "30.71", "199.32", "−40.00", "159.32"):
        assert right_edges(pdf, amount)[-1] == pytest.approx(edge, abs=0.75)  # side bearings of the figures


def test_the_sums_begin_84_mm_from_the_margin() -> None:
    for letter in (False, True):
        found = letters(pdf_of("invoice", letter))
        text = "".join(one.text for one in found)
        for words in ("Sumoflines", "Net168", "Balance"):
            assert found[text.index(words)].left == pytest.approx(25 + 84, abs=0.6)


def test_quantities_align_on_the_decimal_mark(press: Press) -> None:
    lines = tuple(
        InvoiceLine("work", Decimal(quantity), "h", Decimal("1.00"), Decimal(19), euro("1"))
        for quantity in ("2.25", "1", "12.5", "100")
    )
    pdf = press(replace(INVOICE, lines=lines))
    ones = [right_edges(pdf, words)[0] for words in ("2.25", "12.5")]
    mark = [right_edges(pdf, words)[0] for words in ("2.", "12.")]
    assert mark[0] == pytest.approx(mark[1], abs=0.3)
    assert ones[0] > ones[1]


def test_the_sums_stand_in_their_order() -> None:
    text = texts(pdf_of("invoice"))[0]
    order = [
        "Sum of lines, net", "Discount for a returning customer (VAT 19 %)", "Net 168.15", "VAT 19 % on 161.65",
        "VAT 7 % on 6.50", "Total with VAT", "Deposit paid 19 Nov 2026, cash", "Balance to pay, EUR",
    ]  # fmt: skip
    places = [text.index(words) for words in order]
    assert places == sorted(places)


def test_head_window_and_information_stand_where_an_envelope_shows_them() -> None:
    """DIN 5008 form B: address field from 20 to 105 mm across and 45 to 90 mm down."""
    name = [one for one in letters(pdf_of("invoice")) if 63 < one.top < 68 and one.left < 105]
    assert "".join(one.text for one in name) == "BenediktArnsvik"
    assert name[0].left == pytest.approx(25, abs=1)
    assert all(one.right < 105 for one in name)
    text = texts(pdf_of("invoice"))[0]
    for words in (
        "Invoice 2026-0412",
        "26 November 2026",
        "24 to 26 November 2026",
        "C 0418",
        "30 November 2026",
    ):
        assert words in text


def many_lines(count: int) -> tuple[InvoiceLine, ...]:
    return tuple(
        InvoiceLine(
            f"Line number {number} of many", Decimal(1), "piece", Decimal("1.01"), Decimal(19), euro("1.01")
        )
        for number in range(1, count + 1)
    )


@pytest.mark.parametrize("size", list(PaperSize))
def test_four_hundred_lines_are_carried_from_page_to_page(press: Press, size: PaperSize) -> None:
    facts = replace(INVOICE, lines=many_lines(400), lines_net=euro("404"), sheet=replace(SHEET, size=size))
    pages = texts(press(facts))
    money = [page for page in pages if "Line number" in page]
    printed_lines = 0
    for page in money[:-1]:
        printed_lines += page.count("Line number")
        carried = Money(101 * printed_lines, "EUR").amount
        assert f"carried forward {carried}" in page
        assert "What was done or fitted" in page
    assert "carried forward" not in money[-1]
    assert printed_lines + money[-1].count("Line number") == 400
    assert "Balance to pay, EUR" in money[-1]
    assert all(f"Line number {number} of" in " ".join(pages) for number in range(1, 401))


@pytest.mark.parametrize("count", range(1, 32))
def test_the_sums_never_stand_on_a_page_without_a_line(press: Press, count: int) -> None:
    pages = texts(press(replace(INVOICE, lines=many_lines(count))))
    (place,) = [page for page in pages if "Balance to pay" in page]
    assert "Line number" in place


def test_a_line_longer_than_a_page_is_split_and_whole(press: Press) -> None:
    words = " ".join(f"word{number}" for number in range(3000))
    line = InvoiceLine(words, Decimal(1), "job", Decimal("1.00"), Decimal(19), euro("1"))
    text = whole(press(replace(INVOICE, lines=(*many_lines(3), line, *many_lines(2)))))
    assert [word for word in text.split() if word.startswith("word")] == words.split()


def test_a_modified_player_gets_a_page_to_keep() -> None:
    page = texts(pdf_of("invoice"))[1]
    for words in (
        "Keep this page with the player", "Quellmar Larch 2, serial 0420 158", "6.8 Ω before, 5.6 Ω now",
        "Cause not established.", "You agreed to this on 24 Nov 2026 by telephone (Mirr Quistan)", "To undo it.",
        "× 1.214", "× 1.474", "+1.69 dB", "48 ±1.5 °C", "≤ 70 °C", "Caution. Current in the radial coil",
    ):  # fmt: skip
        assert words in page


@pytest.mark.parametrize("modified", [True, False])
def test_every_caution_given_prints_once_and_no_other(press: Press, modified: bool) -> None:
    facts = replace(INVOICE, modifications=INVOICE.modifications if modified else ())
    text = whole(press(facts))
    for note in (*USER_NOTES, *TECHNICIAN_NOTES):
        assert text.count(f"{story.ENGLISH(note.title)} {story.ENGLISH(note.text)}") == 1
    fewer = whole(
        press(replace(facts, cautions_user=USER_NOTES[:1], cautions_technician=TECHNICIAN_NOTES[:1]))
    )
    for note in (*USER_NOTES[1:], *TECHNICIAN_NOTES[1:]):
        assert story.ENGLISH(note.text) not in fewer
    none = whole(press(replace(facts, cautions_user=(), cautions_technician=())))
    assert "For you, who use it" not in none
    assert "For the next technician" not in none


def test_a_pair_for_one_reader_takes_the_whole_width(press: Press) -> None:
    for user, technician in ((USER_NOTES, ()), ((), TECHNICIAN_NOTES)):
        text = whole(press(replace(INVOICE, cautions_user=user, cautions_technician=technician)))
        assert ("For you, who use it" in text) is bool(user)
        assert ("For the next technician" in text) is bool(technician)


def test_notes_higher_than_a_page_are_split_and_none_is_lost(press: Press) -> None:
    many = tuple(
        replace(note, text=f"note {number} " + "and so on " * 60)
        for number, note in enumerate(USER_NOTES * 8)
    )
    text = whole(press(replace(INVOICE, cautions_user=many)))
    assert without_spaces(text).count("andsoon") >= 32 * 60 - 31  # a few stand on both sides of a page's foot
    assert all(f"note {number} and" in text for number in range(32))
    assert text.count(story.ENGLISH(TECHNICIAN_NOTES[-1].text)) == 1


def test_several_modifications_are_numbered_and_none_is_left_out(press: Press) -> None:
    other = ModificationFacts(
        (Clause("What.", "R401 was bridged by " + "a very long remark, " * 150 + "end of remark."),),
        measured=(Measured("Driver temperature", Measure(Decimal(51), "°C")),),
    )
    pages = texts(press(replace(INVOICE, modifications=(MODIFICATION, other, MODIFICATION))))
    text = " ".join(pages)
    for number in (1, 2, 3):
        assert f"Modification {number} of 3" in text
    assert "end of remark." in text
    assert "51 °C" in text


def test_the_transfer_code_reads_back() -> None:
    """Oracle: zxing-cpp. The sum is the balance, the account the specimen's."""
    codes = [code.text for code in zxingcpp.read_barcodes(picture(pdf_of("invoice"), 300))]
    assert any(text.startswith("BCD\n002") and "EUR159.32" in text for text in codes)


@pytest.mark.parametrize("case", ["paid", "other currency", "draft", "no panel"])
def test_no_transfer_code_where_nobody_should_transfer(press: Press, case: str) -> None:
    facts = INVOICE
    if case == "paid":
        paid = PaymentLine("Paid", euro("159.32"))
        facts = replace(INVOICE, balance=euro("0"), payments=(*INVOICE.payments, paid))
    elif case == "other currency":
        facts = replace(INVOICE, balance=Money(15932, "CHF"))
    elif case == "draft":
        facts = replace(INVOICE, number="", sheet=replace(SHEET, draft=True))
    else:
        facts = replace(INVOICE, panel=None)
    assert zxingcpp.read_barcodes(picture(press(facts), 200)) == []


def test_specimen_stands_wherever_money_could_follow(press: Press) -> None:
    text = texts(pdf_of("invoice"))[0]
    assert text.lower().count("specimen") >= 4
    real = press(replace(INVOICE, sheet=replace(SHEET, specimen=False)))
    assert "no such account" not in whole(real)
    assert "Code of this transfer" in whole(real)


def test_a_balance_below_zero_says_who_owes(press: Press) -> None:
    text = whole(press(replace(INVOICE, balance=euro("-12.50"))))
    assert "We owe you, EUR 12.50" in text
    assert "Balance to pay" not in text


def test_charges_text_lines_line_discounts_rounding_and_reasons_show(press: Press) -> None:
    facts = replace(
        INVOICE,
        lines=(
            InvoiceLine("Only words, no charge"),
            InvoiceLine(
                "Part", Decimal(1), "piece", Decimal("9.00"), Decimal(0), euro("8"), euro("1"), "old stock"
            ),
            InvoiceLine("Part", Decimal(1), "piece", Decimal("9.00"), Decimal("7.70"), euro("8"), euro("1")),
        ),
        discounts=(Discount("Express", Decimal(19), euro("5"), charge=True),),
        vat=(VatGroup(Decimal(0), euro("8"), euro("0"), "exempt, small business"),),
        rounding=Money(-2, "EUR"),
        payments=(PaymentLine("Paid back", euro("-3")),),
    )
    text = whole(press(facts))
    for words in (
        "Only words, no charge", "less 1.00: old stock", "7.7 %", "Express (VAT 19 %) 5.00",
        "VAT 0 % on 8.00: exempt, small business", "Rounding −0.02", "Paid back 3.00",
    ):  # fmt: skip
        assert words in text


def test_large_sums_in_any_currency_keep_their_column(press: Press) -> None:
    yen = Money(123_456_789, "JPY")
    line = InvoiceLine("Work", Decimal("1000.125"), "hours of work", Decimal("123456.75"), Decimal(10), yen)
    facts = replace(
        INVOICE, lines=(line,), lines_net=yen, net=yen, vat=(VatGroup(Decimal(10), yen, yen),), total=yen, balance=yen,
        discounts=(), payments=(), panel=None,
    )  # fmt: skip
    text = whole(press(facts))
    assert "Net JPY" in text
    assert "123 456 789" in text
    assert "1 000.125 hours of work" in text


def test_the_days_of_work_are_said_as_shortly_as_they_allow(press: Press) -> None:
    def said(begin: date | None, end: date) -> str:
        return whole(press(replace(INVOICE, work_from=begin, work_to=end)))

    assert "Work done 26 November 2026" in said(date(2026, 11, 26), date(2026, 11, 26))
    assert "Work done 26 November 2026" in said(None, date(2026, 11, 26))
    assert "30 October to 2 November 2026" in said(date(2026, 10, 30), date(2026, 11, 2))
    assert "30 December 2025 to 2 January 2026" in said(date(2025, 12, 30), date(2026, 1, 2))
    german = whole(printed(replace(INVOICE, work_from=date(2026, 11, 24)), story.LONG_WORDS))
    assert "to 26" in german


def test_a_long_address_stays_in_its_window(press: Press) -> None:
    for size, lowest in ((PaperSize.A4, 93.5), (PaperSize.LETTER, 83)):
        long = Customer(
            "Doctor " + "Benedikt Arnsvik " * 6, "C 1", tuple(f"Line {n} of the address" for n in range(7))
        )
        pdf = press(replace(INVOICE, customer=long, sheet=replace(SHEET, size=size)))
        field = [one for one in letters(pdf) if one.left < 104 and 55 < one.top < 95]
        assert max(one.bottom for one in field) < lowest
        assert without_spaces("Line 6 of the address") in without_spaces(whole(pdf))


def test_shop_with_everything_in_its_letterhead(press: Press) -> None:
    shop = replace(
        story.SHOP, name="Lanternfield Workshop for Players of Optical Discs and Other Machines", tax_number="12/345/67890", register_number="HRB 1234 B",
        bank_lines=("Specimen Bank", "XX00 SPEC IMEN 0000", "SPECXX00"),
    )  # fmt: skip
    pdf = press(replace(INVOICE, sheet=replace(SHEET, shop=shop)))
    text = whole(pdf)
    for words in (
        "tax number 12/345/67890",
        "register number HRB 1234 B",
        "VAT number (specimen)",
        "SPECXX00",
        "Other Machines",
    ):
        assert words in text
    assert all(one.bottom < 292.5 for one in letters(pdf))


def test_a_customer_with_a_vat_number_finds_it_on_the_invoice(press: Press) -> None:
    """Directive 2006/112/EC, article 226 (4): it stands on an invoice whose VAT the customer owes."""
    named = replace(INVOICE, customer=replace(INVOICE.customer, vat_id="NL123456789B01"))
    assert "Your VAT number NL123456789B01" in " ".join(whole(press(named)).split())


def test_without_heading_facts_only_what_is_there_prints(press: Press) -> None:
    bare = replace(
        INVOICE, work_to=None, pay_by=None, guarantee="", intro="", discounts=(), modifications=(),
        customer=Customer("A"), panel=replace(INVOICE.panel, pay_by=None, reference=""),
    )  # fmt: skip
    text = whole(press(bare))
    for words in ("Work done", "Pay by", "Guarantee", "Sum of lines", "Customer", "Your VAT", "reference"):
        assert words not in text
