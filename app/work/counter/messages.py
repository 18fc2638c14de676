"""What was said with the customer: calls and messages, and the recorded yes or no to work, price or change."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import select

from app.book.door import Book
from app.book.office.shop_settings import settings_of
from app.book.tables import Agreement, Job, Message, Modification, Staff
from app.trade.bench.stages import Waiting, Way
from app.trade.counter.agreements import (
    AgreementEntry,
    AgreementKind,
    MessageEntry,
    check_agreement,
    check_message,
)
from app.trade.money import Money
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.trade.settings.prices import CURRENCY
from app.work.bench.open_job import open_job
from app.work.shop_book import Done


@dataclass(frozen=True, slots=True)
class SaidLine:
    """One line of what was said. ``agreement`` None: a message; else what the yes or no is about."""

    id: int
    at: datetime
    way: Way
    to_customer: bool
    text: str
    with_whom: str
    agreement: AgreementKind | None
    yes: bool
    amount: Money | None
    modification_id: int | None
    by: str


def add_message(book: Book, who: int, job_id: int, entry: MessageEntry) -> Done[int]:
    """Note a call or message. Messages may follow after the job is closed. Raises FieldRefusal."""
    if wrong := check_message(entry, book.now()):
        raise FieldRefusal(wrong)
    with book.change(who, Sentence("noted what was said with the customer")) as change:
        job = change.get(Job, job_id)
        row = change.add(
            Message(
                job_id=job_id,
                to_customer=entry.to_customer,
                way=entry.way,
                text=entry.text.strip(),
                spoke_with=entry.spoke_with.strip(),
                at=entry.at or change.now,
                by=change.by,
            )
        )
        if entry.awaits_answer and job.handed_back_at is None:
            job.waiting = Waiting.ANSWER
        elif not entry.to_customer and job.waiting is Waiting.ANSWER:
            job.waiting = Waiting.NOTHING
    return Done(row.id, change.changes)


def add_agreement(book: Book, who: int, job_id: int, entry: AgreementEntry) -> Done[int]:
    """Record the customer's yes or no to exactly something. The last word counts. Raises FieldRefusal."""
    with book.change(who, Sentence("recorded the customer's yes or no")) as change:
        job = open_job(change, job_id)
        wrong = check_agreement(entry, change.now, settings_of(change.session)[CURRENCY])
        if entry.modification_id is not None:
            of = change.get(Modification, entry.modification_id)
            if of.job_id != job_id and of.unit_id != job.unit_id and of.transport_id is None:
                wrong["modification_id"] = Sentence("That modification is in another player.")
        if wrong:
            raise FieldRefusal(wrong)
        row = change.add(
            Agreement(
                job_id=job_id,
                kind=entry.kind.value,
                yes=entry.yes,
                what=entry.what.strip(),
                amount=entry.amount.minor if entry.amount is not None else None,
                modification_id=entry.modification_id,
                way=entry.way,
                said_by=" ".join(entry.said_by.split()),
                said_at=entry.said_at or change.now,
                at=change.now,
                by=change.by,
            )
        )
        if job.waiting is Waiting.ANSWER:
            job.waiting = Waiting.NOTHING
    return Done(row.id, change.changes)


def what_was_said(book: Book, job_id: int) -> tuple[SaidLine, ...]:
    """Messages and agreements of a job in the order in which they were said."""
    with book.ask() as session:
        currency = settings_of(session)[CURRENCY]
        lines = [
            SaidLine(
                row.id,
                row.at,
                row.way,
                row.to_customer,
                row.text,
                row.spoke_with,
                None,
                False,
                None,
                None,
                name,
            )
            for row, name in session.execute(
                select(Message, Staff.name)
                .join(Staff, Staff.id == Message.by)
                .where(Message.job_id == job_id)
            )
        ]
        for row, name in session.execute(
            select(Agreement, Staff.name)
            .join(Staff, Staff.id == Agreement.by)
            .where(Agreement.job_id == job_id)
        ):
            lines.append(
                SaidLine(
                    row.id,
                    row.said_at,
                    row.way,
                    False,
                    row.what,
                    row.said_by,
                    AgreementKind(row.kind),
                    row.yes,
                    None if row.amount is None else Money(row.amount, currency),
                    row.modification_id,
                    name,
                )
            )
        return tuple(sorted(lines, key=lambda line: (line.at, line.agreement is not None, line.id)))
