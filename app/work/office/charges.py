"""What is put on a job before it is invoiced: charges, fees, text, discounts, and whether it carries VAT at all."""

from __future__ import annotations

from dataclasses import dataclass, replace

from sqlalchemy import select

from app.book.bench.job_rows import JobRows
from app.book.door import Book, Change
from app.book.office.billed import is_invoiced
from app.book.office.job_lines import Source, drafted
from app.book.office.shop_settings import settings_of
from app.book.tables import Charge, Job
from app.trade.money import MICRO, decimals
from app.trade.office.invoice import Adjustment, Line, LineKind, net_of
from app.trade.office.invoice_check import check_adjustment, check_line, check_words
from app.trade.office.on_the_bill import OnBill, check_no_vat
from app.trade.office.vat import VatCategory, VatRate
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.trade.settings.prices import CURRENCY, PRICES_WITH_VAT, SMALL_BUSINESS
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
        row = _on_the_whole(change, OnBill.DISCOUNT, job_id, reason, amount, vat)
    return Done(row.id, change.changes)


def put_on_top(book: Book, who: int, job_id: int, reason: str, amount: int, vat: VatRate) -> Done[int]:
    """The same the other way: a net amount on top of the sum, such as a surcharge for a Sunday."""
    with book.change(who, Sentence("put a charge on the whole")) as change:
        row = _on_the_whole(change, OnBill.SURCHARGE, job_id, reason, amount, vat)
    return Done(row.id, change.changes)


def discount_line(book: Book, who: int, job_id: int, source: Source, reason: str, amount: int) -> Done[int]:
    """Take a net amount (millionths) off one line of the draft. ``source`` says which: `InvoiceDraft.source`.

    Raises FieldRefusal under ``amount`` and ``reason``, Refusal for a line that is gone or has a discount already.
    """
    with book.change(who, Sentence("gave a discount on a line")) as change:
        job = _job_to_charge(change, job_id)
        behind = drafted(JobRows(change.session, job))
        if source not in behind.sources:
            raise Refusal(Sentence("This line is not on the invoice any more."))
        if source in behind.line_discount_ids:
            raise Refusal(
                Sentence("This line has its discount already."), Sentence("Strike that one out first.")
            )
        line = behind.draft.lines[behind.sources.index(source)]
        wrong = _whole_coins(change, amount)
        less = replace(line, discount=amount // _coin(change), discount_reason=reason.strip())
        if line.kind is LineKind.TEXT:
            raise Refusal(Sentence("A text line charges nothing."))
        if less.discount <= 0:
            wrong.setdefault("amount", Sentence("Enter an amount above zero."))
        else:
            found = check_line(less, behind.draft.currency)
            if "discount" in found:
                wrong.setdefault("amount", found["discount"])
        if why := check_words(reason):
            wrong["reason"] = why
        if wrong:
            raise FieldRefusal(wrong)
        row = _entry(change, OnBill.LINE_DISCOUNT, job, reason, amount, VatRate(line.vat_rate, line.category))
        row.line_of, row.line_id = source
    return Done(row.id, change.changes)


def leave_vat_out(book: Book, who: int, job_id: int, category: VatCategory, reason: str) -> Done[int]:
    """No line of this invoice has VAT, for one reason: reverse charge, exempt, outside VAT or the zero rate.

    Raises FieldRefusal under ``category`` and ``reason``, Refusal where no line has VAT already.
    """
    with book.change(who, Sentence("left VAT out of an invoice")) as change:
        job = _job_to_charge(change, job_id)
        rows = JobRows(change.session, job)
        if rows.settings[SMALL_BUSINESS]:
            raise Refusal(Sentence("A small business charges no VAT: nothing is to leave out."))
        if drafted(rows).no_vat_id is not None:
            raise Refusal(Sentence("VAT is left out already."), Sentence("Strike that entry out first."))
        if wrong := check_no_vat(category, reason):
            raise FieldRefusal(wrong)
        words = reason.strip() or category.value
        row = _entry(change, OnBill.NO_VAT, job, words, 0, VatRate(0, category, reason.strip()))
    return Done(row.id, change.changes)


def _on_the_whole(
    change: Change, kind: OnBill, job_id: int, reason: str, amount: int, vat: VatRate
) -> Charge:
    job = _job_to_charge(change, job_id)
    moved = Adjustment(amount // _coin(change), reason.strip(), vat.rate, vat.category, vat.reason)
    if wrong := {**check_adjustment(moved), **_whole_coins(change, amount)}:
        raise FieldRefusal(wrong)
    return _entry(change, kind, job, moved.reason, amount, vat)


def _coin(change: Change) -> int:
    """The smallest coin of the shop's currency, in millionths."""
    coin: int = 10 ** (6 - decimals(settings_of(change.session)[CURRENCY]))
    return coin


def _whole_coins(change: Change, amount: int) -> dict[str, Sentence]:
    if amount % _coin(change):
        return {"amount": Sentence("A discount is a sum that can be paid: no part of the smallest coin.")}
    return {}


def _entry(change: Change, kind: OnBill, job: Job, words: str, amount: int, vat: VatRate) -> Charge:
    return change.add(
        Charge(
            job_id=job.id,
            kind=kind.value,
            words=words.strip(),
            quantity=MICRO,
            price=amount,
            vat_rate=vat.rate,
            category=vat.category,
            vat_reason=vat.reason,
            at=change.now,
            by=change.by,
        )
    )


def _job_to_charge(change: Change, job_id: int) -> Job:
    """The open job; once invoiced, nothing more can be put on it."""
    job = open_job(change, job_id)
    if change.session.scalar(select(Job.id).where(Job.id == job_id, is_invoiced())) is not None:
        raise Refusal(
            Sentence("This job is invoiced already."),
            Sentence("What comes on top is charged on another job, or after a credit note."),
        )
    return job
