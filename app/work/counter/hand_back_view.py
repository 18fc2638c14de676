"""What the hand-back page shows before anything is written: things, money, what still holds the player."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime

from sqlalchemy import select

from app.book.bench.job_facts import facts_of
from app.book.bench.job_rows import JobRows
from app.book.door import Book
from app.book.office.job_lines import paid, standing_invoice
from app.book.office.shop_settings import settings_of
from app.book.tables import Customer, Job, Staff, ThingLeft, Unit, UnsafeReturnKept
from app.trade.bench.flag import Level
from app.trade.bench.flags import evaluate
from app.trade.bench.gates import Gate, ask_for, gates_of
from app.trade.bench.holds import held_by
from app.trade.bench.stages import Outcome, Stage
from app.trade.counter.hand_back import HandBackFacts, LeftKind
from app.trade.money import Money
from app.trade.sentence import Sentence
from app.trade.settings.prices import CURRENCY
from app.trade.settings.thresholds import thresholds_of
from app.work.counter.hand_back import form_facts
from app.work.papers.issuing import PaperLine, paper_lines


@dataclass(frozen=True, slots=True)
class ThingHere:
    """One thing to be ticked."""

    id: int
    kind: LeftKind
    words: str
    returned: bool


@dataclass(frozen=True, slots=True)
class Decision:
    """The owner's decision that the player goes back unsafe."""

    owner: str
    reason: str
    at: datetime
    signed: bool
    plug_tagged: bool


@dataclass(frozen=True, slots=True)
class HandBackView:
    """The page. ``reasons`` are stops and gates that hold the player now; ``stops`` those that are dangers."""

    job_id: int
    number: int
    player: str
    serial: str
    customer: str
    phone: str
    stage: Stage
    outcome: Outcome | None
    things: tuple[ThingHere, ...]
    gates: tuple[Gate, ...]
    stops: tuple[Sentence, ...]
    reasons: tuple[Sentence, ...]
    facts: HandBackFacts
    paid: Money
    invoiced: bool
    decision: Decision | None
    papers: tuple[PaperLine, ...]


def hand_back_view(book: Book, job_id: int, outcome: Outcome | None = None) -> HandBackView:
    """What to tick, to take and to say before this player goes; ``outcome`` is the one about to be chosen."""
    with book.ask() as session:
        job = session.get_one(Job, job_id)
        unit = session.get_one(Unit, job.unit_id)
        customer = session.get_one(Customer, job.customer_id)
        settings = settings_of(session)
        thresholds = thresholds_of(settings)
        rows = JobRows(session, job)
        facts = facts_of(session, job, book.today(), rows)
        if outcome is not None:
            facts = replace(facts, outcome=outcome)
        asks = ask_for(facts.outcome)
        decided = session.execute(
            select(UnsafeReturnKept, Staff.name)
            .join(Staff, Staff.id == UnsafeReturnKept.by)
            .where(UnsafeReturnKept.job_id == job_id)
        ).first()
        return HandBackView(
            job_id=job.id,
            number=job.number,
            player=f"{unit.maker} {unit.model}".strip(),
            serial="" if unit.serial_unreadable else unit.serial,
            customer=customer.name,
            phone=customer.phone,
            stage=job.stage,
            outcome=job.outcome,
            things=tuple(
                ThingHere(row.id, LeftKind(row.kind), row.words, row.returned_at is not None)
                for row in session.scalars(
                    select(ThingLeft).where(ThingLeft.job_id == job_id).order_by(ThingLeft.id)
                )
            ),
            gates=tuple(gate for gate in gates_of(facts, thresholds) if asks in gate.at),
            stops=tuple(f.sentence for f in evaluate(facts, thresholds) if f.level is Level.STOP),
            reasons=held_by(facts, asks, thresholds),
            facts=form_facts(facts, settings),
            paid=Money(paid(rows), settings[CURRENCY]),
            invoiced=standing_invoice(rows) is not None,
            decision=Decision(
                decided[1], decided[0].reason, decided[0].at, decided[0].signed, decided[0].plug_tagged
            )
            if decided
            else None,
            papers=paper_lines(session, job_id),
        )
