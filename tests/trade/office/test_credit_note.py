"""Facts about credit notes: whole or by line, and all notes of an invoice come to that invoice, never above."""

from __future__ import annotations

from dataclasses import replace
from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.trade.money import MICRO, Money
from app.trade.office.credit_note import (
    CreditDraft,
    Left,
    Taken,
    check_credit,
    credit,
    everything,
    left_to_credit,
)
from app.trade.office.invoice import Adjustment, Draft, Line, LineKind, net_of, work_out
from app.trade.office.vat import VatCategory


def line(quantity: str, price: str, rate: int = 1900) -> Line:
    category = VatCategory.STANDARD if rate else VatCategory.ZERO
    return Line(
        "belt",
        LineKind.PART,
        int(Decimal(quantity) * MICRO),
        "H87",
        int(Decimal(price) * MICRO),
        rate,
        category,
    )


def with_vat(price: str, rate: int = 1900) -> Line:
    gross = int(Decimal(price) * MICRO)
    return replace(line("1", "0", rate), price=net_of(gross, rate), price_with_vat=gross)


TEXT = Line("Thank you.", LineKind.TEXT, 0, "C62", 0, 0)
# Worked invoice A of the trade reference (passes XSD and the EN 16931 schematron 1.09.2): gross 109.41.
WORKED_A = Draft(
    "EUR",
    (
        Line("labour", LineKind.LABOUR, 1_500_000, "HUR", 60 * MICRO, 1900),
        line("2", "0.35"),
        TEXT,
        line("1", "12.50", 700),
    ),
    discounts=(Adjustment(1000, "returning customer", 1900),),
    prepaid=5000,
)


def payable(invoice: Draft) -> Money:
    totals = work_out(replace(invoice, prepaid=0))
    return totals.gross + totals.rounding


def taken(invoice: Draft, note: CreditDraft) -> Taken:
    places = list(zip(note.of, note.draft.lines, strict=True))
    return Taken(
        {at: one.quantity for at, one in places},
        {at: one.discount for at, one in places},
        note.adjustments,
        note.totals.due.minor,
    )


def untouched(invoice: Draft) -> Left:
    return left_to_credit(invoice, payable(invoice))


def test_a_note_of_the_whole_comes_to_the_invoice_before_anything_was_paid() -> None:
    left = untouched(WORKED_A)
    note = credit(WORKED_A, left, everything(left))
    assert note.of == (0, 1, 3)  # a text line charges nothing, so there is nothing of it to credit
    assert note.totals.due == note.totals.gross == Money(10941, "EUR")
    assert [(g.rate, g.base.minor, g.tax.minor) for g in note.totals.groups] == [
        (1900, 8070, 1533),
        (700, 1250, 88),
    ]
    assert note.draft.discounts == WORKED_A.discounts


def test_a_line_goes_back_with_its_part_of_the_discount() -> None:
    note = credit(WORKED_A, untouched(WORKED_A), {1: 2 * MICRO})
    # 0.70 of 90.70 at 19 % carries 10.00 x 0.70 / 90.70 = 0.077 -> 0.08 of the discount.
    assert [one.amount for one in note.draft.discounts] == [8]
    assert (note.totals.net.minor, note.totals.vat.minor, note.totals.due.minor) == (62, 12, 74)


def test_part_of_a_line_can_go_back_and_the_rest_later() -> None:
    left = untouched(WORKED_A)
    quarter = credit(WORKED_A, left, {0: 250_000})
    assert quarter.draft.lines[0].quantity == 250_000
    left = left_to_credit(WORKED_A, payable(WORKED_A), [taken(WORKED_A, quarter)])
    assert left.quantities == (1_250_000, 2 * MICRO, 0, MICRO)
    rest = credit(WORKED_A, left, everything(left))
    assert quarter.totals.due + rest.totals.due == Money(10941, "EUR")
    assert quarter.draft.discounts[0].amount + rest.draft.discounts[0].amount == 1000


