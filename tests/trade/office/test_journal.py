"""The bookkeeper's journal: a column for each thing, and sums that a bookkeeper can check."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from app.trade.money import Money
from app.trade.office.journal import COLUMNS, Entry, EntryKind, cells, sums_of
from app.trade.office.vat import VatCategory

DAY = date(2026, 3, 12)


def entry(kind, **more):
    told = {
        "day": DAY,
        "number": "",
        "refers_to": "",
        "job": 1001,
        "job_id": 1,
        "customer": "Benedikt Arnsvik",
    }
    return Entry(**told, customer_vat_id="", text="", kind=kind, currency="EUR", **more)


INVOICE = entry(
    EntryKind.INVOICE,
    vat_rate=1900,
    category=VatCategory.STANDARD,
    net=Money(8980, "EUR"),
    vat=Money(1706, "EUR"),
    gross=Money(10686, "EUR"),
)
PAYMENT = entry(EntryKind.PAYMENT, paid=Money(-500, "EUR"), means="cash")


def test_every_column_has_its_cell_and_its_meaning():
    for one in (INVOICE, PAYMENT):
        assert len(cells(one)) == len(COLUMNS)
    assert len({name for name, _ in COLUMNS}) == len(COLUMNS)
    assert all(meaning.key for _, meaning in COLUMNS)


def test_numbers_are_numbers_and_what_a_row_has_not_is_empty():
    row = dict(zip((name for name, _ in COLUMNS), cells(INVOICE), strict=True))
    assert (row["vat_percent"], row["vat_code"]) == (Decimal(19), "S")
    assert (row["net"], row["vat"], row["gross"]) == (Decimal("89.80"), Decimal("17.06"), Decimal("106.86"))
    assert row["paid"] is None
    row = dict(zip((name for name, _ in COLUMNS), cells(PAYMENT), strict=True))
    assert (row["vat_percent"], row["vat_code"], row["gross"], row["paid"]) == (
        None,
        "",
        None,
        Decimal("-5.00"),
    )


def test_sums_are_those_of_the_rows():
    sums = sums_of([INVOICE, PAYMENT, INVOICE], "EUR")
    assert (sums.rows, sums.turnover.minor, sums.vat.minor, sums.paid.minor) == (3, 21372, 3412, -500)
    assert sums_of([], "JPY").turnover == Money(0, "JPY")
