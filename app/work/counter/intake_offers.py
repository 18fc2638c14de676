"""What the taking-in page offers: the number to come, the day to promise, lists that complete while typing."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from sqlalchemy import func, select

from app.book.door import Book
from app.book.office.shop_settings import settings_of
from app.book.tables import Job, NumberSeries, TransportType, Unit
from app.trade.bench.kinds import Arrangement
from app.trade.bench.stages import Stage
from app.trade.counter.taking_in import IntakeDay
from app.trade.money import MICRO, Money, decimals
from app.trade.refusal import Refusal
from app.trade.settings.papers_and_days import PROMISE_DAYS
from app.trade.settings.prices import CURRENCY, DIAGNOSIS_FEE
from app.trade.settings.terms import FIRST_JOB
from app.work.counter.taking_in import SERIES

MOST = 400  # of each list


@dataclass(frozen=True, slots=True)
class TypeOffer:
    """A transport type that can be chosen."""

    id: int
    name: str
    arrangement: Arrangement
    has_transit_lock: bool


@dataclass(frozen=True, slots=True)
class IntakeOffers:
    """``number`` is what the job will have if nobody else takes one in first. ``promised`` None: no open day."""

    number: int
    day: IntakeDay
    promised: date | None
    diagnosis_fee: Money | None
    players: tuple[tuple[str, str], ...]  # maker and model, the commonest first
    transport_types: tuple[TypeOffer, ...]
    shelves: tuple[str, ...]  # free or not, as written on jobs in the shop


def intake_offers(book: Book) -> IntakeOffers:
    """Everything that the empty form needs."""
    with book.ask() as session:
        settings = settings_of(session)
        currency = settings[CURRENCY]
        day = IntakeDay(book.today(), settings.calendar, currency)
        number = session.scalar(select(NumberSeries.next).where(NumberSeries.name == SERIES))
        fee = settings[DIAGNOSIS_FEE]
        players = session.execute(
            select(Unit.maker, Unit.model)
            .group_by(Unit.maker, Unit.model)
            .order_by(func.count().desc(), Unit.maker, Unit.model)
            .limit(MOST)
        )
        shelves = session.scalars(
            select(Job.shelf).where(Job.stage != Stage.HANDED_BACK, Job.shelf != "").distinct().limit(MOST)
        )
        return IntakeOffers(
            number=number or settings[FIRST_JOB],
            day=day,
            promised=_promise(day, settings[PROMISE_DAYS]),
            diagnosis_fee=Money(fee // (MICRO // 10 ** decimals(currency)), currency) if fee else None,
            players=tuple((maker, model) for maker, model in players),
            transport_types=tuple(
                TypeOffer(row.id, row.name, row.arrangement, row.has_transit_lock)
                for row in session.scalars(
                    select(TransportType).where(~TransportType.retired).order_by(TransportType.name)
                )
            ),
            shelves=tuple(sorted(shelves)),
        )


def _promise(day: IntakeDay, working_days: int) -> date | None:
    try:
        return day.calendar.after(day.today, working_days)
    except Refusal:  # a calendar without an open day: nothing is promised
        return None
