"""Customers: matched while typing, written, looked up, and made one where two stand for one person."""

from __future__ import annotations

from dataclasses import dataclass, fields
from datetime import datetime

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from app.book.door import Book, Change
from app.book.find.lookup import ids_by_words
from app.book.office.shop_settings import settings_of
from app.book.tables import Customer, Job, Unit
from app.trade.bench.stages import MainsClass, Outcome, Stage
from app.trade.people.customer import CustomerForm, check_customer
from app.trade.people.phone import normal
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.trade.settings.shop import CALLING_CODE
from app.work.people.phone_matches import has_figures, ids_by_phone
from app.work.shop_book import Done


@dataclass(frozen=True, slots=True)
class CustomerMatch:
    """A customer as offered while typing."""

    id: int
    name: str
    phone: str
    city: str
    since: datetime
    jobs: int


@dataclass(frozen=True, slots=True)
class CustomerJob:
    """One job of a customer."""

    id: int
    number: int
    player: str
    fault: str
    stage: Stage
    outcome: Outcome | None
    taken_in_at: datetime
    handed_back_at: datetime | None


@dataclass(frozen=True, slots=True)
class CustomerUnit:
    """One player of a customer."""

    id: int
    maker: str
    model: str
    serial: str
    serial_unreadable: bool
    mains_class: MainsClass


@dataclass(frozen=True, slots=True)
class CustomerCard:
    """Everything that the page of a customer shows. ``merged_into`` names the card that stands for this one."""

    id: int
    version: int
    form: CustomerForm
    since: datetime
    jobs: tuple[CustomerJob, ...]
    units: tuple[CustomerUnit, ...]
    merged_into: int | None
    stands_for: tuple[str, ...]  # names of cards that were merged into this one
    erased: bool


def match_customers(
    book: Book, *, name: str = "", phone: str = "", limit: int = 8
) -> tuple[CustomerMatch, ...]:
    """Customers that what is typed so far may mean, the most recent first. By number when there is one."""
    with book.ask() as session:
        ids: list[int] = []
        if has_figures(phone):
            ids = ids_by_phone(session, phone, limit)
        elif len(name.strip()) > 1:
            ids = ids_by_words(session, name, ("customer",), limit)["customer"]
        return _matches(session, ids)


def _matches(session: Session, ids: list[int]) -> tuple[CustomerMatch, ...]:
    if not ids:
        return ()
    counted = (
        select(Job.customer_id, func.count().label("jobs"))
        .where(Job.customer_id.in_(ids))
        .group_by(Job.customer_id)
        .subquery()
    )
    rows = {
        row.id: CustomerMatch(row.id, row.name, row.phone, row.city, row.created_at, jobs or 0)
        for row, jobs in session.execute(
            select(Customer, counted.c.jobs)
            .outerjoin(counted, counted.c.customer_id == Customer.id)
            .where(Customer.id.in_(ids), Customer.merged_into_id.is_(None))
        )
    }
    return tuple(rows[i] for i in ids if i in rows)


def customer_card(book: Book, customer_id: int) -> CustomerCard:
    """The card of one customer with jobs, newest first, and players."""
    with book.ask() as session:
        row = session.get_one(Customer, customer_id)
        jobs = tuple(
            CustomerJob(
                id=job.id,
                number=job.number,
                player=f"{unit.maker} {unit.model}".strip(),
                fault=job.fault_short or job.fault,
                stage=job.stage,
                outcome=job.outcome,
                taken_in_at=job.taken_in_at,
                handed_back_at=job.handed_back_at,
            )
            for job, unit in session.execute(
                select(Job, Unit)
                .join(Unit, Unit.id == Job.unit_id)
                .where(Job.customer_id == customer_id)
                .order_by(Job.number.desc())
            )
        )
        units = tuple(
            CustomerUnit(
                unit.id, unit.maker, unit.model, unit.serial, unit.serial_unreadable, unit.mains_class
            )
            for unit in session.scalars(
                select(Unit).where(Unit.customer_id == customer_id).order_by(Unit.maker, Unit.model, Unit.id)
            )
        )
        return CustomerCard(
            id=row.id,
            version=row.version,
            form=form_of(row),
            since=row.created_at,
            jobs=jobs,
            units=units,
            merged_into=row.merged_into_id,
            stands_for=tuple(
                session.scalars(select(Customer.name).where(Customer.merged_into_id == customer_id))
            ),
            erased=row.erased_at is not None,
        )


