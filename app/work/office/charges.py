"""Fixed charges, fees, text lines and a discount on a job, before it is invoiced."""

from __future__ import annotations

from dataclasses import dataclass

from app.book.door import Book
from app.book.office.job_lines import DISCOUNT
from app.book.office.shop_settings import settings_of
from app.book.tables import Charge
from app.trade.money import MICRO
from app.trade.office.invoice import Line, LineKind, net_of
from app.trade.office.invoice_check import check_line
from app.trade.office.vat import VatRate
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.trade.settings.prices import CURRENCY, PRICES_WITH_VAT
from app.work.bench.open_job import open_job
from app.work.shop_book import Done

KINDS = (LineKind.FIXED_CHARGE, LineKind.FEE, LineKind.TEXT)


@dataclass(frozen=True, slots=True, kw_only=True)
class ChargeEntry:
    """A charge as entered. ``price`` in millionths per unit, with VAT where the shop types prices so."""

    kind: LineKind
    words: str
    price: int = 0
    quantity: int = MICRO
    vat: VatRate


def add_charge(book: Book, who: int, job_id: int, entry: ChargeEntry) -> Done[int]:
    """Put a fixed charge, a fee or a text line on the job. Raises FieldRefusal."""
    with book.change(who, Sentence("put a charge on a job")) as change:
        job = open_job(change, job_id)
        settings = settings_of(change.session)
        gross = entry.price if settings[PRICES_WITH_VAT] and entry.vat.rate else None
        price = entry.price if gross is None else net_of(gross, entry.vat.rate)
        line = Line(
            entry.words.strip(),
            entry.kind,
            entry.quantity,
            "C62",
            price,
            entry.vat.rate,
            entry.vat.category,
            entry.vat.reason,
            price_with_vat=gross,
        )
        if wrong := check_line(line, settings[CURRENCY]):
            raise FieldRefusal(wrong)
        row = change.add(
            Charge(
                job_id=job.id,
                kind=entry.kind.value,
                words=line.words,
                quantity=line.quantity,
                unit=line.unit,
                price=line.price,
                price_with_vat=gross,
                vat_rate=line.vat_rate,
                category=line.category,
                vat_reason=line.vat_reason,
                at=change.now,
                by=change.by,
            )
        )
    return Done(row.id, change.changes)


def give_discount(book: Book, who: int, job_id: int, reason: str, amount: int, vat: VatRate) -> Done[int]:
    """Take a net amount (millionths) off the sum of the job, with its reason, in one VAT rate."""
    wrong: dict[str, Sentence] = {}
    if not reason.strip():
        wrong["reason"] = Sentence("Give the reason: it is printed on the invoice.")
    if amount <= 0:
        wrong["amount"] = Sentence("A discount is more than zero.")
    if wrong:
        raise FieldRefusal(wrong)
    with book.change(who, Sentence("gave a discount")) as change:
        job = open_job(change, job_id)
        row = change.add(
            Charge(
                job_id=job.id,
                kind=DISCOUNT,
                words=reason.strip(),
                quantity=MICRO,
                price=amount,
                vat_rate=vat.rate,
                category=vat.category,
                vat_reason=vat.reason,
                at=change.now,
                by=change.by,
            )
        )
    return Done(row.id, change.changes)
