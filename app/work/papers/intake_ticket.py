"""Fills an intake ticket from the book."""

from __future__ import annotations

import re
from pathlib import Path

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book.office.shop_settings import settings_of
from app.book.tables import Customer, Job, Payment, ReportedFault, Staff, ThingLeft, Unit
from app.papers.facts import Clause, Row, Said, Tick
from app.papers.intake_ticket_facts import IntakeTicketFacts, Mark
from app.trade.bench.facts import JobFacts
from app.trade.bench.gates import gates_of
from app.trade.bench.kinds import TransitLock
from app.trade.bench.safety_notes import Reader, notes_for
from app.trade.bench.stages import said
from app.trade.calendar.promise import local_day
from app.trade.counter import fault_words
from app.trade.counter.hand_back import LeftKind
from app.trade.counter.things import USUAL_THINGS, thing_said
from app.trade.sentence import Sentence, Value
from app.trade.settings.shop_settings import ShopSettings
from app.trade.settings.terms import DEFAULT_TERMS, ESTIMATE_DAYS, STORAGE_DAYS, TERMS, fill, needing
from app.trade.settings.thresholds import thresholds_of
from app.trade.wording import Wording
from app.work.bench.safety_notes import safety_notes
from app.work.papers.sheet_facts import (
    cautions_of,
    customer_facts,
    flag_facts,
    money,
    player_facts,
    sheet_of,
    wording_of,
)

_BETWEEN_MARKS = re.compile(r"[;\n]")
MOST_VISITS = 2  # named on the customer's half


def intake_ticket_facts(
    session: Session, files: Path, job: Job, facts: JobFacts, *, draft: bool = False
) -> IntakeTicketFacts:
    """The ticket of a job as taken in. ``facts`` are the rules' facts of the same moment."""
    settings = settings_of(session)
    customer = session.get_one(Customer, job.customer_id)
    unit = session.get_one(Unit, job.unit_id)
    sheet = sheet_of(files, settings, customer, draft=draft)
    taken_by = session.get_one(Staff, job.taken_in_by).name
    deposit = session.scalars(
        select(Payment).where(Payment.job_id == job.id, Payment.kind == "deposit").order_by(Payment.id)
    ).first()
    return IntakeTicketFacts(
        sheet=sheet,
        job=job.number,
        customer=customer_facts(customer, settings),
        player=player_facts(session, unit),
        taken_in=job.taken_in_at,
        taken_by=taken_by,
        taken_by_short=taken_by.split()[0],
        fault=job.fault,
        fault_words=fault_words_of(session, job),
        error_shown=job.error_shown,
        marks=tuple(Mark(text.strip()) for text in _BETWEEN_MARKS.split(job.marks) if text.strip()),
        condition=_condition(job),
        things=_things(session, job.id),
        here_before=_here_before(session, job, wording_of(sheet)),
        deposit=money(deposit.amount, settings) if deposit else None,
        deposit_means=said(deposit.means) if deposit else "",
        diagnosis_fee=money(job.diagnosis_fee, settings) if job.diagnosis_fee_told else None,
        ring_when=job.ring_when,
        promised=job.promised_on,
        limit=money(job.go_ahead_limit, settings),
        parts_back=job.parts_returned or None,
        shelf=job.shelf,
        flags=flag_facts(session, facts),
        still_to_do=tuple(g.words for g in gates_of(facts, thresholds_of(settings)) if g.open),
        terms=_terms(job, settings, wording_of(sheet)),
        cautions_user=cautions_of(notes_for(Reader.TICKET, safety_notes(), facts)),
    )


def fault_words_of(session: Session, job: Job) -> tuple[Sentence, ...]:
    """The fault words that were picked, in the order of picking; "other" says nothing beside the customer's words."""
    rows = session.scalars(
        select(ReportedFault).where(ReportedFault.job_id == job.id).order_by(ReportedFault.id)
    )
    picked = [(fault_words.FaultWord(row.word), row.how) for row in rows]
    return tuple(
        fault_words.ReportedFault(word, how).sentence
        for word, how in picked
        if word is not fault_words.FaultWord.OTHER or not job.fault.strip()
    )


def _condition(job: Job) -> tuple[Row, ...]:
    """What was looked at: what nobody looked at is not told as if it were fine."""
    case = [
        answers[seen]
        for seen, answers in (
            (job.opened_before, (Sentence("not opened before"), Sentence("opened before"))),
            (job.screws_missing, (Sentence("screws complete"), Sentence("screws missing"))),
        )
        if seen is not None
    ]
    rows = []
    if case:
        rows.append(Row(Sentence("Case"), Sentence("{found}", {"found": tuple(case)})))
    if job.transit_lock is not TransitLock.NOT_LOOKED:
        rows.append(Row(Sentence("Transit lock"), said(job.transit_lock)))
    if job.smell:
        rows.append(Row(Sentence("Smell"), job.smell))
    if job.rust:
        rows.append(Row(Sentence("Rust"), job.rust))
    return tuple(rows)


def _things(session: Session, job_id: int) -> tuple[Tick, ...]:
    """What was left with us, and of the usual things those that were not, as open boxes."""
    left = session.scalars(select(ThingLeft).where(ThingLeft.job_id == job_id).order_by(ThingLeft.id)).all()
    things = {row.words for row in left if row.kind == LeftKind.THING}
    ticks = [Tick(thing_said(row.words), ticked=True) for row in left if row.kind == LeftKind.THING]
    for row in left:
        if row.kind == LeftKind.DISC:
            ticks.append(Tick(Sentence("a disc: {place}", {"place": row.words}), ticked=True))
    ticks += [Tick(Sentence(thing)) for thing in USUAL_THINGS if thing not in things]
    return tuple(ticks)


def _here_before(session: Session, job: Job, wording: Wording) -> Said:
    visits = session.scalars(
        select(Job).where(Job.unit_id == job.unit_id, Job.id != job.id).order_by(Job.number.desc())
    ).all()
    if not visits:
        return ""
    named = tuple(
        Sentence(
            "job {number}, {day}",
            {"number": str(visit.number), "day": local_day(visit.taken_in_at, wording.zone)},
        )
        for visit in visits[:MOST_VISITS]
    )
    if len(visits) == 1:
        return Sentence("once: {visits}", {"visits": named})
    return Sentence("{count} times, last: {visits}", {"count": len(visits), "visits": named})


def _terms(job: Job, settings: ShopSettings, wording: Wording) -> tuple[Clause, ...]:
    """The shop's terms with their places filled; one that names a fee that is not charged is left out."""
    values: dict[str, Value] = {
        "storage_days": settings[STORAGE_DAYS],
        "estimate_days": settings[ESTIMATE_DAYS],
    }
    fee = money(job.diagnosis_fee, settings)
    if fee is not None and fee.minor:
        values["diagnosis_fee"] = fee
    unknown = {"diagnosis_fee"} - values.keys()
    worded = {name: wording.value(value) for name, value in values.items()}
    clauses = []
    terms = settings[TERMS]
    for term in needing(terms, unknown):
        if term in DEFAULT_TERMS:
            clauses.append(Clause(Sentence(term.lead, values), Sentence(term.text, values)))
        else:
            clauses.append(Clause(fill(term.lead, worded), fill(term.text, worded)))
    return tuple(clauses)
