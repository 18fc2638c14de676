"""Fixed charges, fees, text lines and a discount on a job, before it is invoiced."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import select

from app.book.door import Book, Change
from app.book.office.billed import is_invoiced
from app.book.office.shop_settings import settings_of
from app.book.tables import Charge, Job
from app.trade.money import MICRO, decimals
from app.trade.office.invoice import Adjustment, Line, LineKind, net_of
from app.trade.office.invoice_check import check_adjustment, check_line
from app.trade.office.on_the_bill import OnBill
from app.trade.office.vat import VatRate
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.trade.settings.prices import CURRENCY, PRICES_WITH_VAT
from app.work.bench.open_job import open_job
from app.work.shop_book import Done

KINDS = (LineKind.FIXED_CHARGE, LineKind.FEE, LineKind.TEXT)


@dataclass(frozen=True, slots=True, kw_only=True)
class ChargeEntry:
    """A charge as entered. ``price`` in millionths per unit, with VAT where the shop types prices so; a text
    line has neither price nor quantity."""

    kind: LineKind
    words: str
    price: int = 0
    quantity: int = MICRO
    vat: VatRate


def add_charge(book: Book, who: int, job_id: int, entry: ChargeEntry) -> Done[int]:
    """Put a fixed charge, a fee or a text line on the job. Raises FieldRefusal, Refusal once it is invoiced."""
    with book.change(who, Sentence("put a charge on a job")) as change:
        job = _job_to_charge(change, job_id)
        settings = settings_of(change.session)
        gross = entry.price if settings[PRICES_WITH_VAT] and entry.vat.rate else None
        line = Line(
            entry.words.strip(),
            entry.kind,
            entry.quantity,
            "C62",
            entry.price if gross is None else net_of(gross, entry.vat.rate),
            entry.vat.rate,
            entry.vat.category,
            entry.vat.reason,
            price_with_vat=gross,
        )
        if entry.kind is LineKind.TEXT:
            line = Line(line.words, line.kind, 0, line.unit, entry.price, 0)
        wrong = check_line(line, settings[CURRENCY])
        if entry.kind not in KINDS:
            wrong["kind"] = Sentence("Working time and parts are entered on the bench.")
        if wrong:
            raise FieldRefusal(wrong)
        row = change.add(
            Charge(
                job_id=job.id,
                kind=entry.kind.value,
                words=line.words,
                quantity=line.quantity,
                unit=line.unit,
                price=line.price,
                price_with_vat=line.price_with_vat,
                vat_rate=line.vat_rate,
                category=line.category,
                vat_reason=line.vat_reason,
                at=change.now,
                by=change.by,
            )
        )
    return Done(row.id, change.changes)


def give_discount(book: Book, who: int, job_id: int, reason: str, amount: int, vat: VatRate) -> Done[int]:
    """Take a net amount (millionths) off the sum of the job, with its reason, in one VAT rate.

    Raises FieldRefusal under ``amount`` and ``reason``, Refusal once the job is invoiced.
    """
    with book.change(who, Sentence("gave a discount")) as change:
        job = _job_to_charge(change, job_id)
        coin = 10 ** (6 - decimals(settings_of(change.session)[CURRENCY]))
        taken_off = Adjustment(amount // coin, reason.strip(), vat.rate, vat.category, vat.reason)
        wrong = check_adjustment(taken_off)
        if amount % coin:
            wrong["amount"] = Sentence("A discount is a sum that can be paid: no part of the smallest coin.")
        if wrong:
            raise FieldRefusal(wrong)
        row = change.add(
            Charge(
                job_id=job.id,
                kind=OnBill.DISCOUNT.value,
                words=taken_off.reason,
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


def _job_to_charge(change: Change, job_id: int) -> Job:
    """The open job; once invoiced, nothing more can be put on it."""
    job = open_job(change, job_id)
    if change.session.scalar(select(Job.id).where(Job.id == job_id, is_invoiced())) is not None:
        raise Refusal(
            Sentence("This job is invoiced already."),
            Sentence("What comes on top is charged on another job, or after a credit note."),
        )
    return job
