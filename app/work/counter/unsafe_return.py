"""The one way past an open safety stop: the owner decides that a customer's own player goes back unsafe."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import select

from app.book.bench.job_facts import facts_of
from app.book.door import Book
from app.book.office.shop_settings import settings_of
from app.book.tables import UnsafeReturnKept
from app.trade.bench.facts import JobFacts
from app.trade.bench.holds import unsafe_return_refused, unsafe_stops
from app.trade.bench.modifications import live
from app.trade.bench.stages import Mark, Outcome
from app.trade.bench.thresholds import Thresholds
from app.trade.counter.hand_back import REASON_ROOM
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.trade.settings.thresholds import thresholds_of
from app.trade.typed_words import check_typed
from app.work.bench.open_job import open_job
from app.work.papers.issuing import issue_paper
from app.work.papers.unsafe_return import unsafe_return_facts
from app.work.people.pins import check_pin, marks_of
from app.work.shop_book import Done


@dataclass(frozen=True, slots=True)
class Decided:
    """The decision and the sheet that the customer signs."""

    decision_id: int
    sheet_id: int


def decide_unsafe_return(
    book: Book,
    owner_id: int,
    pin: str,
    job_id: int,
    *,
    outcome: Outcome,
    reason: str,
    law_looked_at: bool,
) -> Done[Decided]:
    """The owner, by PIN and with a reason, lets a player go back unrepaired and unsafe; its sheet is issued.

    The stop stays open on the unit. Raises Refusal when the facts do not allow it, whoever asks, FieldRefusal
    for the reason, Refusal for the PIN.
    """
    if wrong := check_typed(reason, REASON_ROOM, lines=True):
        raise FieldRefusal({"unsafe.reason": wrong})
    check_pin(book, owner_id, pin, Mark.OWNER)
    marks = marks_of(book, owner_id)
    with book.change(owner_id, Sentence("decided to hand a player back unsafe")) as change:
        job = open_job(change, job_id)
        job.outcome = outcome
        change.session.flush()
        facts = facts_of(change.session, job, change.today)
        thresholds = thresholds_of(settings_of(change.session))
        refused = unsafe_return_refused(
            facts,
            marks=marks,
            day=change.today,
            reason=reason,
            law_looked_at=law_looked_at,
            thresholds=thresholds,
        )
        if refused:
            raise Refusal(refused)
        row = change.session.scalars(
            select(UnsafeReturnKept).where(UnsafeReturnKept.job_id == job_id)
        ).one_or_none()
        if row is None:
            row = UnsafeReturnKept(job_id=job_id, reason="", law_looked_at=False, at=change.now, by=owner_id)
            change.session.add(row)
        row.reason, row.law_looked_at, row.at, row.by = reason.strip(), law_looked_at, change.now, owner_id
        row.signed = row.plug_tagged = False  # what was signed before was another sheet
        change.session.flush()
        sheet = unsafe_return_facts(change.session, book.files, job, facts, row)
        paper = issue_paper(
            change, job_id, sheet, number=str(job.number), names_modifications=_named(facts, thresholds)
        )
    return Done(Decided(row.id, paper.id), change.changes)


def _named(facts: JobFacts, thresholds: Thresholds) -> list[int]:
    """The modifications that the sheet names as what is unsafe: they are told by it."""
    dangers = {stop.detail for stop in unsafe_stops(facts, thresholds)}
    return [m.number for m in live(facts.modifications) if f"modification {m.number}" in dangers]
