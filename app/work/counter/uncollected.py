"""Players that are ready and were not collected in time: the list, and a dated notice. Nothing happens by itself."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from app.book.bench.job_rows import JobRows
from app.book.door import Book
from app.book.office.job_lines import balance
from app.book.office.shop_settings import settings_of
from app.book.tables import Customer, Job, Message, Paper, Staff, ThingLeft, Unit
from app.papers.uncollected_notice_facts import UncollectedNoticeFacts
from app.trade.bench.stages import Stage
from app.trade.calendar.promise import local_day
from app.trade.counter.hand_back import LeftKind
from app.trade.counter.things import thing_said
from app.trade.office.uncollected import collect_by, notice_refused, uncollected
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.trade.settings.owed import NOTICE_DAYS, NOTICE_WORDS
from app.trade.settings.terms import STORAGE_WORDS
from app.work.counter.ready_players import days_to_collect, ready_players, waits_of
from app.work.office.shop_words import shop_words
from app.work.papers.issuing import issue_paper, preview_paper
from app.work.papers.kinds import Kind
from app.work.papers.sheet_facts import customer_facts, player_facts, sheet_of, wording_of
from app.work.shop_book import Done


@dataclass(frozen=True, slots=True)
class UncollectedJob:
    """A player that is ready. ``over``: days since the time to collect ended, 0 while it runs; ``not_now``: why
    no notice can be printed today."""

    job_id: int
    number: int
    customer: str
    phone: str
    player: str
    shelf: str
    ready: date
    told: date | None
    collect_by: date
    over: int
    notices: int
    noticed_on: date | None
    not_now: Sentence | None


def uncollected_jobs(book: Book, *, all_ready: bool = False) -> tuple[UncollectedJob, ...]:
    """Players whose time to collect is over, the longest first; with ``all_ready`` those in time as well."""
    today = book.today()
    with book.ask() as session:
        jobs = []
        for found in ready_players(session, book.zone):
            job, unit, waits, days = found.job, found.unit, found.waits, found.days
            if not all_ready and not uncollected(waits, days, today):
                continue
            until = collect_by(waits, days)
            jobs.append(
                UncollectedJob(
                    job.id,
                    job.number,
                    found.customer.name,
                    found.customer.phone,
                    f"{unit.maker} {unit.model}".strip(),
                    job.shelf,
                    waits.ready,
                    waits.told,
                    until,
                    max(0, (today - until).days),
                    found.notices,
                    waits.noticed,
                    notice_refused(waits, days, today),
                )
            )
    return tuple(sorted(jobs, key=lambda job: (job.collect_by, job.number)))


def issue_uncollected_notice(book: Book, who: int, job_id: int) -> Done[int]:
    """Print a notice to collect: filed with the job, with who and when. Gives its paper.

    Raises Refusal for a player that is not ready, that has time left, or of which one was printed today.
    """
    with book.change(who, Sentence("printed a notice to collect")) as change:
        job = change.get(Job, job_id)
        change.why = Sentence("printed a notice to collect job {number}", {"number": str(job.number)})
        facts = _facts(book, change.session, job, change.today, change.by)
        paper = issue_paper(change, job.id, facts, number=str(job.number))
    return Done(paper.id, change.changes)


def preview_uncollected_notice(book: Book, who: int, job_id: int) -> bytes:
    """The PDF of the notice as ``who`` would print it now, with "draft" behind it. Raises Refusal as printing it."""
    with book.ask() as session:
        facts = _facts(book, session, session.get_one(Job, job_id), book.today(), who)
    return preview_paper(facts)


def _notices(session: Session, job_id: int) -> Sequence[datetime]:
    return session.scalars(
        select(Paper.issued_at)
        .where(Paper.kind == Kind.UNCOLLECTED_NOTICE.value, Paper.job_id == job_id)
        .order_by(Paper.id)
    ).all()


def _facts(book: Book, session: Session, job: Job, today: date, by: int) -> UncollectedNoticeFacts:
    """What a notice says today. Raises Refusal where there is none to print."""
    if job.stage is not Stage.READY or job.ready_at is None:
        raise Refusal(Sentence("Only a player that is ready and still here is to be collected."))
    settings = settings_of(session)
    days = days_to_collect(job.storage_days, settings)
    earlier = _notices(session, job.id)
    said = session.scalar(select(func.max(Message.at)).where(Message.job_id == job.id, Message.to_customer))
    waits = waits_of(job.ready_at, said, earlier[-1] if earlier else None, book.zone)
    if refused := notice_refused(waits, days, today):
        raise Refusal(refused)
    customer = session.get_one(Customer, job.customer_id)
    sheet = sheet_of(book.files, settings, customer)
    wording = wording_of(sheet)
    until = today + timedelta(days=settings[NOTICE_DAYS])
    open_ = balance(JobRows(session, job))
    things = session.scalars(
        select(ThingLeft.words)
        .where(ThingLeft.job_id == job.id, ThingLeft.kind == LeftKind.THING, ThingLeft.returned_at.is_(None))
        .order_by(ThingLeft.id)
    )
    return UncollectedNoticeFacts(
        sheet=sheet,
        job=job.number,
        day=today,
        customer=customer_facts(customer, settings),
        player=player_facts(session, session.get_one(Unit, job.unit_id)),
        taken_in=local_day(job.taken_in_at, book.zone),
        ready=waits.ready,
        collect_by=until,
        text=shop_words(
            settings,
            NOTICE_WORDS,
            {"ready": waits.ready, "collect_by": until, "storage_days": days},
            wording,
        ),
        terms=shop_words(settings, STORAGE_WORDS, {"storage_days": days}, wording),
        writer=session.get_one(Staff, by).name,
        told=waits.told,
        earlier=tuple(local_day(at, book.zone) for at in earlier),
        things=tuple(thing_said(words) for words in things),
        open=open_ if open_.minor > 0 else None,
    )
