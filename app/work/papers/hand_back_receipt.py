"""Fills the receipt that the person who collects signs."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path
from zoneinfo import ZoneInfo

from sqlalchemy.orm import Session

from app.book.bench.job_rows import JobRows
from app.book.office.job_lines import paid
from app.book.office.shop_settings import settings_of
from app.book.tables import Customer, Job, Staff, Unit
from app.papers import hand_back_receipt_facts as paper
from app.papers.facts import Flag, FlagLevel, Said, Tick
from app.trade.bench import stages
from app.trade.bench.facts import JobFacts
from app.trade.bench.gates import Gate, GateState, gates_of
from app.trade.bench.stages import said
from app.trade.calendar.promise import local_day
from app.trade.counter.hand_back import HandBack, LeftKind, LeftThing
from app.trade.counter.things import thing_said
from app.trade.money import Money
from app.trade.sentence import Sentence, Value, words
from app.trade.settings.papers_and_days import TIME_ZONE
from app.trade.settings.prices import CURRENCY
from app.trade.settings.thresholds import thresholds_of
from app.work.papers.safety_record import safety_record
from app.work.papers.sheet_facts import flag_facts, player_facts, sheet_of

# A step that was done, as the receipt tells it.
_DONE = {
    "safety_missing": words("Safety test: {how}."),
    "final_missing": words("Final readings: {how}."),
    "laser_no_power": words("Light after the lens: {how}."),
    "not_agreed": words("Changes agreed: {how}."),
    "told": words("Changes named on paper: {how}."),
    "unsafe_signed": words("The warning is signed."),
    "unsafe_tagged": words("The plug is tagged."),
}
_COLLECTORS = {
    stages.Collector.CUSTOMER: paper.Collector.CUSTOMER,
    stages.Collector.TICKET: paper.Collector.WITH_TICKET,
    stages.Collector.NAMED: paper.Collector.NAMED,
    stages.Collector.TICKET_LOST: paper.Collector.TICKET_LOST,
}


def hand_back_receipt_facts(
    session: Session, files: Path, job: Job, form: HandBack, facts: JobFacts, by: int
) -> paper.HandBackReceiptFacts:
    """The receipt of a hand-back as it was filled in; ``facts`` are the rules' facts of that moment."""
    assert form.collector is not None
    assert form.outcome is not None
    assert job.handed_back_at is not None
    settings = settings_of(session)
    customer = session.get_one(Customer, job.customer_id)
    unit = session.get_one(Unit, job.unit_id)
    lead, payment = _payment(session, job, form, facts, settings[CURRENCY])
    return paper.HandBackReceiptFacts(
        sheet=sheet_of(files, settings, customer),
        job=job.number,
        customer_name=customer.name,
        player=player_facts(session, unit),
        handed_back=job.handed_back_at,
        counter=session.get_one(Staff, by).name,
        outcome=said(form.outcome),
        collector=_COLLECTORS[form.collector],
        collector_name=form.collector_name.strip(),
        proof=form.proof.strip(),
        given_back=(Tick(Sentence("the player"), ticked=True, strong=True), *map(_tick, form.things)),
        shown_told=(Tick(Sentence("shown playing and told what was done"), ticked=form.shown_and_told),),
        done=tuple(
            _done(gates_of(facts, thresholds_of(settings)), safety_record(JobRows(session, job), facts))
        ),
        payment_lead=lead,
        payment=payment,
        flags=tuple(_worth_telling(flag_facts(session, facts))),
    )


def _tick(thing: LeftThing) -> Tick:
    said_of_it: Said = thing_said(thing.words)
    if thing.kind is LeftKind.DISC:
        said_of_it = Sentence("the disc that was inside: {place}", {"place": thing.words})
    elif thing.kind is LeftKind.OLD_PART:
        said_of_it = Sentence("old part: {part}", {"part": thing.words})
    if not thing.given and thing.note.strip():
        said_of_it = Sentence("{thing} (stays: {why})", {"thing": said_of_it, "why": thing.note.strip()})
    return Tick(said_of_it, ticked=thing.given)


def _done(gates: Iterable[Gate], tested: tuple[Sentence, ...]) -> Iterator[Sentence]:
    """What was done before the player left, the safety test with its values and limits. That its disc went back
    stands among the things."""
    for gate in gates:
        if gate.rule == "safety_missing" and tested:
            yield from tested
            continue
        if gate.state is GateState.DONE and gate.rule in _DONE:
            yield Sentence(_DONE[gate.rule], {"how": gate.how or Sentence("done")})


def _payment(session: Session, job: Job, form: HandBack, facts: JobFacts, currency: str) -> tuple[Said, Said]:
    """What was paid and what is open: heavier words, and what follows them."""
    rows = JobRows(session, job)
    if facts.balance is not None and facts.balance.minor > 0:
        agreed = Sentence(
            "{balance}; agreed: {words}.", {"balance": facts.balance, "words": form.paid_words.strip()}
        )
        return Sentence("Open"), agreed
    received = Money(paid(rows), currency)
    if not received.minor:
        return "", Sentence("Nothing to pay.")
    last = rows.payments[-1]
    values: dict[str, Value] = {
        "day": local_day(last.at, ZoneInfo(settings_of(session)[TIME_ZONE])),
        "amount": received,
        "means": said(last.means),
    }
    if rows.invoices:
        return Sentence("Paid"), Sentence("{day}: {amount}, {means}; nothing open.", values)
    return Sentence("Paid"), Sentence("{day}: {amount}, {means}.", values)


def _worth_telling(flags: tuple[Flag, ...]) -> list[Flag]:
    """Cautions and stops: what the shop notes for itself has no place on the customer's receipt."""
    return [flag for flag in flags if flag.level is not FlagLevel.NOTE]