def form_of(row: Customer) -> CustomerForm:
    """What the card of a row holds, to be written anew."""
    return CustomerForm(**{field.name: getattr(row, field.name) for field in fields(CustomerForm)})


def add_customer(book: Book, who: int, form: CustomerForm) -> Done[int]:
    """A new card. Raises FieldRefusal. Gives the id."""
    form = _checked(form)
    with book.change(who, Sentence("wrote a customer's card")) as change:
        row = new_customer(change, form)
    return Done(row.id, change.changes)


def edit_customer(book: Book, who: int, customer_id: int, version: int, form: CustomerForm) -> Done[None]:
    """Write a card anew. Raises FieldRefusal, StaleRow when somebody saved in between."""
    form = _checked(form)
    with book.change(who, Sentence("changed a customer's card")) as change:
        row = _living(change, customer_id, version)
        write_form(change, row, form)
    return Done(None, change.changes)


def new_customer(change: Change, form: CustomerForm) -> Customer:
    """The row of a new card, inside an action; ``form`` was checked."""
    row = Customer(name=form.name, created_at=change.now)
    write_form(change, row, form)
    return change.add(row)


def write_form(change: Change, row: Customer, form: CustomerForm) -> None:
    """Put what was typed into the row, with the number's normal form beside it."""
    for field in fields(form):
        if getattr(row, field.name) != getattr(form, field.name):
            setattr(row, field.name, getattr(form, field.name))
    row.phone_digits = normal(form.phone, settings_of(change.session)[CALLING_CODE])


def merge_customers(
    book: Book, who: int, keep_id: int, keep_version: int, other_id: int, other_version: int
) -> Done[None]:
    """Make two cards one: jobs and players of the other go to ``keep``; what ``keep`` lacks is taken over.

    The other card stays with what it said and points to the one that stands for both. Both notes are kept.
    Raises Refusal for one and the same card or one that is merged or erased, StaleRow.
    """
    if keep_id == other_id:
        raise Refusal(Sentence("That is one and the same card."))
    with book.change(who, Sentence("made two customers' cards one")) as change:
        keep, other = _living(change, keep_id, keep_version), _living(change, other_id, other_version)
        for field in fields(CustomerForm):
            if field.name != "note" and not getattr(keep, field.name):
                setattr(keep, field.name, getattr(other, field.name))
        keep.note = "\n".join(
            dict.fromkeys(note for note in (keep.note, other.note, _said_otherwise(keep, other)) if note)
        )
        keep.phone_digits = normal(keep.phone, settings_of(change.session)[CALLING_CODE])
        keep.created_at = min(keep.created_at, other.created_at)
        for job in change.session.scalars(select(Job).where(Job.customer_id == other_id)):
            job.customer_id = keep_id
        for unit in change.session.scalars(select(Unit).where(Unit.customer_id == other_id)):
            unit.customer_id = keep_id
        for former in change.session.scalars(select(Customer).where(Customer.merged_into_id == other_id)):
            former.merged_into_id = keep_id
        other.merged_into_id = keep_id
    return Done(None, change.changes)


def _said_otherwise(keep: Customer, other: Customer) -> str:
    """Telephone and e-mail of the other card where they differ, so that they stay in sight."""
    lines = [
        getattr(other, field)
        for field in ("phone", "email")
        if getattr(other, field) and getattr(other, field) != getattr(keep, field)
    ]
    return ", ".join(lines)


def _living(change: Change, customer_id: int, version: int | None) -> Customer:
    row = change.get(Customer, customer_id, version=version)
    if row.merged_into_id is not None:
        raise Refusal(
            Sentence("This card was merged into another one."),
            Sentence("Open the card that stands for both."),
        )
    if row.erased_at is not None:
        raise Refusal(Sentence("The data of this person were erased."))
    return row


def _checked(form: CustomerForm) -> CustomerForm:
    form = CustomerForm(
        **{
            field.name: getattr(form, field.name).strip()
            if field.name in ("street", "note")
            else " ".join(getattr(form, field.name).split())
            for field in fields(form)
        }
    )
    if wrong := check_customer(form):
        raise FieldRefusal(wrong)
    return form
