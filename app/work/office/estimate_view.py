"""What the estimate page of a job shows: options with their sums, what keeps it here, answers, the way back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import select

from app.book.bench.job_rows import JobRows
from app.book.door import Book
from app.book.office.estimate_lines import taken_of
from app.book.tables import Agreement, Customer, Estimate, EstimateAnswer, Job, Unit
from app.trade.bench.stages import Stage, Way
from app.trade.calendar.promise import local_day
from app.trade.money import Money
from app.trade.office.estimate import (
    Taken,
    WayStep,
    against_limit,
    ceiling_of,
    check_to_issue,
    days_unanswered,
    option_totals,
)
from app.trade.office.invoice import Totals
from app.trade.office.numbers import invoice_number
from app.trade.office.on_the_bill import rates_offered
from app.trade.office.vat import VatRate
from app.trade.sentence import Sentence
from app.trade.settings.prices import CURRENCY, HOURLY_RATE, PRICES_WITH_VAT
from app.trade.settings.terms import NO_ANSWER_DAYS
from app.work.office.estimate_answers import modifications_without_yes, way_back
from app.work.office.estimate_rows import OptionKept, options_of


@dataclass(frozen=True, slots=True)
class OptionView:
    """One option, worked out. ``ceiling`` is what choosing it agrees to; ``limit`` how that stands to the limit."""

    kept: OptionKept
    totals: Totals
    ceiling: Money
    limit: Sentence | None


@dataclass(frozen=True, slots=True)
class AnswerView:
    """One recorded answer. ``letter`` and ``title`` are empty where none of the options was chosen."""

    id: int
    letter: str
    title: str
    amount: Money | None
    said_by: str
    said_at: datetime
    way: Way
    words: str
    by: str


@dataclass(frozen=True, slots=True)
class EstimateNow:
    """The estimate that is written, or the last that went out. ``unanswered`` in days, once it is time to ring."""

    id: int
    version: int
    number: str  # empty while it is written
    intro: str
    valid_until: date
    expired: bool
    issued_on: date | None
    issued_by: str
    paper_id: int | None
    options: tuple[OptionView, ...]
    wrong: tuple[Sentence, ...]  # why it cannot go out yet
    answers: tuple[AnswerView, ...]  # oldest first; the last counts
    unanswered: int | None

    @property
    def issued(self) -> bool:
        """Whether it went to the customer."""
        return self.issued_on is not None


@dataclass(frozen=True, slots=True)
class EstimateView:
    """The page. ``writing`` is the estimate that is being written, ``out`` the last that went to the customer;
    ``former`` are number and paper of those that went out before it, oldest first."""

    job_id: int
    number: int
    player: str
    serial: str
    customer: str
    currency: str
    rates: tuple[VatRate, ...]
    prices_with_vat: bool
    hourly_rate: int
    limit: Money | None
    changes: bool  # whether anything can be written on this job
    writing: EstimateNow | None
    out: EstimateNow | None
    former: tuple[tuple[str, int], ...]
    taken: Taken | None  # what the invoice takes over; None while nothing was answered
    way_back: tuple[WayStep, ...]
    without_yes: tuple[tuple[int, Sentence], ...]  # changes of ours that wait for the customer's yes

    @property
    def now(self) -> EstimateNow | None:
        """The one that the page shows: what is being written, else what went out last."""
        return self.writing or self.out


def estimate_view(book: Book, job_id: int) -> EstimateView:
    """Everything on the estimate page of a job. Raises NoResultFound for a job that is not there."""
    with book.ask() as session:
        job = session.get_one(Job, job_id)
        unit, customer = session.get_one(Unit, job.unit_id), session.get_one(Customer, job.customer_id)
        rows = JobRows(session, job)
        currency = rows.settings[CURRENCY]
        limit = None if job.go_ahead_limit is None else Money(job.go_ahead_limit, currency)
        found = session.scalars(
            select(Estimate)
            .where(Estimate.job_id == job.id, Estimate.given_up_at.is_(None))
            .order_by(Estimate.id)
        ).all()
        out = [row for row in found if row.issued_at is not None]
        writing = next((row for row in found if row.issued_at is None), None)
        return EstimateView(
            job_id=job.id,
            number=job.number,
            player=f"{unit.maker} {unit.model}".strip(),
            serial="" if unit.serial_unreadable else unit.serial,
            customer=customer.name,
            currency=currency,
            rates=rates_offered(rows.settings),
            prices_with_vat=rows.settings[PRICES_WITH_VAT],
            hourly_rate=rows.settings[HOURLY_RATE],
            limit=limit,
            changes=job.stage is not Stage.HANDED_BACK,
            writing=None if writing is None else _now(book, rows, writing, limit),
            out=_now(book, rows, out[-1], limit) if out else None,
            former=tuple(
                (invoice_number("", row.number), row.paper_id)
                for row in out[:-1]
                if row.number is not None and row.paper_id is not None
            ),
            taken=taken_of(rows) if rows.estimate_answers else None,
            way_back=way_back(rows, book),
            without_yes=modifications_without_yes(rows, book.today()),
        )


def _now(book: Book, rows: JobRows, row: Estimate, limit: Money | None) -> EstimateNow:
    today, currency = book.today(), rows.settings[CURRENCY]
    options = options_of(rows.session, row.id)
    issued_on = None if row.issued_at is None else local_day(row.issued_at, book.zone)
    answers = _answers(rows, row.id, options, currency)
    waits = issued_on is not None and not answers and rows.job.stage is not Stage.HANDED_BACK
    return EstimateNow(
        id=row.id,
        version=row.version,
        number="" if row.number is None else invoice_number("", row.number),
        intro=row.intro,
        valid_until=row.valid_until,
        expired=row.valid_until < today,
        issued_on=issued_on,
        issued_by="" if row.issued_by is None else rows.staff[row.issued_by],
        paper_id=row.paper_id,
        options=tuple(_option(kept, currency, limit) for kept in options),
        wrong=()
        if issued_on is not None
        else check_to_issue([kept.option for kept in options], row.valid_until, today, currency),
        answers=answers,
        unanswered=days_unanswered(issued_on, today, rows.settings[NO_ANSWER_DAYS]) if waits else None,
    )


def _option(kept: OptionKept, currency: str, limit: Money | None) -> OptionView:
    ceiling = ceiling_of(kept.option, currency)
    return OptionView(
        kept, option_totals(kept.option.lines, currency), ceiling, against_limit(ceiling, limit)
    )


def _answers(
    rows: JobRows, estimate_id: int, options: Sequence[OptionKept], currency: str
) -> tuple[AnswerView, ...]:
    known = {kept.id: kept.option for kept in options}
    found = []
    for answer, agreement in rows.session.execute(
        select(EstimateAnswer, Agreement)
        .join(Agreement, Agreement.id == EstimateAnswer.agreement_id)
        .where(EstimateAnswer.estimate_id == estimate_id)
        .order_by(EstimateAnswer.id)
    ):
        chosen = None if answer.option_id is None else known[answer.option_id]
        found.append(
            AnswerView(
                answer.id,
                "" if chosen is None else chosen.letter,
                "" if chosen is None else chosen.entry.title,
                None if agreement.amount is None else Money(agreement.amount, currency),
                agreement.said_by,
                agreement.said_at,
                agreement.way,
                answer.words,
                rows.staff[answer.by],
            )
        )
    return tuple(found)
