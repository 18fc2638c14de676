"""Invoice arithmetic against EN 16931-1."""

from __future__ import annotations

from dataclasses import replace
from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.trade.money import MICRO, Money
from app.trade.office.invoice import (
    UNITS,
    Adjustment,
    Draft,
    Line,
    LineKind,
    Totals,
    line_net,
    net_of,
    share_of,
    unit_words,
    work_out,
)
from app.trade.office.invoice_check import check_draft
from app.trade.office.vat import CODES, VatCategory
from app.trade.sentence import Sentence

CENT = MICRO // 100


def line(quantity: str, price: str, rate: int = 1900, kind: LineKind = LineKind.PART) -> Line:
    return Line("resistor", kind, int(Decimal(quantity) * MICRO), "H87", int(Decimal(price) * MICRO), rate)


def with_vat(price: str, rate: int = 1900, quantity: str = "1") -> Line:
    typed = int(Decimal(price) * MICRO)
    return replace(line(quantity, "0", rate), price=net_of(typed, rate), price_with_vat=typed)


def euro(totals: Totals) -> dict[str, str]:
    names = ("lines_net", "discount", "charge", "net", "vat", "gross", "prepaid", "rounding", "due")
    return {name: str(getattr(totals, name).amount) for name in names}


WORKED_A = Draft(
    "EUR",
    (
        Line("labour", LineKind.LABOUR, 1_500_000, "HUR", 60_000_000, 1900),
        line("2", "0.35"),
        Line("manual", LineKind.FIXED_CHARGE, MICRO, "C62", 12_500_000, 700),
    ),
    discounts=(Adjustment(1000, "returning customer", 1900),),
    prepaid=5000,
)


def test_worked_invoice_a_comes_out_to_the_cent() -> None:
    # Worked invoice A of the trade reference: passes XSD and the EN 16931 schematron 1.09.2.
    totals = work_out(WORKED_A)
    assert check_draft(WORKED_A) == {}
    assert euro(totals) == {
        "lines_net": "103.20",
        "discount": "10.00",
        "charge": "0.00",
        "net": "93.20",
        "vat": "16.21",
        "gross": "109.41",
        "prepaid": "50.00",
        "rounding": "0.00",
        "due": "59.41",
    }
    assert [(g.rate, str(g.base.amount), str(g.tax.amount)) for g in totals.groups] == [
        (1900, "80.70", "15.33"),
        (700, "12.50", "0.88"),
    ]


def test_the_invoice_of_the_pictures_comes_out_to_the_cent() -> None:
    # Sums by script when the papers were drawn: 161.65 at 19 %, 6.50 at 7 %, 40.00 paid before.
    lines = [
        line("2.25", "62"),
        *(line("1", p) for p in ("0.35", "1.80", "18", "12")),
        line("1", "6.50", 700),
    ]
    totals = work_out(
        Draft("EUR", tuple(lines), discounts=(Adjustment(1000, "returning", 1900),), prepaid=4000)
    )
    assert euro(totals)["net"] == "168.15"
    assert [str(g.tax.amount) for g in totals.groups] == ["30.71", "0.46"]
    assert euro(totals)["due"] == "159.32"


def test_vat_is_rounded_per_group_not_per_line() -> None:
    # Rounding trap of the trade reference: per line 3 x 0.07 = 0.21, per group 1.05 -> 0.20.
    totals = work_out(Draft("EUR", tuple(line("1", "0.35") for _ in range(3))))
    assert totals.vat == Money(20, "EUR")


@pytest.mark.parametrize(
    ("price", "rate", "tax"),
    [("2.50", 2100, "0.53"), ("12.50", 700, "0.88"), ("80.70", 1900, "15.33")],
)
def test_half_a_cent_is_rounded_away_from_zero(price: str, rate: int, tax: str) -> None:
    assert str(work_out(Draft("EUR", (line("1", price, rate),))).vat.amount) == tax


def test_currencies_round_to_their_own_decimals() -> None:
    yen = work_out(Draft("JPY", (line("3", "33.5", 1000),)))
    assert (yen.net.minor, yen.vat.minor, yen.due.minor) == (101, 10, 111)
    dinar = work_out(Draft("KWD", (line("1", "1.2345", 500),)))
    assert (dinar.net.minor, dinar.vat.minor) == (1235, 62)


def test_a_price_typed_with_vat_is_asked_for_even_where_net_and_vat_cannot_restore_it() -> None:
    lost = 0
    for cents in range(1, 2000):
        draft = Draft("EUR", (with_vat(f"{cents / 100:.2f}"),))
        totals = work_out(draft)
        assert totals.due.minor == cents
        assert abs(totals.rounding.minor) <= 1
        assert totals.gross.minor + totals.rounding.minor == cents
        lost += totals.rounding.minor != 0
    # Of 1,999 prices under 20.00 at 19 % net plus VAT misses 319 (counted apart when the issue was written).
    assert lost == 319


