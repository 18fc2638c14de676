"""Journal, takings and open items worked out a second time, from the files of `export` alone.

The other arithmetic knows nothing of ours: csv, Decimal, dates of the standard library, and the columns of the tables.
"""

from __future__ import annotations

import csv
import json
from collections import defaultdict
from dataclasses import replace
from datetime import date, datetime
from decimal import ROUND_HALF_UP, Decimal
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

import pytest

from app.trade.bench.kinds import Means
from app.trade.calendar.period import Period
from app.trade.money import MICRO, Money
from app.trade.office.invoice import LineKind
from app.trade.office.vat import VatRate
from app.trade.settings import ROUND_DUE_TO
from app.trade.settings.prices import PAY_WITHIN
from app.work.counter.taking_in import receive_unit
from app.work.language import wording_for
from app.work.office.charges import ChargeEntry, add_charge, give_discount, put_on_top
from app.work.office.credit_notes import issue_credit_note
from app.work.office.for_bookkeeper import write_for_bookkeeper
from app.work.office.invoices import issue_invoice
from app.work.office.open_items import open_items
from app.work.office.payments import give_back, take_payment
from app.work.office.settings import change_settings
from app.work.office.takings import days_takings
from app.work.upkeep.export import export_everything
from tests.work.office.conftest import LARCH

LOW, FULL = VatRate(700), VatRate(1900)
BERLIN = ZoneInfo("Europe/Berlin")
CENT = Decimal("0.01")


def rows(folder: Path, name: str, separator: str = ",") -> list[dict[str, str]]:
    with (folder / name).open(encoding="utf-8-sig", newline="") as file:
        return list(csv.DictReader(file, delimiter=separator))


def euro(cents: int) -> Money:
    return Money(cents, "EUR")


def charged(bench, job, words, price, vat):
    entry = ChargeEntry(kind=LineKind.FIXED_CHARGE, words=words, price=int(price * MICRO), vat=vat)
    add_charge(bench.book, bench.who, job, entry)


@pytest.fixture
def busy(worked: Any) -> Any:
    """Six weeks: deposits, two rates, discount, charge and rounding, a credit note by line, money given back, and money
    taken after midnight in Berlin that is the day before in UTC."""
    book, who, clock = worked.book, worked.who, worked.shop.clock
    take_payment(book, who, worked.job, euro(3000), Means.CASH)
    charged(worked, worked.job, "=Packing", Decimal("12.50"), LOW)
    give_discount(book, who, worked.job, "returning customer", 10 * MICRO, FULL)
    first = issue_invoice(book, who, worked.job).value
    take_payment(book, who, worked.job, euro(5000), Means.CARD, note="@first half")
    clock.advance(days=17)
    issue_credit_note(book, who, first.id, {1: MICRO}, "belt not fitted")
    for number, serial in enumerate(("7", "8", "9")):
        intake = replace(LARCH, serial=serial, name=f"Customer {serial}", promised_on=None)
        job = receive_unit(book, worked.shop.mirr, intake).value.job_id
        charged(worked, job, "Cleaned", Decimal("33.33") * (number + 1), FULL)
        charged(worked, job, "Manual", Decimal("1.05"), LOW)
        put_on_top(book, who, job, "done over night", 3 * MICRO, LOW)
        change_settings(book, who, {ROUND_DUE_TO: 5, PAY_WITHIN: 7 + 14 * number})
        issue_invoice(book, who, job)
        clock.advance(days=5)
        if serial == "7":
            take_payment(book, who, job, euro(9000), Means.TRANSFER)
            give_back(book, who, job, euro(4000), Means.CASH)
    clock.instant = datetime(2026, 4, 20, 0, 30, tzinfo=BERLIN)
    take_payment(book, who, job, euro(123), Means.CASH)
    return worked


@pytest.fixture
def exported(busy: Any, tmp_path: Path) -> Path:
    export_everything(busy.book, tmp_path / "all")
    return tmp_path / "all"


def issued(folder: Path, papers: str, lines: str, key: str, sign: int) -> list[dict[str, Any]]:
    """Invoices or credit notes: day, number, base and tax of each rate worked out from their lines, rounding."""
    nets: defaultdict[str, defaultdict[tuple[int, str], Decimal]] = defaultdict(lambda: defaultdict(Decimal))
    for line in rows(folder, f"{lines}.csv"):
        nets[line[key]][int(line["vat_rate"]), line["category"]] += Decimal(line["net"]) / 100
    found = []
    for paper in rows(folder, f"{papers}.csv"):
        bases = nets[paper["id"]]
        for amount, _, rate, category, *_ in json.loads(paper["adjustments"] or "[]"):
            bases[rate, category] += Decimal(amount) / 100
        taxes = {
            group: (base * group[0] / 10_000).quantize(CENT, rounding=ROUND_HALF_UP)
            for group, base in bases.items()
        }
        number = f"{paper['series']}-{int(paper['number']):04}".removeprefix("-")
        found.append(
            {
                "row": paper,
                "day": date.fromisoformat(paper["issued_on"]),
                "number": number,
                "groups": {group[0]: (sign * bases[group], sign * taxes[group]) for group in bases},
                "rounding": sign * Decimal(paper["rounding"]) / 100,
            }
        )
    return found


