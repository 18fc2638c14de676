"""Players that are ready and wait to be collected: since when, what was said since, how often a notice was printed.

Asked at every start of the window: nothing that prints papers is loaded here.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, tzinfo
from typing import Any

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from app.book.door import Book
from app.book.office.shop_settings import settings_of
from app.book.tables import Customer, Job, Message, Paper, Unit
from app.papers.paper_kind import PaperKind
from app.trade.bench.stages import Stage
from app.trade.calendar.promise import local_day
from app.trade.office.uncollected import Waits, uncollected
from app.trade.settings.shop_settings import ShopSettings
from app.trade.settings.terms import STORAGE_DAYS

_READY = (Job.stage == Stage.READY, Job.ready_at.is_not(None))
_SAID = select(func.max(Message.at)).where(Message.job_id == Job.id, Message.to_customer).scalar_subquery()
_NOTICES = (Paper.job_id == Job.id, Paper.kind == PaperKind.UNCOLLECTED_NOTICE.value)
_OFTEN = select(func.count()).select_from(Paper).where(*_NOTICES).scalar_subquery()
_NOTICED = select(func.max(Paper.issued_at)).where(*_NOTICES).scalar_subquery()


@dataclass(frozen=True, slots=True)
class ReadyPlayer:
    """A player that waits, as rows; to be used inside the question only."""

    job: Any
    customer: Any
    unit: Any
    waits: Waits
    notices: int
    days: int  # to collect within


def ready_players(session: Session, zone: tzinfo) -> Iterator[ReadyPlayer]:
    """Every player that is ready and still here."""
    settings = settings_of(session)
    for job, customer, unit, said, often, last in session.execute(
        select(Job, Customer, Unit, _SAID, _OFTEN, _NOTICED)
        .join(Customer, Customer.id == Job.customer_id)
        .join(Unit, Unit.id == Job.unit_id)
        .where(*_READY)
    ):
        waits = waits_of(job.ready_at, said, last, zone)
        yield ReadyPlayer(job, customer, unit, waits, often, days_to_collect(job.storage_days, settings))


def count_uncollected(session: Session, book: Book) -> int:
    """How many players were not collected in time."""
    settings, today = settings_of(session), book.today()
    return sum(
        uncollected(waits_of(ready, said, None, book.zone), days_to_collect(days, settings), today)
        for ready, days, said in session.execute(select(Job.ready_at, Job.storage_days, _SAID).where(*_READY))
        if ready is not None
    )


def days_to_collect(of_the_job: int | None, settings: ShopSettings) -> int:
    """How long a player is kept: as its ticket said, and where that was not kept, as the settings have it."""
    return settings[STORAGE_DAYS] if of_the_job is None else of_the_job


def waits_of(ready: datetime, said: datetime | None, noticed: datetime | None, zone: tzinfo) -> Waits:
    """A word to the customer from before the player was ready told nobody that it is."""
    told = None if said is None or said < ready else local_day(said, zone)
    return Waits(local_day(ready, zone), told, None if noticed is None else local_day(noticed, zone))
