"""Parts ordered from a supplier: written down, come in as a bought move, expected later, given up."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from typing import Any

from sqlalchemy import Select, and_, case, func, select
from sqlalchemy.orm import Session

from app.book.door import Book, Change
from app.book.office.part_orders import came_of_orders, still_to_come
from app.book.office.shop_settings import settings_of
from app.book.tables import Job, Part, PartOrder, Staff
from app.trade.bench.stages import Stage, Waiting
from app.trade.money import MICRO
from app.trade.office.part_orders import Ordered, OrderState, expected_refused, order_refused
from app.trade.office.stock import MoveKind, quantity_refused
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.trade.settings.parts import LEAD_DAYS
from app.trade.typed_words import check_typed
from app.work.office.parts import NAME_ROOM, pieces
from app.work.office.stock import NOTE_ROOM, move_part, wrong_note
from app.work.shop_book import Done


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderEntry:
    """What is ordered. None: the part's own supplier, today, and the day that follows from the supplier's time.

    ``job`` is the number that people say, of the job that waits for the part.
    """

    part_id: int
    quantity: Decimal
    supplier: str | None = None
    ordered_on: date | None = None
    expected_on: date | None = None
    job: int | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class OrderLine:
    """An order with what came of it. ``job`` is the number that people say, ``unit`` what the part is counted by."""

    id: int
    version: int
    part_id: int
    code: str
    words: str
    unit: str
    bin: str
    supplier: str
    ordered_on: date
    ordered: Ordered
    days_late: int
    job_id: int | None
    job: int | None
    note: str
    by: str
    reason: str  # why the rest was given up

    @property
    def state(self) -> OrderState:
        """What became of it."""
        return self.ordered.state


def part_orders(
    book: Book, *, part_id: int | None = None, job_id: int | None = None, open_only: bool = False
) -> tuple[OrderLine, ...]:
    """Orders, what is expected first above; of one part or for one job. ``open_only``: those still to come."""
    with book.ask() as session:
        asked = _orders()
        if part_id is not None:
            asked = asked.where(PartOrder.part_id == part_id)
        if job_id is not None:
            asked = asked.where(PartOrder.job_id == job_id)
        today = book.today()
        found: Any = session.execute(asked)  # what was joined from outside may be missing
        lines = [_line(row, today) for row in found]
    return tuple(line for line in lines if line.ordered.to_come or not open_only)


def order_part(book: Book, who: int, entry: OrderEntry) -> Done[int]:
    """Write down one order. Raises FieldRefusal by the fields of the entry."""
    with book.change(who, Sentence("ordered parts")) as change:
        row = _order(change, entry)
    return Done(row.id, change.changes)


def order_parts(book: Book, who: int, entries: Sequence[OrderEntry]) -> Done[tuple[int, ...]]:
    """Write down the orders of a whole list in one action, all or none. Raises as `order_part` does."""
    with book.change(who, Sentence("ordered parts")) as change:
        keys = tuple(_order(change, entry).id for entry in entries)
    return Done(keys, change.changes)


def receive_order(book: Book, who: int, order_id: int, quantity: Decimal, *, note: str = "") -> Done[int]:
    """Put into stock what came of an order, whole or in part, as a bought move that names it.

    A job that waited for nothing but parts waits no longer once the last of its orders is here. Raises
    FieldRefusal under ``quantity`` and ``note``, Refusal for an order that was given up.
    """
    with book.change(who, Sentence("received ordered parts")) as change:
        order = change.get(PartOrder, order_id)
        wrong = wrong_note(note)
        if refused := quantity_refused(MoveKind.RECEIVED, quantity, Decimal(0)):
            wrong["quantity"] = refused
        if wrong:
            raise FieldRefusal(wrong)
        _not_given_up(order)
        part = change.get(Part, order.part_id)
        micro = int(quantity * MICRO)
        row = move_part(change, part, MoveKind.RECEIVED, micro, order_id=order.id, note=note)
        if order.job_id is not None:
            change.touched.jobs.add(order.job_id)
            _waits_no_longer(change, change.get(Job, order.job_id))
    return Done(row.id, change.changes)


def expect_order(book: Book, who: int, order_id: int, expected_on: date, *, version: int) -> Done[None]:
    """Say that an order is expected on another day. Raises FieldRefusal, StaleRow, Refusal as `receive_order`."""
    with book.change(who, Sentence("an order is expected on another day")) as change:
        order = change.get(PartOrder, order_id, version=version)
        _not_given_up(order)
        if why := expected_refused(order.ordered_on, expected_on):
            raise FieldRefusal({"expected_on": why})
        order.expected_on = expected_on
    return Done(None, change.changes)


def give_up_order(book: Book, who: int, order_id: int, reason: str) -> Done[None]:
    """What has not come of an order comes no more, with the reason; what came stays. Raises FieldRefusal, Refusal."""
    with book.change(who, Sentence("gave up an order")) as change:
        order = change.get(PartOrder, order_id)
        _not_given_up(order)
        why = check_typed(reason, NOTE_ROOM)
        if not reason.strip():
            why = Sentence("Say why it comes no more.")
        if why:
            raise FieldRefusal({"reason": why})
        order.given_up_at, order.given_up_by, order.given_up_reason = change.now, change.by, reason.strip()
    return Done(None, change.changes)


def orders_late(session: Session, today: date) -> int:
    """How many orders should have been here before today."""
    came = came_of_orders()
    late = (
        select(func.count())
        .select_from(PartOrder)
        .outerjoin(came, came.c.order_id == PartOrder.id)
        .where(*still_to_come(came), PartOrder.expected_on < today)
    )
    return session.scalar(late) or 0


def _orders() -> Select[Any]:
    """What is still to come stands before what is over, and there what is expected first."""
    came = came_of_orders()
    return (
        select(PartOrder, Part, came.c.came, Job.number, Staff.name)
        .join(Part, Part.id == PartOrder.part_id)
        .join(Staff, Staff.id == PartOrder.by)
        .outerjoin(came, came.c.order_id == PartOrder.id)
        .outerjoin(Job, Job.id == PartOrder.job_id)
        .order_by(case((and_(*still_to_come(came)), 0), else_=1), PartOrder.expected_on, PartOrder.id)
    )


def _line(found: Any, today: date) -> OrderLine:
    row, part, came, job, by = found
    ordered = Ordered(
        pieces(row.quantity), pieces(came or 0), row.expected_on, given_up=row.given_up_at is not None
    )
    return OrderLine(
        id=row.id,
        version=row.version,
        part_id=part.id,
        code=part.code,
        words=part.words,
        unit=part.unit,
        bin=part.bin or "",
        supplier=row.supplier,
        ordered_on=row.ordered_on,
        ordered=ordered,
        days_late=ordered.days_late(today),
        job_id=row.job_id,
        job=job,
        note=row.note,
        by=by,
        reason=row.given_up_reason,
    )


def _order(change: Change, entry: OrderEntry) -> PartOrder:
    part = change.get(Part, entry.part_id)
    days = part.lead_days or settings_of(change.session)[LEAD_DAYS]
    ordered_on = entry.ordered_on or change.today
    expected_on = entry.expected_on or min(ordered_on, change.today) + timedelta(days=days)
    supplier = (part.supplier or "") if entry.supplier is None else entry.supplier
    wrong = {**order_refused(entry.quantity, ordered_on, expected_on, change.today), **wrong_note(entry.note)}
    if part.retired:
        wrong["part"] = Sentence("{code} is no longer kept.", {"code": part.code})
    if why := check_typed(supplier, NAME_ROOM):
        wrong["supplier"] = why
    job = None
    if entry.job is not None:
        job = change.session.scalars(select(Job).where(Job.number == entry.job)).one_or_none()
        if job is None:
            wrong["job"] = Sentence("No job has this number.")
        elif job.stage is Stage.HANDED_BACK:
            wrong["job"] = Sentence("This player was handed back.")
    if wrong:
        raise FieldRefusal(wrong)
    if job is not None and job.waiting is Waiting.NOTHING:
        job.waiting = Waiting.PART
    return change.add(
        PartOrder(
            part_id=part.id,
            job_id=None if job is None else job.id,
            quantity=int(entry.quantity * MICRO),
            supplier=supplier.strip(),
            ordered_on=ordered_on,
            expected_on=expected_on,
            note=entry.note.strip(),
            at=change.now,
            by=change.by,
        )
    )


def _not_given_up(order: PartOrder) -> None:
    if order.given_up_at is not None:
        raise Refusal(
            Sentence("This order was given up already."),
            Sentence("Write down a new one if it is ordered again."),
        )


def _waits_no_longer(change: Change, job: Job) -> None:
    """The job goes on once nothing that was ordered for it is still to come."""
    if job.waiting is not Waiting.PART:
        return
    came = came_of_orders()
    open_still = (
        select(func.count())
        .select_from(PartOrder)
        .outerjoin(came, came.c.order_id == PartOrder.id)
        .where(PartOrder.job_id == job.id, *still_to_come(came))
    )
    if not change.session.scalar(open_still):
        job.waiting = Waiting.NOTHING