def everything_issued(folder: Path) -> list[dict[str, Any]]:
    return [
        *issued(folder, "invoices", "invoice_lines", "invoice_id", 1),
        *issued(folder, "credit_notes", "credit_note_lines", "credit_note_id", -1),
    ]


def taken(folder: Path) -> list[tuple[date, str, str, Decimal]]:
    """Day in Berlin, means, job and amount of every payment."""
    return [
        (
            datetime.fromisoformat(row["at"]).astimezone(BERLIN).date(),
            row["means"],
            row["job_id"],
            Decimal(row["amount"]) / 100,
        )
        for row in rows(folder, "payments.csv")
    ]


PERIODS = (
    Period(date(2026, 3, 1), date(2026, 3, 31)),
    Period(date(2026, 4, 1), date(2026, 4, 19)),
    Period(date(2026, 4, 20), date(2026, 4, 20)),
)


def test_the_journal_says_what_the_tables_come_to(busy, exported, tmp_path):
    for period in PERIODS:
        written = write_for_bookkeeper(busy.book, tmp_path / "for", period, wording_for("en", BERLIN))
        agrees(exported, written, period)


def agrees(exported, written, period):
    told = rows(written.journal.parent, written.journal.name)
    papers = [one for one in everything_issued(exported) if period.first <= one["day"] <= period.last]
    groups = {
        (one["number"], Decimal(rate) / 100): (base, tax)
        for one in papers
        for rate, (base, tax) in one["groups"].items()
    }
    assert {
        (row["number"], Decimal(row["vat_percent"])): (Decimal(row["net"]), Decimal(row["vat"]))
        for row in told
        if row["net"]
    } == groups
    turnover = sum((base + tax for base, tax in groups.values()), Decimal(0))
    turnover += sum((one["rounding"] for one in papers), Decimal(0))
    assert sum((Decimal(row["gross"] or 0) for row in told), Decimal(0)) == turnover
    assert written.sums.turnover.amount == turnover
    assert written.sums.vat.amount == sum((tax for _, tax in groups.values()), Decimal(0))
    paid = [amount for day, _, _, amount in taken(exported) if period.first <= day <= period.last]
    assert sorted(Decimal(row["paid"]) for row in told if row["paid"]) == sorted(paid)
    assert written.sums.paid.amount == sum(paid, Decimal(0))
    # What stands in the file is what stands on the papers: net, VAT and sum of each invoice.
    for one in papers:
        row = one["row"]
        assert abs(sum(base for base, _ in one["groups"].values())) * 100 == Decimal(row["net"])
        assert abs(sum(tax for _, tax in one["groups"].values())) * 100 == Decimal(row["vat"])


def test_the_takings_of_each_day_are_its_payments(busy, exported):
    days = {day for day, *_ in taken(exported)}
    assert date(2026, 4, 20) in days  # the day before in UTC
    for day in (*days, date(2026, 3, 13)):
        found = days_takings(busy.book, day)
        for means in Means:
            amounts = [amount for d, how, _, amount in taken(exported) if (d, how) == (day, means.value)]
            (told,) = [one for one in found.means if one.means is means]
            assert told.taken.amount == sum((a for a in amounts if a > 0), Decimal(0))
            assert told.back.amount == -sum((a for a in amounts if a < 0), Decimal(0))
            assert told.count == len(amounts)
        assert found.sum.amount == sum((a for d, _, _, a in taken(exported) if d == day), Decimal(0))


def test_open_items_are_what_was_invoiced_less_credited_less_paid_by_age(busy, exported):
    today, open_on, due = date(2026, 4, 20), defaultdict(Decimal), {}
    for one in everything_issued(exported):
        job = one["row"]["job_id"]
        open_on[job] += sum(base + tax for base, tax in one["groups"].values()) + one["rounding"]
        if "pay_by" in one["row"]:
            due[job] = date.fromisoformat(one["row"]["pay_by"])
    for _, _, job, amount in taken(exported):
        open_on[job] -= amount
    wanted = {int(job): (rest, max((today - due[job]).days, 0)) for job, rest in open_on.items() if rest > 0}
    assert len(wanted) >= 3
    assert {item.job_id: (item.open.amount, item.late) for item in open_items(busy.book)} == wanted
    assert len({item.age for item in open_items(busy.book)}) >= 2
