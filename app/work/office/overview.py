"""What needs the owner: money to ask for, cautions to look at, instruments and staff to see to."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import and_, func, or_, select

from app.book.door import Book
from app.book.tables import Customer, Fitting, Flag, Instrument, Job, Staff, Unit
from app.trade.bench.flag import Subject
from app.trade.bench.stages import Stage
from app.trade.sentence import Sentence
from app.work.office.estimate_list import OpenEstimate, open_estimates
from app.work.office.invoice_lists import (
    GoneWithout,
    InvoiceRow,
    ToInvoice,
    gone_without_invoice,
    invoices,
    jobs_to_invoice,
)
from app.work.office.part_orders import orders_late


@dataclass(frozen=True, slots=True)
class OwnerSees:
    """A job in the shop with a caution that the owner has not acknowledged yet."""

    job_id: int
    number: int
    customer: str
    player: str
    words: tuple[Sentence, ...]


@dataclass(frozen=True, slots=True)
class Overview:
    """The Office at one moment."""

    to_invoice: tuple[ToInvoice, ...]
    open_invoices: tuple[InvoiceRow, ...]
    gone: tuple[GoneWithout, ...]
    owner_sees: tuple[OwnerSees, ...]
    instruments_overdue: int
    without_pin: int  # people who work here and cannot sign yet
    estimates: tuple[OpenEstimate, ...] = ()
    orders_late: int = 0  # parts that should have been here


def overview(book: Book) -> Overview:
    """Everything that waits for the owner."""
    today = book.today()
    with book.ask() as session:
        overdue = sum(
            due is not None and due < today
            for due in session.scalars(select(Instrument.due_on).where(Instrument.retired.is_(False)))
        )
        without_pin = session.scalar(
            select(func.count()).select_from(Staff).where(Staff.active, Staff.pin_hash == "")
        )
        late = orders_late(session, today)
    return Overview(
        jobs_to_invoice(book),
        invoices(book, open_only=True),
        gone_without_invoice(book),
        owner_sees(book),
        overdue,
        without_pin or 0,
        open_estimates(book),
        late,
    )


def owner_sees(book: Book) -> tuple[OwnerSees, ...]:
    """Jobs in the shop on which an open caution waits for the owner's word, by number."""
    on_job = and_(Flag.subject == Subject.JOB, Flag.job_id == Job.id)
    on_unit = and_(Flag.subject == Subject.UNIT, Flag.unit_id == Job.unit_id)
    inside = and_(Flag.subject == Subject.TRANSPORT, Flag.transport_id == Fitting.transport_id)
    with book.ask() as session:
        rows = session.execute(
            select(Job.id, Job.number, Customer.name, Unit.maker, Unit.model, Flag.word)
            .join(Customer, Customer.id == Job.customer_id)
            .join(Unit, Unit.id == Job.unit_id)
            .outerjoin(Fitting, and_(Fitting.unit_id == Job.unit_id, Fitting.removed_at.is_(None)))
            .join(Flag, or_(on_job, on_unit, inside))
            .where(
                Job.stage != Stage.HANDED_BACK,
                Flag.owner_sees,
                Flag.cleared_at.is_(None),
                Flag.acknowledged_at.is_(None),
            )
            .order_by(Job.number, Flag.id)
        ).all()
    found: dict[int, OwnerSees] = {}
    for job_id, number, customer, maker, model, word in rows:
        before = found[job_id].words if job_id in found else ()
        words = before if word in before else (*before, word)
        found[job_id] = OwnerSees(job_id, number, customer, f"{maker} {model}".strip(), words)
    return tuple(found.values())
