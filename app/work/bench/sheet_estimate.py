"""Where the estimate of a job stands, for its sheet: being written, waiting, agreed to or declined."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from app.book.bench.job_rows import JobRows
from app.book.door import Book
from app.trade.bench.stages import Stage
from app.trade.calendar.promise import local_day
from app.trade.money import Money
from app.trade.office.estimate import days_unanswered
from app.trade.office.numbers import invoice_number
from app.trade.settings.prices import CURRENCY
from app.trade.settings.terms import NO_ANSWER_DAYS
from app.work.office.estimate_rows import options_of


class Standing(StrEnum):
    """Of the estimate that went out last; of one that was never out, that it is being written."""

    WRITTEN = "written"
    WAITS = "waits"
    AGREED = "agreed"
    DECLINED = "declined"
    LEFT = "left"  # handed back before anybody answered


@dataclass(frozen=True, slots=True)
class SheetEstimate:
    """``number`` is empty while it is written; ``letter`` while there is but one way to mend it."""

    standing: Standing
    number: str = ""
    unanswered: int | None = None  # days, once it is time to ring
    letter: str = ""
    title: str = ""
    up_to: Money | None = None  # what was agreed


def estimate_on_sheet(rows: JobRows, book: Book) -> SheetEstimate | None:
    """Of the job's estimates the one that counts, None where there is none."""
    out = [row for row in rows.estimates if row.issued_at is not None]
    if not out:
        return SheetEstimate(Standing.WRITTEN) if rows.estimates else None
    last = out[-1]
    number = invoice_number("", last.number)
    answers = [row for row in rows.estimate_answers if row.estimate_id == last.id]
    if not answers:
        if rows.job.stage is Stage.HANDED_BACK:
            return SheetEstimate(Standing.LEFT, number)
        went = local_day(last.issued_at, book.zone)
        days = days_unanswered(went, book.today(), rows.settings[NO_ANSWER_DAYS])
        return SheetEstimate(Standing.WAITS, number, days)
    answer = answers[-1]
    if answer.option_id is None:
        return SheetEstimate(Standing.DECLINED, number)
    options = options_of(rows.session, last.id)
    chosen = next(kept.option for kept in options if kept.id == answer.option_id)
    amount: int = next(row.amount for row in rows.agreements if row.id == answer.agreement_id)
    return SheetEstimate(
        Standing.AGREED,
        number,
        letter=chosen.letter if len(options) > 1 else "",
        title=chosen.entry.title,
        up_to=Money(amount, rows.settings[CURRENCY]),
    )
