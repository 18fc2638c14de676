"""The Office's list of what is owed, by age, with the reminders that were printed; and a reminder more."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from zoneinfo import ZoneInfo

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from app.book.bench.job_rows import JobRows
from app.book.door import Book
from app.book.office.billed import pay_by_of
from app.book.office.job_lines import balance
from app.book.tables import Customer, Invoice, Job, Paper, Staff, Unit
from app.papers.invoice_facts import PaymentLine
from app.papers.reminder_facts import ReminderFacts
from app.trade.calendar.promise import local_day
from app.trade.money import Money
from app.trade.office.numbers import invoice_number
from app.trade.office.owed import BY_AGE, AgeClass, Owed, age_class, pay_anew_by, reminder_refused
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence, Value
from app.trade.settings.owed import REMIND_WITHIN, REMINDER_WORDS
from app.trade.settings.papers_and_days import TIME_ZONE
from app.trade.settings.prices import PAY_WITHIN
from app.work.office.invoice_lists import invoices
from app.work.office.invoice_paper import payment_lines, payment_panel
from app.work.office.shop_words import shop_words
from app.work.papers.issuing import issue_paper, preview_paper
from app.work.papers.kinds import Kind
from app.work.papers.sheet_facts import customer_facts, player_facts, sheet_of, wording_of
from app.work.shop_book import Done

AT_ONCE = 10_000  # keys in one question


@dataclass(frozen=True, slots=True)
class OpenItem:
    """An invoice on which money is owed. ``reminded``: how often, ``reminded_on`` when last; ``not_now``: why no
    reminder can be printed today."""

    invoice_id: int
    number: str
    job_id: int
    job_number: int
    customer: str
    issued_on: date
    pay_by: date
    total: Money
    open: Money
    age: AgeClass
    late: int  # days, 0 while it is not
    reminded: int
    reminded_on: date | None
    not_now: Sentence | None


def open_items(book: Book) -> tuple[OpenItem, ...]:
    """What is owed to the shop, the oldest class first, in each the longest late first."""
    today = book.today()
    owed = [row for row in invoices(book, open_only=True) if row.open.minor > 0]
    with book.ask() as session:
        reminded = _reminded(session, [row.id for row in owed], book)
    items = []
    for row in owed:
        count, last = reminded.get(row.id, (0, None))
        items.append(
            OpenItem(
                row.id,
                row.number,
                row.job_id,
                row.job_number,
                row.customer,
                row.issued_on,
                row.pay_by,
                row.asked,
                row.open,
                age_class(row.pay_by, today),
                row.overdue,
                count,
                last,
                reminder_refused(Owed(row.open.minor, row.pay_by, last), today),
            )
        )
    return tuple(sorted(items, key=lambda item: (BY_AGE.index(item.age), item.pay_by, item.job_number)))


def issue_reminder(book: Book, who: int, invoice_id: int) -> Done[int]:
    """Print a reminder of an open invoice: filed with its job, sent by nobody but a person. Gives its paper.

    Raises Refusal where nothing is open, where there is time to pay, or where one was printed today.
    """
    with book.change(who, Sentence("printed a reminder")) as change:
        invoice = change.get(Invoice, invoice_id)
        job = change.get(Job, invoice.job_id)
        change.why = Sentence("printed a reminder of job {number}", {"number": str(job.number)})
        facts = _facts(book, change.session, invoice, change.today, change.by)
        paper = issue_paper(change, job.id, facts, number=facts.invoice, invoice_id=invoice.id)
    return Done(paper.id, change.changes)


def preview_reminder(book: Book, who: int, invoice_id: int) -> bytes:
    """The PDF of the reminder as ``who`` would print it now, with "draft" behind it. Raises Refusal as printing it."""
    with book.ask() as session:
        facts = _facts(book, session, session.get_one(Invoice, invoice_id), book.today(), who)
    return preview_paper(facts)


def _reminded(session: Session, invoices: Sequence[int], book: Book) -> dict[int | None, tuple[int, date]]:
    """How often and when last, by invoice. Asked by the index: the papers of many years are not walked through."""
    found: dict[int | None, tuple[int, date]] = {}
    for start in range(0, len(invoices), AT_ONCE):
        for invoice, count, last in session.execute(
            select(Paper.invoice_id, func.count(), func.max(Paper.issued_at))
            .where(Paper.invoice_id.in_(invoices[start : start + AT_ONCE]), Paper.kind == Kind.REMINDER.value)
            .group_by(Paper.invoice_id)
        ):
            found[invoice] = (count, local_day(last, book.zone))
    return found


def _reminders(session: Session, invoice_id: int, book: Book) -> list[date]:
    """The days of the reminders of an invoice, in their order."""
    found = session.scalars(
        select(Paper.issued_at)
        .where(Paper.kind == Kind.REMINDER.value, Paper.invoice_id == invoice_id)
        .order_by(Paper.id)
    )
    return [local_day(at, book.zone) for at in found]


def _facts(book: Book, session: Session, invoice: Invoice, today: date, by: int) -> ReminderFacts:
    """What a reminder of this invoice says today. Raises Refusal where there is none to print."""
    rows = JobRows(session, session.get_one(Job, invoice.job_id))
    settings = rows.settings
    open_, pay_by = balance(rows), pay_by_of(invoice, settings[PAY_WITHIN])
    earlier = _reminders(session, invoice.id, book)
    if refused := reminder_refused(Owed(open_.minor, pay_by, earlier[-1] if earlier else None), today):
        raise Refusal(refused)
    customer = session.get_one(Customer, rows.job.customer_id)
    number, new_day = (
        invoice_number(invoice.series, invoice.number),
        pay_anew_by(today, settings[REMIND_WITHIN]),
    )
    sheet = sheet_of(book.files, settings, customer)
    values: dict[str, Value] = {
        "invoice": number,
        "issued": invoice.issued_on,
        "pay_by": pay_by,
        "open": open_,
        "new_day": new_day,
    }
    return ReminderFacts(
        sheet=sheet,
        invoice=number,
        job=rows.job.number,
        day=today,
        customer=customer_facts(customer, settings),
        player=player_facts(session, session.get_one(Unit, rows.job.unit_id)),
        issued=invoice.issued_on,
        pay_by=pay_by,
        new_day=new_day,
        total=Money(invoice.gross, invoice.currency),
        balance=open_,
        text=shop_words(settings, REMINDER_WORDS, values, wording_of(sheet)),
        writer=session.get_one(Staff, by).name,
        count=len(earlier) + 1,
        payments=(*payment_lines(rows, ZoneInfo(settings[TIME_ZONE])), *_besides(rows, invoice)),
        panel=payment_panel(settings, number, new_day),
    )


def _besides(rows: JobRows, invoice: Invoice) -> list[PaymentLine]:
    """What else lowers the total to what is open: credit notes, and the rounding of the invoice."""
    lines = [
        PaymentLine(
            Sentence(
                "Credit note {number}, {day}",
                {"number": invoice_number(note.series, note.number), "day": note.issued_on},
            ),
            Money(note.due, note.currency),
        )
        for note in rows.credit_notes
        if note.invoice_id == invoice.id
    ]
    if invoice.rounding:
        lines.append(PaymentLine(Sentence("Rounding"), Money(-invoice.rounding, invoice.currency)))
    return lines
