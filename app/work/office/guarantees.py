"""The guarantee of an invoice as it is promised, and what becomes of a comeback within one: proposed, then decided."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from sqlalchemy import ColumnElement, select
from sqlalchemy.orm import Session

from app.book.bench.job_rows import JobRows
from app.book.door import Book, Change
from app.book.office.job_lines import draft_of, standing_invoice
from app.book.tables import Charge, Customer, GuaranteeAnswer, Invoice, Job, Staff
from app.trade.bench.facts import JobFacts
from app.trade.bench.kinds import ComebackStanding
from app.trade.bench.modifications import live
from app.trade.calendar.promise import local_day
from app.trade.money import MICRO, decimals
from app.trade.office.guarantee import (
    Answer,
    Covers,
    GuaranteeProposal,
    Promised,
    covers,
    denied_proposal,
    guarantee_proposal,
    guarantee_until,
)
from app.trade.office.invoice import work_out
from app.trade.office.on_the_bill import OnBill
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.trade.settings.owed import COVERED, GUARANTEE_MODIFIED
from app.trade.settings.papers_and_days import LANGUAGE, TIME_ZONE
from app.trade.settings.terms import GUARANTEE_DAYS
from app.trade.typed_words import check_typed
from app.work.bench.open_job import open_job
from app.work.language import wording_for
from app.work.papers.sheet_facts import wording_to
from app.work.shop_book import Done

LONGEST_REASON = 300


@dataclass(frozen=True, slots=True)
class Given:
    """A guarantee as an invoice gives it: how many days, to which day, what it covers."""

    days: int
    until: date
    covers: Covers


@dataclass(frozen=True, slots=True)
class Answered:
    """What a person decided, why, when and who."""

    answer: Answer
    reason: str
    at: datetime
    by: str


@dataclass(frozen=True, slots=True)
class GuaranteeView:
    """What the book proposes for the invoice of a comeback, and what was decided last. ``open``: it can still be
    decided otherwise."""

    proposal: GuaranteeProposal
    answered: Answered | None
    open: bool


def guarantee_given(rows: JobRows, facts: JobFacts, issued: date) -> Given | None:
    """What the invoice of a job promises by the settings of this day; None for fees only, or where none is given."""
    days = rows.settings[GUARANTEE_DAYS]
    until = guarantee_until(issued, days)
    if until is None or rows.unsafe_return is not None:
        return None
    modified = any(change.ours for change in live(facts.modifications))
    return Given(
        days,
        until,
        covers(modified=modified, modified_covered=rows.settings[GUARANTEE_MODIFIED] == COVERED),
    )


def guarantee_days_of(rows: JobRows) -> int:
    """The days that run from handing back: as the invoice promised, or by the settings where it says nothing."""
    invoice = standing_invoice(rows)
    if invoice is None or invoice.guarantee_days is None:
        return rows.settings[GUARANTEE_DAYS]
    days: int = invoice.guarantee_days
    return days


def guarantee_view(book: Book, job_id: int) -> GuaranteeView | None:
    """What is proposed and was decided about a comeback; None where no guarantee of its fault ran."""
    with book.ask() as session:
        job = session.get_one(Job, job_id)
        rows = JobRows(session, job)
        proposal = _proposal(rows, job, book)
        if proposal is None:
            return None
        last = session.execute(
            select(GuaranteeAnswer, Staff.name)
            .join(Staff, Staff.id == GuaranteeAnswer.by)
            .where(GuaranteeAnswer.job_id == job_id)
            .order_by(GuaranteeAnswer.id.desc())
            .limit(1)
        ).first()
        answered = None if last is None else Answered(last[0].answer, last[0].reason, last[0].at, last[1])
        may_change = standing_invoice(rows) is None and job.handed_back_at is None
        return GuaranteeView(proposal, answered, may_change)


def answer_guarantee(book: Book, who: int, job_id: int, answer: Answer, reason: str = "") -> Done[int]:
    """Decide about the invoice of a comeback within the guarantee. With no charge, discounts take off all that
    stands on it, each in its VAT rate; what is added later is asked for anew. Decided otherwise, they are struck out.

    Raises FieldRefusal under ``reason``, which is needed where the decision is not what was proposed.
    """
    with book.change(who, Sentence("decided about the guarantee")) as change:
        job = open_job(change, job_id)
        rows = JobRows(change.session, job)
        proposal = _proposal(rows, job, book)
        if proposal is None:
            raise Refusal(Sentence("No guarantee of an earlier job ran when this player came in."))
        if standing_invoice(rows) is not None:
            raise Refusal(Sentence("This job is invoiced already."))
        if wrong := check_typed(reason, LONGEST_REASON):
            raise FieldRefusal({"reason": wrong})
        if answer is not proposal.answer and not reason.strip():
            raise FieldRefusal({"reason": Sentence("Write why it is decided otherwise than proposed.")})
        assert job.comeback_of_id is not None  # or there were no proposal
        row = change.add(
            GuaranteeAnswer(
                job_id=job.id,
                former_job_id=job.comeback_of_id,
                answer=answer,
                reason=reason.strip(),
                at=change.now,
                by=change.by,
            )
        )
        if answer is Answer.NO_CHARGE:
            _take_all_off(change, rows, proposal.job)
        else:
            _ask_again(change, rows, answer)
    return Done(row.id, change.changes)


def decided_without_invoice() -> ColumnElement[bool]:
    """Whether the last word on the guarantee of the job that a question is about was: no invoice."""
    last = (
        select(GuaranteeAnswer.answer)
        .where(GuaranteeAnswer.job_id == Job.id)
        .order_by(GuaranteeAnswer.id.desc())
        .limit(1)
        .correlate(Job)
        .scalar_subquery()
    )
    return last.is_not(None) & (last == Answer.NO_INVOICE)


def _proposal(rows: JobRows, job: Job, book: Book) -> GuaranteeProposal | None:
    promised = _promised(rows.session, job)
    if promised is not None and job.comeback is ComebackStanding.DENIED:
        asked = select(GuaranteeAnswer.id).where(GuaranteeAnswer.job_id == job.id)
        return denied_proposal(promised) if rows.session.scalar(asked.limit(1)) is not None else None
    something = any(net.minor for net in work_out(draft_of(rows)).line_nets)
    return guarantee_proposal(
        promised,
        local_day(job.taken_in_at, book.zone),
        mended=something,
        confirmed=job.comeback is ComebackStanding.CONFIRMED,
    )


def _promised(session: Session, job: Job) -> Promised | None:
    """The guarantee of the job that this one is, or was taken for, a comeback of."""
    if job.comeback_of_id is None:
        return None
    former = session.get_one(Job, job.comeback_of_id)
    if former.guarantee_until is None:
        return None
    covered = session.scalar(
        select(Invoice.guarantee_covers)
        .where(Invoice.job_id == former.id)
        .order_by(Invoice.id.desc())
        .limit(1)
    )
    return Promised(former.number, former.guarantee_until, covered or Covers.WORK)


def _take_all_off(change: Change, rows: JobRows, former: int) -> None:
    """A discount in each VAT rate, as large as what is asked for in it."""
    totals = work_out(draft_of(rows))
    customer = change.session.get_one(Customer, rows.job.customer_id)
    wording = wording_to(customer, rows.settings)
    reason = wording("Guarantee of job {job}", job=str(former))
    coin = 10 ** (6 - decimals(totals.net.currency))
    for group in totals.groups:
        if group.base.minor > 0:
            change.add(
                Charge(
                    job_id=rows.job.id,
                    kind=OnBill.DISCOUNT.value,
                    words=reason,
                    quantity=MICRO,
                    price=group.base.minor * coin,
                    vat_rate=group.rate,
                    category=group.category,
                    vat_reason=group.reason,
                    at=change.now,
                    by=change.by,
                )
            )


def _ask_again(change: Change, rows: JobRows, answer: Answer) -> None:
    """Strike out what earlier decisions for no charge took off; discounts of people stay."""
    decided = select(GuaranteeAnswer.at).where(
        GuaranteeAnswer.job_id == rows.job.id, GuaranteeAnswer.answer == Answer.NO_CHARGE
    )
    taken_off = select(Charge).where(
        Charge.job_id == rows.job.id,
        Charge.kind == OnBill.DISCOUNT.value,
        Charge.struck_at.is_(None),
        Charge.at.in_(decided),
    )
    wording = wording_for(rows.settings[LANGUAGE], ZoneInfo(rows.settings[TIME_ZONE]))
    for charge in change.session.scalars(taken_off):
        charge.struck_at, charge.struck_by = change.now, change.by
        charge.struck_reason = wording(Sentence(answer.value))