def test_vat_rounded_in_each_note_is_evened_out_in_the_last() -> None:
    # The rounding trap of the trade reference: 3 x 0.35 at 19 % is 0.20 VAT on one paper, 3 x 0.07 on three.
    invoice = Draft("EUR", tuple(line("1", "0.35") for _ in range(3)))
    notes: list[CreditDraft] = []
    for at in range(3):
        left = left_to_credit(invoice, payable(invoice), [taken(invoice, note) for note in notes])
        notes.append(credit(invoice, left, {at: MICRO}))
    assert [note.totals.due.minor for note in notes] == [42, 42, 41]
    assert [note.totals.rounding.minor for note in notes] == [0, 0, -1]


def test_a_line_discount_goes_back_with_its_line() -> None:
    invoice = Draft("EUR", (replace(line("3", "0.335"), discount=50, discount_reason="scratched"),))
    left = untouched(invoice)
    first = credit(invoice, left, {0: MICRO})
    assert first.draft.lines[0].discount == 17  # a third of 0.50
    left = left_to_credit(invoice, payable(invoice), [taken(invoice, first)])
    assert left.discounts == (33,)
    assert credit(invoice, left, {0: 2 * MICRO}).draft.lines[0].discount == 33


def test_a_price_typed_with_vat_goes_back_as_it_was_paid() -> None:
    invoice = Draft("EUR", (with_vat("0.05"), with_vat("0.05"), with_vat("9.99", 700)))
    note = credit(invoice, untouched(invoice), {0: MICRO})
    assert note.totals.due == Money(5, "EUR")


def test_a_charge_in_a_group_without_lines_goes_back_with_the_last_line() -> None:
    invoice = Draft("EUR", (line("1", "10"), line("1", "20")), charges=(Adjustment(500, "postage", 700),))
    first = credit(invoice, untouched(invoice), {0: MICRO})
    assert first.draft.charges == ()
    left = left_to_credit(invoice, payable(invoice), [taken(invoice, first)])
    last = credit(invoice, left, {1: MICRO})
    assert [one.amount for one in last.draft.charges] == [500]
    assert first.totals.due + last.totals.due == payable(invoice)


def test_a_discount_never_takes_a_group_of_a_note_below_zero() -> None:
    invoice = Draft("EUR", (line("3", "0.334"), line("1", "5", 700)), (Adjustment(100, "goodwill", 1900),))
    notes: list[CreditDraft] = []
    for _ in range(3):
        left = left_to_credit(invoice, payable(invoice), [taken(invoice, note) for note in notes])
        notes.append(credit(invoice, left, {0: MICRO}))
        assert notes[-1].totals.groups[0].base.minor >= 0


def test_a_note_is_rounded_to_the_smallest_coin_as_its_invoice_was() -> None:
    invoice = Draft("CHF", (line("1", "10.02", 810), line("1", "3", 810)), round_due_to=5)
    note = credit(invoice, untouched(invoice), {0: MICRO})
    assert (note.totals.gross.minor, note.totals.due.minor) == (1083, 1085)


@pytest.mark.parametrize(
    ("wanted", "reason", "field"),
    [
        ({}, "wrong", "lines"),
        ({1: 3 * MICRO}, "wrong", "lines.1.quantity"),
        ({1: 0}, "wrong", "lines.1.quantity"),
        ({1: -MICRO}, "wrong", "lines.1.quantity"),
        ({2: MICRO}, "wrong", "lines.2.quantity"),
        ({9: MICRO}, "wrong", "lines.9.quantity"),
        ({-1: MICRO}, "wrong", "lines.-1.quantity"),
        ({1: MICRO}, " ", "reason"),
        ({1: MICRO}, "x" * 301, "reason"),
        ({1: MICRO}, "a\x07b", "reason"),
        ({1: MICRO}, "a\u202eb", "reason"),
        ({4: MICRO}, "wrong", "lines"),
    ],
)
def test_what_cannot_be_credited_is_named_at_its_field(
    wanted: dict[int, int], reason: str, field: str
) -> None:
    invoice = replace(WORKED_A, lines=(*WORKED_A.lines, line("1", "0")))
    assert set(check_credit(invoice, untouched(invoice), wanted, reason)) == {field}


