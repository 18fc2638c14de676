"""Taking a player in: one action writes who, what, which fault and what was agreed, and issues the ticket."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import Any

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from app.book.bench.job_facts import facts_of
from app.book.door import Book, Change
from app.book.find.lookup import ids_by_tail
from app.book.office.shop_settings import settings_of
from app.book.tables import (
    Customer,
    Fitting,
    Job,
    Payment,
    ReportedFault,
    ThingLeft,
    Transport,
    Unit,
)
from app.trade.bench.comeback import comeback_proposal
from app.trade.bench.kinds import ComebackStanding, Means
from app.trade.bench.stages import MainsClass, Stage, Waiting
from app.trade.counter.hand_back import LeftKind
from app.trade.counter.in_short import first_words
from app.trade.counter.taking_in import Intake, IntakeDay, check_intake, missing_in
from app.trade.find.fold import SHORTEST_TAIL
from app.trade.people.customer import CustomerForm, may_be_one
from app.trade.people.phone import normal
from app.trade.people.serial import serial_key
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.trade.settings.prices import CURRENCY
from app.trade.settings.shop import CALLING_CODE
from app.trade.settings.shop_settings import ShopSettings
from app.trade.settings.terms import COMEBACK_WINDOW, FIRST_JOB, STORAGE_DAYS
from app.work.counter.former_jobs import former_jobs
from app.work.counter.known_unit import unit_with_serial
from app.work.papers.intake_ticket import intake_ticket_facts
from app.work.papers.issuing import issue_paper
from app.work.people.customers import form_of, new_customer, write_form
from app.work.shop_book import Done

SERIES = "job"
MOST_ALIKE = 200  # transports whose marking ends in the one typed

# Fields of the form that stand on the customer's card.
CARD_FIELDS = ("name", "phone", "email", "street", "postcode", "city", "country", "ring_when")


@dataclass(frozen=True, slots=True)
class Received:
    """The new job, and the paper that goes with it. ``ticket_id`` 0: none was wanted."""

    job_id: int
    number: int
    customer_id: int
    unit_id: int
    ticket_id: int


def receive_unit(book: Book, who: int, intake: Intake, *, ticket: bool = True) -> Done[Received]:
    """Take a player in. Customer and unit are found or made, the job gets the next number, the ticket is issued.

    ``ticket`` False issues none: for jobs that are copied from older records. Raises FieldRefusal for what cannot be right or is missing, Refusal when the player is in the shop already
    or its transport is in another one.
    """
    intake = _tidied(intake)
    with book.change(who, Sentence("took in a player")) as change:
        settings = settings_of(change.session)
        day = IntakeDay(change.today, settings.calendar, settings[CURRENCY])
        if wrong := {**missing_in(intake), **check_intake(intake, day)}:
            raise FieldRefusal(wrong)
        customer = _customer(change, intake, settings)
        unit = _unit(change, intake, customer)
        _not_here_already(change.session, unit)
        number = change.next_number(SERIES, settings[FIRST_JOB])
        change.why = Sentence("took in job {number}", {"number": str(number)})
        job = change.add(_job(change, intake, number, customer, unit))
        _transport(change, intake, unit, job)
        _belongings(change, intake, job, day.currency)
        _comeback(change, intake, job, settings)
        ticket_id = _ticket(change, book, job, number) if ticket else 0
    return Done(Received(job.id, number, customer.id, unit.id, ticket_id), change.changes)


def _ticket(change: Change, book: Book, job: Job, number: int) -> int:
    change.session.flush()
    rules = facts_of(change.session, job, change.today)
    facts = intake_ticket_facts(change.session, book.files, job, rules)
    return issue_paper(change, job.id, facts, number=str(number)).id


def _tidied(intake: Intake) -> Intake:
    """Spaces at the ends and doubled ones away; texts of several lines keep their lines."""
    changes: dict[str, Any] = {}
    for field in fields(intake):
        value = getattr(intake, field.name)
        if type(value) is not str:  # words of an enumeration are texts too, and stay as they are
            continue
        if field.name in ("street", "fault", "marks"):
            changes[field.name] = "\n".join(line.rstrip() for line in value.strip().splitlines())
        else:
            changes[field.name] = " ".join(value.split())
    things = tuple(" ".join(thing.split()) for thing in intake.came_with)
    return replace(intake, **changes, came_with=tuple(dict.fromkeys(things)))


def _customer(change: Change, intake: Intake, settings: ShopSettings) -> Customer:
    typed = {field: getattr(intake, field) for field in CARD_FIELDS}
    key = intake.customer_id or _same_person(change.session, intake, settings)
    if key is None:
        return new_customer(change, CustomerForm(**typed))
    row = change.get(Customer, key)
    while row.merged_into_id is not None:
        row = change.get(Customer, row.merged_into_id)
    if row.erased_at is not None:
        raise Refusal(Sentence("The data of this person were erased."), Sentence("Write a new card."))
    # What stands on the form goes onto the card; what was left empty there is not a wish to blank it.
    write_form(change, row, replace(form_of(row), **{f: value for f, value in typed.items() if value}))
    return row


def _same_person(session: Session, intake: Intake, settings: ShopSettings) -> int | None:
    code = settings[CALLING_CODE]
    digits = normal(intake.phone, code)
    if not digits:
        return None
    for row in session.scalars(
        select(Customer).where(Customer.phone_digits == digits, Customer.merged_into_id.is_(None))
    ):
        if may_be_one(intake.name, intake.phone, row.name, row.phone, code):
            return row.id
    return None


def _unit(change: Change, intake: Intake, customer: Customer) -> Unit:
    key = intake.unit_id or unit_with_serial(change.session, intake.serial, intake.maker, intake.model)
    row = change.get(Unit, key) if key is not None else None
    if row is None:
        return change.add(
            Unit(
                maker=intake.maker,
                model=intake.model,
                serial=intake.serial,
                serial_key=serial_key(intake.serial),
                serial_unreadable=intake.serial_unreadable,
                mains_class=intake.mains_class,
                mains_voltage=intake.mains_voltage,
                look=intake.look,
                customer_id=customer.id,
                created_at=change.now,
            )
        )
    for field in ("maker", "model", "look", "mains_voltage"):
        if (typed := getattr(intake, field)) and typed != getattr(row, field):
            setattr(row, field, typed)
    if intake.serial and intake.serial != row.serial:
        row.serial, row.serial_key, row.serial_unreadable = intake.serial, serial_key(intake.serial), False
    if intake.mains_class not in (MainsClass.NOT_KNOWN, row.mains_class):
        row.mains_class = intake.mains_class
    if row.customer_id != customer.id:
        row.customer_id = customer.id
    return row


def _not_here_already(session: Session, unit: Unit) -> None:
    here = session.scalar(select(Job.number).where(Job.unit_id == unit.id, Job.stage != Stage.HANDED_BACK))
    if here is not None:
        raise Refusal(
            Sentence("This player is in the shop already, as job {number}.", {"number": str(here)}),
            Sentence("Open that job, or look whether the serial number is right."),
        )


def _job(change: Change, intake: Intake, number: int, customer: Customer, unit: Unit) -> Job:
    return Job(
        number=number,
        unit_id=unit.id,
        customer_id=customer.id,
        stage=Stage.TAKEN_IN,
        waiting=Waiting.NOTHING,
        taken_in_at=change.now,
        taken_in_by=change.by,
        promised_on=intake.promised_on,
        promised_time=intake.promised_time,
        fault=intake.fault,
        fault_short=first_words(intake.fault),
        error_shown=intake.error_shown,
        marks=intake.marks,
        opened_before=intake.opened_before,
        screws_missing=intake.screws_missing,
        goes_by_post=intake.goes_by_post,
        transit_lock=intake.transit_lock,
        smell=intake.smell,
        rust=intake.rust,
        shelf=intake.shelf,
        ring_when=intake.ring_when or customer.ring_when,
        parts_returned=bool(intake.parts_returned),
        go_ahead_limit=intake.go_ahead_limit.minor if intake.go_ahead_limit else None,
        diagnosis_fee=intake.diagnosis_fee.minor if intake.diagnosis_fee else None,
        diagnosis_fee_told=intake.diagnosis_fee_told,
        storage_days=settings_of(change.session)[STORAGE_DAYS],
    )


def _transport(change: Change, intake: Intake, unit: Unit, job: Job) -> None:
    """What was seen inside: the fitting stays when it is the same transport, else it is closed and one opened."""
    if intake.transport_type_id is None:
        return
    session, marking = change.session, intake.transport_serial
    fitting = session.scalars(
        select(Fitting).where(Fitting.unit_id == unit.id, Fitting.removed_at.is_(None))
    ).first()
    inside = change.get(Transport, fitting.transport_id) if fitting else None
    if inside is not None and inside.type_id == intake.transport_type_id:
        if not marking or serial_key(marking) == serial_key(inside.marking):
            return
        if not inside.marking:
            inside.marking = marking
            return
    if fitting is not None:  # somebody outside has changed it since
        fitting.removed_at, fitting.removed_job_id = change.now, job.id
        session.flush()
    transport = _known_transport(session, intake.transport_type_id, marking)
    if transport is None:
        transport = change.add(
            Transport(type_id=intake.transport_type_id, marking=marking, created_at=change.now)
        )
    transport.shelf = ""
    change.add(
        Fitting(transport_id=transport.id, unit_id=unit.id, fitted_at=change.now, fitted_job_id=job.id)
    )


def _known_transport(session: Session, type_id: int, marking: str) -> Transport | None:
    """The transport of this type with this marking, however it is spaced; found by the search index."""
    key = serial_key(marking)
    if not key:
        return None
    of_type = select(Transport).where(Transport.type_id == type_id, Transport.marking != "")
    if len(key) >= SHORTEST_TAIL:
        ids = ids_by_tail(session, key, ("transport",), MOST_ALIKE)["transport"]
        of_type = of_type.where(Transport.id.in_(ids))
    else:
        of_type = of_type.where(func.length(Transport.marking) <= 2 * SHORTEST_TAIL)
    return next((row for row in session.scalars(of_type) if serial_key(row.marking) == key), None)


def _belongings(change: Change, intake: Intake, job: Job, currency: str) -> None:
    for fault in intake.faults:
        change.session.add(ReportedFault(job_id=job.id, word=fault.word.value, how=fault.how))
    for thing in intake.came_with:
        change.session.add(ThingLeft(job_id=job.id, kind=LeftKind.THING.value, words=thing))
    if intake.disc_inside:
        change.session.add(ThingLeft(job_id=job.id, kind=LeftKind.DISC.value, words=intake.disc_inside))
    if intake.deposit is not None and intake.deposit.minor > 0:
        change.session.add(
            Payment(
                job_id=job.id,
                kind="deposit",
                amount=intake.deposit.minor,
                currency=currency,
                means=intake.deposit_means or Means.CASH,
                at=change.now,
                by=change.by,
            )
        )


def _comeback(change: Change, intake: Intake, job: Job, settings: ShopSettings) -> None:
    """Accepted at the counter, denied with a reason, or left as the book's proposal."""
    session = change.session
    former = former_jobs(session, job.unit_id, change.zone)
    if intake.comeback_of_id is not None:
        accepted = change.get(Job, intake.comeback_of_id)
        if accepted.number not in {one.job for one in former}:
            raise FieldRefusal(
                {"comeback_of_id": Sentence("That is no earlier job of this player that was handed back.")}
            )
        job.comeback_of_id, job.comeback = accepted.id, ComebackStanding.CONFIRMED
        return
    proposal = comeback_proposal(former, intake.faults, settings[COMEBACK_WINDOW], change.today)
    if proposal is None:
        return
    job.comeback_of_id = session.scalar(select(Job.id).where(Job.number == proposal.job))
    job.comeback = ComebackStanding.DENIED if intake.comeback_denied else ComebackStanding.PROPOSED
    job.comeback_reason = intake.comeback_denied
