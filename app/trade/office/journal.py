"""The bookkeeper's journal: what was invoiced, credited and paid in a period, one row for each rate or payment.

Signs: what a customer owes is above zero on invoices and below on credit notes; what was taken is above zero, what
was given back below. So sums of ``gross`` and of ``paid`` are the period's turnover and its money.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from app.trade.money import Money, total
from app.trade.office.vat import CODES, VatCategory, percent
from app.trade.sentence import Sentence, words


class EntryKind(StrEnum):
    """What a row tells. These words stand in the file, in every language, so that a program can go by them."""

    INVOICE = words("invoice")
    CREDIT_NOTE = words("credit note")
    ROUNDING = words("rounding")
    DEPOSIT = words("deposit")
    PAYMENT = words("payment")
    REFUND = words("refund")


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One row. Amounts in the currency; those that a kind has not are None. ``vat_rate`` in 10^-4."""

    day: date
    kind: EntryKind
    number: str  # of the invoice or credit note; empty for a payment
    refers_to: str  # the invoice that is corrected or paid
    job: int  # its number
    job_id: int  # stands in no file
    customer: str
    customer_vat_id: str
    text: str
    vat_rate: int | None = None
    category: VatCategory | None = None
    net: Money | None = None
    vat: Money | None = None
    gross: Money | None = None
    paid: Money | None = None
    means: str = ""
    currency: str


COLUMNS: tuple[tuple[str, Sentence], ...] = (
    ("date", Sentence("Day of the shop: of issue, or when the money was taken. Year, month, day.")),
    (
        "kind",
        Sentence("invoice, credit note, rounding, deposit, payment or refund. The same in every language."),
    ),
    ("number", Sentence("Of the invoice or credit note. Each VAT rate of it has a row of its own.")),
    (
        "refers_to",
        Sentence("The invoice that a credit note corrects or a payment is for; empty for a deposit."),
    ),
    ("job", Sentence("Number of the job.")),
    ("customer", Sentence("Name, as it stands in the book now.")),
    ("customer_vat_id", Sentence("The customer's VAT number, where there is one.")),
    ("vat_percent", Sentence("VAT rate in per cent.")),
    ("vat_code", Sentence("S standard, Z zero rate, E exempt, AE reverse charge, O outside VAT (UNCL5305).")),
    ("net", Sentence("Base of that rate, without VAT. Below zero on credit notes.")),
    ("vat", Sentence("VAT on that base, as it stands on the paper. Below zero on credit notes.")),
    (
        "gross",
        Sentence("Net and VAT together; on a row of kind rounding, what the amount to pay was rounded by."),
    ),
    ("paid", Sentence("Money taken, or below zero given back. Empty on invoices and credit notes.")),
    ("means", Sentence("cash, card or transfer. The same in every language.")),
    ("currency", Sentence("ISO 4217 code of all amounts of the row.")),
    ("text", Sentence("Reason of a credit note or of no VAT, or the note of a payment.")),
)


def cells(entry: Entry) -> tuple[object, ...]:
    """The row in the order of `COLUMNS`, numbers as numbers."""
    return (
        entry.day,
        entry.kind.value,
        entry.number,
        entry.refers_to,
        entry.job,
        entry.customer,
        entry.customer_vat_id,
        None if entry.vat_rate is None else percent(entry.vat_rate).value,
        "" if entry.category is None else CODES[entry.category],
        *(
            None if money is None else money.amount
            for money in (entry.net, entry.vat, entry.gross, entry.paid)
        ),
        entry.means,
        entry.currency,
        entry.text,
    )


@dataclass(frozen=True, slots=True)
class JournalSums:
    """What the rows come to: ``turnover`` with VAT and rounding, ``vat`` in it, ``paid`` less what was given back."""

    rows: int
    turnover: Money
    vat: Money
    paid: Money


def sums_of(entries: Sequence[Entry], currency: str) -> JournalSums:
    """The sums of a journal in one currency."""
    return JournalSums(
        len(entries),
        _sum((entry.gross for entry in entries), currency),
        _sum((entry.vat for entry in entries), currency),
        _sum((entry.paid for entry in entries), currency),
    )


def _sum(amounts: Iterable[Money | None], currency: str) -> Money:
    return total([amount for amount in amounts if amount is not None], currency)