def test_nothing_is_credited_twice() -> None:
    left = untouched(WORKED_A)
    assert check_credit(WORKED_A, left, everything(left), "wrong") == {}
    note = taken(WORKED_A, credit(WORKED_A, left, everything(left)))
    left = left_to_credit(WORKED_A, payable(WORKED_A), [note])
    assert left.amount == Money(0, "EUR")
    assert everything(left) == {}
    assert set(check_credit(WORKED_A, left, {0: MICRO}, "again")) == {"lines", "lines.0.quantity"}


@pytest.mark.parametrize(
    "reason", ["<b>bold</b> & <img src=x>", "שלום", "e\u0301te\u0301", "x" * 300, "two\nlines"]
)
def test_any_words_of_people_are_a_reason(reason: str) -> None:
    assert check_credit(WORKED_A, untouched(WORKED_A), {0: MICRO}, reason) == {}


RATES = st.sampled_from([0, 700, 1900])


@st.composite
def invoices(draw: st.DrawFn) -> Draft:
    def one() -> Line:
        rate, price = draw(RATES), draw(st.integers(0, 90 * MICRO))
        made = replace(line("1", "0", rate), quantity=draw(st.integers(1, 9 * MICRO)), price=price)
        if draw(st.booleans()):
            return replace(made, price=net_of(price, rate), price_with_vat=price)
        return made

    lines = tuple(one() for _ in range(draw(st.integers(1, 6))))
    currency = draw(st.sampled_from(["EUR", "JPY", "KWD"]))
    bare = work_out(Draft(currency, lines))
    shares = [draw(st.integers(0, 100)) for _ in bare.groups]
    discounts = tuple(
        Adjustment(group.base.minor * share // 100, "goodwill", group.rate, group.category)
        for group, share in zip(bare.groups, shares, strict=True)
        if group.base.minor * share // 100
    )
    charges = (Adjustment(draw(st.integers(1, 900)), "postage", 1900),) if draw(st.booleans()) else ()
    return Draft(currency, lines, discounts, charges, round_due_to=draw(st.sampled_from([1, 5])))


@given(invoices(), st.data())
@settings(deadline=None)
def test_all_notes_of_an_invoice_come_to_the_invoice_and_no_cent_is_lost(
    invoice: Draft, data: st.DataObject
) -> None:
    owed = payable(invoice)
    notes: list[CreditDraft] = []
    while True:
        left = left_to_credit(invoice, owed, [taken(invoice, note) for note in notes])
        assert left.amount.minor >= 0
        if not everything(left):
            break
        whole = len(notes) == 5 or data.draw(st.booleans())
        wish = everything(left)
        if not whole:
            at = data.draw(st.sampled_from(sorted(wish)))
            wish = {at: data.draw(st.integers(1, wish[at]))}
        note = credit(invoice, left, wish)
        totals = note.totals
        assert totals.due <= left.amount
        assert totals.net == totals.lines_net - totals.discount + totals.charge  # BR-CO-13
        assert totals.gross == totals.net + totals.vat  # BR-CO-15
        assert totals.due == totals.gross + totals.rounding  # BR-CO-16
        for group in totals.groups:  # BR-CO-17
            assert group.base.minor >= 0
            exact = Decimal(group.base.minor) * group.rate / 10_000
            assert group.tax.minor == exact.quantize(Decimal(1), rounding=ROUND_HALF_UP)
        notes.append(note)
    assert sum(note.totals.due.minor for note in notes) == owed.minor


def test_an_invoice_of_nothing_is_taken_back_as_a_whole_and_once() -> None:
    free = replace(WORKED_A, discounts=(), charges=(), prepaid=0)
    groups = work_out(free).groups
    free = replace(
        free, discounts=tuple(Adjustment(g.base.minor, "guarantee", g.rate, g.category) for g in groups)
    )
    left = untouched(free)
    assert left.something
    assert set(check_credit(free, left, {1: 2 * MICRO}, "not under guarantee")) == {"lines"}
    assert check_credit(free, left, everything(left), "not under guarantee") == {}
    note = credit(free, left, everything(left))
    assert (note.totals.gross.minor, note.totals.due.minor) == (0, 0)
    assert not left_to_credit(free, payable(free), [taken(free, note)]).something