def test_prices_with_and_without_vat_stand_on_one_invoice() -> None:
    draft = Draft("EUR", (with_vat("0.05"), with_vat("9.99", 700), line("1", "60"), with_vat("0.05")))
    totals = work_out(draft)
    # 2 x 0.05 and 71.40 at 19 %, 9.99 at 7 %.
    assert totals.due == Money(10 + 7140 + 999, "EUR")
    assert totals.gross + totals.rounding == totals.due


def test_a_price_typed_with_vat_that_is_taken_off_as_a_whole_asks_for_nothing() -> None:
    # Three times 0.01 with VAT is 0.03 net; 0.03 off with its VAT would be 0.04, a cent more than was asked.
    cents = (with_vat("0.01"), with_vat("0.01"), with_vat("0.01"))
    draft = Draft("EUR", (*cents, line("1", "1", 700)), (Adjustment(3, "goodwill", 1900),))
    totals = work_out(draft)
    assert (totals.rounding.minor, totals.due.minor) == (0, 107)


def test_a_discount_lowers_its_own_group_and_a_charge_raises_it() -> None:
    draft = Draft(
        "EUR",
        (line("1", "100"), line("1", "50", 700)),
        discounts=(Adjustment(500, "late", 700),),
        charges=(Adjustment(250, "postage", 1900),),
    )
    totals = work_out(draft)
    assert [(g.rate, g.base.minor) for g in totals.groups] == [(1900, 10250), (700, 4500)]
    assert (totals.discount.minor, totals.charge.minor, totals.net.minor) == (500, 250, 14750)


def test_a_line_discount_lowers_its_line() -> None:
    draft = Draft("EUR", (replace(line("2", "10"), discount=500, discount_reason="scratched"),))
    assert work_out(draft).line_nets == (Money(1500, "EUR"),)
    assert share_of(1999, 1000) == 200  # 10 % of 19.99


def test_the_balance_can_be_rounded_to_the_smallest_coin() -> None:
    totals = work_out(Draft("CHF", (line("1", "10.02", 810),), round_due_to=5))
    assert (totals.gross.minor, totals.due.minor, totals.rounding.minor) == (1083, 1085, 2)


def test_too_much_paid_before_is_money_back() -> None:
    assert work_out(replace(WORKED_A, prepaid=20000)).due == Money(10941 - 20000, "EUR")


def test_rates_without_vat_group_by_their_kind() -> None:
    exempt = Line("course", LineKind.FEE, MICRO, "C62", 10 * MICRO, 0, VatCategory.EXEMPT, "small business")
    zero = replace(exempt, category=VatCategory.ZERO, vat_reason="")
    totals = work_out(Draft("EUR", (exempt, zero, exempt)))
    assert [(g.category, g.base.minor, g.tax.minor, g.reason) for g in totals.groups] == [
        (VatCategory.EXEMPT, 2000, 0, "small business"),
        (VatCategory.ZERO, 1000, 0, ""),
    ]
    # UNCL5305 codes of EN 16931 (BT-151), from memory.
    assert [CODES[category] for category in VatCategory] == ["S", "Z", "E", "AE", "O"]


TEXT_LINE = Line("Thank you for your patience.", LineKind.TEXT, 0, "C62", 0, 0)


def test_a_text_line_charges_nothing_and_makes_no_group() -> None:
    totals = work_out(Draft("EUR", (TEXT_LINE, line("1", "1"))))
    assert totals.line_nets == (Money(0, "EUR"), Money(100, "EUR"))
    assert len(totals.groups) == 1


RATES = st.sampled_from([0, 550, 700, 1900, 2100, 2500])


@st.composite
def drafts(draw: st.DrawFn) -> Draft:
    def one() -> Line:
        rate = draw(RATES)
        quantity = draw(st.integers(1, 50 * MICRO))
        price = draw(st.integers(0, 500 * MICRO))
        made = Line(
            "x",
            LineKind.PART,
            quantity,
            "H87",
            price,
            rate,
            VatCategory.STANDARD if rate else VatCategory.ZERO,
        )
        if draw(st.booleans()):
            return replace(made, price=net_of(price, rate), price_with_vat=price)
        return made

    lines = tuple(one() for _ in range(draw(st.integers(1, 12))))
    repeated = lines * draw(st.sampled_from([1, 1, 1, 40, 500]))
    return Draft("EUR", repeated[:500], prepaid=draw(st.integers(0, 10_000)))


