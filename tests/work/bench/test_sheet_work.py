"""What the job sheet tells of charges and discounts beside labour and parts."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from app.trade.money import MICRO, Money
from app.trade.office.invoice import LineKind
from app.trade.office.vat import VatRate
from app.work.bench.strike_out import strike_out
from app.work.bench.work_done import record_labour
from app.work.office.charges import ChargeEntry, add_charge, give_discount

FULL = VatRate(1900)
MANUALS = ChargeEntry(
    kind=LineKind.FIXED_CHARGE, words="Copy of the manual", price=4_500_000, quantity=2 * MICRO, vat=FULL
)


def test_the_sheet_tells_what_the_office_put_on_the_job_in_the_order_of_time(bench: Any) -> None:
    add_charge(bench.book, bench.shop.ine, bench.job, MANUALS)
    bench.later(minutes=10)
    record_labour(bench.book, bench.tobbe, bench.job, "Arm freed", Decimal("0.5"))
    bench.later(minutes=10)
    text = ChargeEntry(kind=LineKind.TEXT, words="The disc stays with us until May.", vat=FULL)
    add_charge(bench.book, bench.shop.mirr, bench.job, text)
    assert [(line.kind, line.words, line.quantity, line.by) for line in bench.sheet.work] == [
        ("fixed charge", "Copy of the manual", 2, "Ine Varloes"),
        ("labour", "Arm freed", Decimal("0.5"), "Tobbe Ruskamp"),
        ("text", "The disc stays with us until May.", 0, "Mirr Quistan"),
    ]
    charge, _, words = bench.sheet.work
    assert (charge.net, words.net) == (Money(900, "EUR"), Money(0, "EUR"))


def test_a_discount_is_taken_off_what_the_work_costs_so_far(bench: Any) -> None:
    add_charge(bench.book, bench.shop.ine, bench.job, MANUALS)
    give_discount(bench.book, bench.shop.ine, bench.job, "came twice", 4 * MICRO, FULL)
    discount = bench.sheet.work[-1]
    assert (discount.words, discount.net) == ("came twice", Money(-400, "EUR"))
    # 9.00 net less 4.00 is 5.00, with 19 % 5.95
    assert bench.sheet.work_so_far == Money(595, "EUR")


def test_a_struck_out_charge_stays_to_be_read_with_its_reason_and_costs_nothing(bench: Any) -> None:
    key = add_charge(bench.book, bench.shop.ine, bench.job, MANUALS).value
    strike_out(bench.book, bench.shop.mirr, "charge", key, "the customer has one")
    line = bench.sheet.work[-1]
    assert line.struck is not None
    assert (line.words, line.struck.by, line.struck.reason) == (
        "Copy of the manual",
        "Mirr Quistan",
        "the customer has one",
    )
    assert bench.sheet.work_so_far == Money(0, "EUR")
