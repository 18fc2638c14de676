"""What was written down when a player was taken in, put right later: history keeps what stood there before."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace

from app.book.door import Book
from app.book.office.shop_settings import settings_of
from app.book.tables import Job
from app.trade.bench.kinds import TransitLock
from app.trade.counter.in_short import first_words
from app.trade.counter.taking_in import Intake, IntakeDay, check_field
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.trade.settings.prices import CURRENCY
from app.work.bench.open_job import open_job
from app.work.shop_book import Done


@dataclass(frozen=True, kw_only=True)
class IntakeChanges:
    """Fields of the job to write anew; None leaves one as it is. The go-ahead limit changes by agreement only."""

    fault: str | None = None
    error_shown: str | None = None
    marks: str | None = None
    smell: str | None = None
    rust: str | None = None
    shelf: str | None = None
    ring_when: str | None = None
    transit_lock: TransitLock | None = None
    opened_before: bool | None = None
    screws_missing: bool | None = None
    goes_by_post: bool | None = None
    parts_returned: bool | None = None


def change_intake(book: Book, who: int, job_id: int, version: int, changes: IntakeChanges) -> Done[None]:
    """Put right what was written down at the counter. Raises FieldRefusal, StaleRow."""
    given = {f.name: value for f in fields(changes) if (value := getattr(changes, f.name)) is not None}
    with book.change(who, Sentence("put right what was written down when taking in")) as change:
        open_job(change, job_id)
        job = change.get(Job, job_id, version=version)
        day = IntakeDay(
            change.today, settings_of(change.session).calendar, settings_of(change.session)[CURRENCY]
        )
        as_typed = replace(Intake(), **given)
        if wrong := {name: why for name in given if (why := check_field(as_typed, name, day))}:
            raise FieldRefusal(wrong)
        for name, value in given.items():
            setattr(job, name, value.strip() if type(value) is str else value)
        if "fault" in given:
            job.fault_short = first_words(job.fault)
    return Done(None, change.changes)


def note_shelf(book: Book, who: int, job_id: int, shelf: str) -> Done[None]:
    """Where the player stands now."""
    with book.change(who, Sentence("put on shelf {shelf}", {"shelf": shelf.strip()})) as change:
        job = open_job(change, job_id)
        day = IntakeDay(change.today, settings_of(change.session).calendar, "")
        if wrong := check_field(Intake(shelf=shelf), "shelf", day):
            raise FieldRefusal({"shelf": wrong})
        job.shelf = shelf.strip()
    return Done(None, change.changes)
