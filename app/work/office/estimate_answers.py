"""The customer's answer to an estimate: what it agrees to, what the invoice takes over, a declined job's own way."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import func, select

from app.book.bench.job_facts import facts_of
from app.book.bench.job_rows import JobRows
from app.book.door import Book, Change
from app.book.office.billed import is_invoiced
from app.book.office.shop_settings import settings_of
from app.book.tables import Agreement, Charge, Customer, Estimate, EstimateAnswer, Job
from app.trade.bench.case import is_open
from app.trade.bench.holds import unsafe_stops
from app.trade.bench.modification_words import what_it_is
from app.trade.bench.modifications import live
from app.trade.bench.stages import Outcome, Stage, Waiting, Way
from app.trade.counter.agreements import AgreementKind
from app.trade.money import MICRO, Money, decimals
from app.trade.office.estimate import DeclinedFacts, Taken, WayStep, ceiling_of, check_answer, declined_way
from app.trade.office.invoice import LineKind, net_of
from app.trade.office.numbers import invoice_number
from app.trade.office.on_the_bill import rates_offered
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.trade.settings.prices import CURRENCY
from app.trade.settings.thresholds import thresholds_of
from app.trade.wording import Wording
from app.work.bench.open_job import open_job
from app.work.office.estimate_rows import OptionKept, options_of
from app.work.papers.sheet_facts import wording_to
from app.work.shop_book import Done


@dataclass(frozen=True, slots=True, kw_only=True)
class AnswerEntry:
    """An answer as typed. ``option_id`` None: none of the options. ``words`` are the customer's own.
    ``modifications`` are the ids of changes that the customer agreed to in the same breath."""

    option_id: int | None
    said_by: str
    way: Way = Way.TELEPHONE
    said_at: datetime | None = None  # None: now
    words: str = ""
    modifications: tuple[int, ...] = ()


def record_answer(book: Book, who: int, estimate_id: int, entry: AnswerEntry) -> Done[int]:
    """Keep what the customer answered. A chosen option is what the job may cost from now on, and its fixed charges
    go onto the invoice; none of them ends the job as declined, with the fee that was told. The last word counts.

    Raises FieldRefusal, Refusal for an estimate that is not out or no longer the last.
    """
    with book.change(who, Sentence("recorded the answer to an estimate")) as change:
        row = change.get(Estimate, estimate_id)
        job = open_job(change, row.job_id)
        _refuse_old(change, row)
        if wrong := check_answer(entry.said_by, entry.words, entry.said_at, change.now):
            raise FieldRefusal(wrong)
        options = options_of(change.session, row.id)
        chosen = next((one for one in options if one.id == entry.option_id), None)
        if chosen is None and entry.option_id is not None:
            raise FieldRefusal({"option_id": Sentence("Choose one of the options of this estimate.")})
        waiting = dict(modifications_without_yes(JobRows(change.session, job), change.today))
        agreed_to = [] if chosen is None else [key for key in entry.modifications if key in waiting]
        settings = settings_of(change.session)
        wording = wording_to(change.session.get_one(Customer, job.customer_id), settings)
        said: dict[str, Any] = {
            "job_id": job.id,
            "way": entry.way,
            "said_by": " ".join(entry.said_by.split()),
            "said_at": entry.said_at or change.now,
            "at": change.now,
            "by": change.by,
        }
        agreement = change.add(
            Agreement(
                kind=AgreementKind.PRICE.value,
                yes=chosen is not None,
                what=wording(_what(row, chosen, options)),
                amount=None if chosen is None else ceiling_of(chosen.option, settings[CURRENCY]).minor,
                **said,
            )
        )
        for key in agreed_to:
            kind, what = AgreementKind.MODIFICATION.value, wording(waiting[key])
            change.add(Agreement(kind=kind, yes=True, what=what, modification_id=key, **said))
        fee = None
        if chosen is None:
            fee = _charge_fee(change, job, wording)
            job.outcome = Outcome.DECLINED
        else:
            _take_fee_back(change, job, wording)
            if job.outcome is Outcome.DECLINED:
                job.outcome = None
        answer = change.add(
            EstimateAnswer(
                job_id=job.id,
                estimate_id=row.id,
                option_id=entry.option_id,
                agreement_id=agreement.id,
                words=entry.words.strip(),
                taken=Taken.FEES_ONLY if chosen is None else Taken.AS_WORKED,
                fee_charge_id=fee,
                at=change.now,
                by=change.by,
            )
        )
        if job.waiting is Waiting.ANSWER:
            job.waiting = Waiting.NOTHING
    return Done(answer.id, change.changes)


def set_taken(book: Book, who: int, job_id: int, taken: Taken) -> Done[int]:
    """Say what the invoice takes over: what was worked, what was estimated, or fees only. Raises Refusal."""
    with book.change(who, Sentence("chose what the invoice takes over")) as change:
        open_job(change, job_id)
        answer = change.session.scalars(
            select(EstimateAnswer)
            .where(EstimateAnswer.job_id == job_id)
            .order_by(EstimateAnswer.id.desc())
            .limit(1)
        ).first()
        if answer is None:
            raise Refusal(Sentence("No estimate of this job was answered."))
        if _invoiced(change, job_id):
            raise Refusal(
                Sentence("This job is invoiced already."),
                Sentence("A wrong invoice is corrected by a credit note, not by a second invoice."),
            )
        if taken is Taken.AS_ESTIMATED and answer.option_id is None:
            raise Refusal(Sentence("No option was chosen: there is nothing estimated to take over."))
        answer.taken = taken
    return Done(answer.id, change.changes)


def modifications_without_yes(rows: JobRows, today: date) -> tuple[tuple[int, Sentence], ...]:
    """Changes of ours in the player to which the customer has not said yes: id, and what each is."""
    facts = facts_of(rows.session, rows.job, today, rows)
    return tuple((m.number, what_it_is(m)) for m in live(facts.modifications) if m.ours and not m.agreed)


def way_back(rows: JobRows, book: Book) -> tuple[WayStep, ...]:
    """What a declined player of an open job still needs; nothing for any other job."""
    job = rows.job
    if job.outcome is not Outcome.DECLINED or job.stage is Stage.HANDED_BACK:
        return ()
    facts = facts_of(rows.session, job, book.today(), rows)
    inside: dict[int, int] = {}
    for move in rows.part_moves:
        inside[move.part_id] = inside.get(move.part_id, 0) - move.quantity
    fee = job.diagnosis_fee if job.diagnosis_fee_told else None
    return declined_way(
        DeclinedFacts(
            fee=Money(fee, rows.settings[CURRENCY]) if fee else None,
            fee_charged=any(row.kind == LineKind.FEE and row.struck_at is None for row in rows.charges),
            parts_inside=sum(quantity > 0 for quantity in inside.values()),
            changes_inside=sum(m.ours and m.job == job.number for m in live(facts.modifications)),
            unsafe=bool(unsafe_stops(facts, thresholds_of(rows.settings))),
            case_open=is_open(facts.case_events),
        )
    )


def _refuse_old(change: Change, row: Estimate) -> None:
    """Only what went out last is answered."""
    if row.issued_at is None:
        raise Refusal(Sentence("This estimate has not gone out yet."), Sentence("Issue it first."))
    last = change.session.scalar(
        select(func.max(Estimate.id)).where(Estimate.job_id == row.job_id, Estimate.issued_at.is_not(None))
    )
    if last != row.id:
        raise Refusal(Sentence("A newer estimate went out."), Sentence("Record the answer to that one."))


def _what(row: Estimate, chosen: OptionKept | None, options: Sequence[OptionKept]) -> Sentence:
    """What a yes or no was said to, in words that stand on papers too; a no is one to every option."""
    number = invoice_number("", row.number or 0)
    if len(options) == 1:
        title = options[0].option.entry.title
        return Sentence("estimate {number}: {title}", {"number": number, "title": title})
    if chosen is None:
        return Sentence("estimate {number}", {"number": number})
    title = chosen.option.entry.title
    return Sentence(
        "estimate {number}, option {letter}: {title}",
        {"number": number, "letter": chosen.option.letter, "title": title},
    )


def _charge_fee(change: Change, job: Job, wording: Wording) -> int | None:
    """The fee told at taking in, put on the invoice once. None where none was told, or one stands there."""
    if not job.diagnosis_fee or not job.diagnosis_fee_told or _invoiced(change, job.id):
        return None
    standing = change.session.scalar(
        select(Charge.id).where(
            Charge.job_id == job.id, Charge.kind == LineKind.FEE.value, Charge.struck_at.is_(None)
        )
    )
    if standing is not None:
        return standing
    settings = settings_of(change.session)
    rate = rates_offered(settings)[0]
    gross = job.diagnosis_fee * MICRO // 10 ** decimals(settings[CURRENCY])
    row = change.add(
        Charge(
            job_id=job.id,
            kind=LineKind.FEE.value,
            words=wording(Sentence("Looking into it, as told at taking in")),
            quantity=MICRO,
            price=net_of(gross, rate.rate),
            price_with_vat=gross if rate.rate else None,
            vat_rate=rate.rate,
            category=rate.category,
            vat_reason=rate.reason,
            at=change.now,
            by=change.by,
        )
    )
    return row.id


def _take_fee_back(change: Change, job: Job, wording: Wording) -> None:
    """The customer goes ahead after all: the fee of an earlier no is struck out."""
    ids = select(EstimateAnswer.fee_charge_id).where(
        EstimateAnswer.job_id == job.id, EstimateAnswer.fee_charge_id.is_not(None)
    )
    for row in change.session.scalars(select(Charge).where(Charge.id.in_(ids), Charge.struck_at.is_(None))):
        if not _invoiced(change, job.id):
            row.struck_at, row.struck_by = change.now, change.by
            row.struck_reason = wording(Sentence("the customer goes ahead"))


def _invoiced(change: Change, job_id: int) -> bool:
    return change.session.scalar(select(Job.id).where(Job.id == job_id, is_invoiced())) is not None