@given(drafts())
@settings(deadline=None)
def test_the_parts_make_the_whole_and_no_cent_is_lost(draft: Draft) -> None:
    totals = work_out(draft)
    assert sum(n.minor for n in totals.line_nets) == totals.lines_net.minor  # BR-CO-10
    assert totals.net == totals.lines_net - totals.discount + totals.charge  # BR-CO-13
    assert sum(g.base.minor for g in totals.groups) == totals.net.minor  # BR-S-08 summed
    assert sum(g.tax.minor for g in totals.groups) == totals.vat.minor  # BR-CO-14
    assert totals.gross == totals.net + totals.vat  # BR-CO-15
    assert totals.due == totals.gross - totals.prepaid + totals.rounding  # BR-CO-16
    for group in totals.groups:  # BR-CO-17, in Decimal apart from the code under test
        exact = group.base.amount * Decimal(group.rate) / 10_000
        assert group.tax.amount == exact.quantize(Decimal("0.01"), rounding=ROUND_HALF_UP)
    if all(one.price_with_vat is None for one in draft.lines):
        assert totals.rounding.minor == 0
    if all(one.price_with_vat is not None for one in draft.lines):
        asked = sum(
            (Decimal(one.quantity) * (one.price_with_vat or 0) / MICRO / CENT).quantize(
                Decimal(1), rounding=ROUND_HALF_UP
            )
            for one in draft.lines
        )
        assert totals.due.minor + totals.prepaid.minor == asked


@st.composite
def adjusted_drafts(draw: st.DrawFn) -> Draft:
    """1 to 500 lines, some with a discount of their own, discounts and charges on the whole, any decimals."""
    base = draw(drafts())
    currency = draw(st.sampled_from(["EUR", "JPY", "KWD"]))
    share = draw(st.integers(0, 100))
    lines = tuple(
        replace(one, discount=line_net(one, currency).minor * share // 100, discount_reason="scratched")
        if at % 3 == 0
        else one
        for at, one in enumerate(base.lines)
    )
    groups = work_out(Draft(currency, lines)).groups
    off = tuple(
        Adjustment(part, "goodwill", g.rate, g.category)
        for g in groups
        if (part := g.base.minor * draw(st.integers(0, 100)) // 100)
    )
    on = tuple(Adjustment(draw(st.integers(1, 10**6)), "Sunday", g.rate, g.category) for g in groups[:1])
    return Draft(currency, lines, off, on, base.prepaid, draw(st.sampled_from([1, 5, 100])))


@given(adjusted_drafts())
@settings(deadline=None)
def test_discounts_charges_and_any_currency_keep_the_rules(draft: Draft) -> None:
    assert check_draft(draft) == {}
    totals = work_out(draft)
    assert sum(n.minor for n in totals.line_nets) == totals.lines_net.minor  # BR-CO-10
    assert totals.discount.minor == sum(one.amount for one in draft.discounts)  # BR-CO-11
    assert totals.charge.minor == sum(one.amount for one in draft.charges)  # BR-CO-12
    assert totals.net == totals.lines_net - totals.discount + totals.charge  # BR-CO-13
    assert totals.gross == totals.net + totals.vat  # BR-CO-14, BR-CO-15
    assert totals.due == totals.gross - totals.prepaid + totals.rounding  # BR-CO-16
    assert totals.due.minor % draft.round_due_to == 0
    for group in totals.groups:  # BR-S-08 and BR-CO-17, worked out apart
        key = (group.rate, group.category)
        base = sum(
            net.minor
            for one, net in zip(draft.lines, totals.line_nets, strict=True)
            if (one.vat_rate, one.category) == key
        )
        base -= sum(one.amount for one in draft.discounts if (one.vat_rate, one.category) == key)
        base += sum(one.amount for one in draft.charges if (one.vat_rate, one.category) == key)
        assert group.base.minor == base >= 0
        exact = Decimal(base) * group.rate / 10_000
        assert group.tax.minor == exact.quantize(Decimal(1), rounding=ROUND_HALF_UP)


@given(st.integers(0, 10**9 * MICRO), RATES)
def test_a_price_with_vat_is_converted_within_half_a_millionth(price: int, rate: int) -> None:
    net = net_of(price, rate)
    assert abs(Decimal(net) * (10_000 + rate) / 10_000 - price) <= Decimal("0.5") * (10_000 + rate) / 10_000


def test_very_large_amounts_are_exact() -> None:
    big = line("999999", "999999999.999999")
    assert line_net(big, "EUR") == Money(99_999_899_999_999_900, "EUR")  # 999998999999999.000001


def test_units_are_codes_of_un_ece_recommendation_20() -> None:
    # Codes present in the EN 16931 code list; meanings hour, one, piece from memory.
    assert set(UNITS) == {"HUR", "C62", "H87"}


# Rec 20: C62 is "one" and H87 "piece", from memory; a fee is no piece and no job.
@pytest.mark.parametrize(
    ("code", "quantity", "words"),
    [
        ("H87", "1", "piece"),
        ("H87", "-1", "piece"),
        ("H87", "2", "pieces"),
        ("H87", "0.5", "pieces"),
        ("H87", "0", "pieces"),
        ("HUR", "1.5", "h"),
        ("C62", "1", "each"),
        ("C62", "3", "each"),
        ("MTR", "2", "MTR"),
    ],
)
def test_the_unit_is_told_as_the_quantity_asks(code: str, quantity: str, words: str) -> None:
    assert unit_words(code, Decimal(quantity)) == Sentence(words)
