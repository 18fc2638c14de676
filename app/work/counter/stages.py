"""Where a job stands: moved from stage to stage, waiting for somebody, promised for another day."""

from __future__ import annotations

from datetime import date

from app.book.bench.job_facts import facts_of
from app.book.door import Book, Change
from app.book.office.shop_settings import settings_of
from app.book.tables import Job
from app.trade.bench.facts import JobFacts
from app.trade.bench.gates import Asks
from app.trade.bench.holds import held_by, held_sentence
from app.trade.bench.stages import Outcome, Stage, Waiting, move_refused, said
from app.trade.calendar.promise import check_promise
from app.trade.counter.taking_in import ROOM
from app.trade.refusal import FieldRefusal, Held, Refusal
from app.trade.sentence import Sentence
from app.trade.settings.thresholds import thresholds_of
from app.trade.typed_words import check_typed
from app.work.bench.open_job import open_job
from app.work.shop_book import Done


def set_stage(book: Book, who: int, job_id: int, to: Stage) -> Done[None]:
    """Move a job to another stage. To be ready it must pass its gates; handing back has its own deed.

    Raises Refusal when the move is none, Held with every reason when a stop or gate holds it.
    """
    if to is Stage.HANDED_BACK:
        raise Refusal(
            Sentence("Handing back is written down on its own page."),
            Sentence("Open “Hand back” on the job."),
        )
    with book.change(who, Sentence("stage: {stage}", {"stage": said(to)})) as change:
        job = change.get(Job, job_id)
        if why := move_refused(job.stage, to, job.outcome):
            raise Refusal(why)
        if to is Stage.READY:
            pass_or_hold(change, job, Asks.READY)
            make_ready(change, job)
        elif job.stage is Stage.READY:
            job.ready_at = None
            if job.waiting is Waiting.CUSTOMER:
                job.waiting = Waiting.NOTHING
        job.stage = to
    return Done(None, change.changes)


def pass_or_hold(change: Change, job: Job, asks: Asks, facts: JobFacts | None = None) -> None:
    """Ask stops and gates of the job as it is inside this action. Raises Held with every reason, stops first.

    ``facts`` where the caller has them and nothing was changed since.
    """
    if facts is None:
        change.session.flush()
        facts = facts_of(change.session, job, change.today)
    reasons = held_by(facts, asks, thresholds_of(settings_of(change.session)))
    if reasons:
        raise Held(held_sentence(asks), reasons)


def make_ready(change: Change, job: Job) -> None:
    """The moment at which the job became ready; from here it waits for the customer."""
    job.stage, job.ready_at = Stage.READY, change.now
    if job.waiting is Waiting.NOTHING:
        job.waiting = Waiting.CUSTOMER


def set_waiting(book: Book, who: int, job_id: int, waiting: Waiting) -> Done[None]:
    """Say what the job waits for beside its stage, or that it waits no more."""
    with book.change(who, Sentence("waiting for: {what}", {"what": said(waiting)})) as change:
        open_job(change, job_id).waiting = waiting
    return Done(None, change.changes)


def promise_day(book: Book, who: int, job_id: int, day: date | None, time: str = "") -> Done[None]:
    """Promise another day, or none yet. Raises FieldRefusal for a day that is past or closed."""
    with book.change(who, Sentence("promised another day")) as change:
        job = open_job(change, job_id)
        wrong: dict[str, Sentence] = {}
        if day is not None and day != job.promised_on:
            calendar = settings_of(change.session).calendar
            if why := check_promise(day, change.today, calendar):
                wrong["promised_on"] = why
        if why := check_typed(time, ROOM["promised_time"]):
            wrong["promised_time"] = why
        if wrong:
            raise FieldRefusal(wrong)
        job.promised_on, job.promised_time = day, time.strip() if day is not None else ""
    return Done(None, change.changes)


def set_outcome(book: Book, who: int, job_id: int, outcome: Outcome | None) -> Done[None]:
    """Say how the job ends, while it is still here; what is still to do may depend on it."""
    with book.change(who, Sentence("outcome chosen")) as change:
        open_job(change, job_id).outcome = outcome
    return Done(None, change.changes)
