"""Handing a player back: what is asked first, what is written down, and the receipt."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from sqlalchemy import select

from app.book.bench.job_facts import facts_of
from app.book.bench.job_rows import JobRows
from app.book.door import Book, Change
from app.book.office.shop_settings import settings_of
from app.book.tables import HandBack as HandBackRow
from app.book.tables import Job, ThingLeft, Unit, UnsafeReturnKept
from app.trade.bench.facts import JobFacts
from app.trade.bench.gates import Asks, ask_for
from app.trade.bench.holds import unsafe_stops
from app.trade.bench.modifications import live
from app.trade.bench.stages import STAYS_HERE, Outcome, Stage, Waiting, move_refused
from app.trade.counter.hand_back import HandBack, HandBackFacts, LeftThing, UnsafeWay, check_hand_back
from app.trade.office.guarantee import guarantee_until
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.trade.settings.shop_settings import ShopSettings
from app.trade.settings.thresholds import thresholds_of
from app.work.counter.stages import make_ready, pass_or_hold
from app.work.office.guarantees import guarantee_days_of
from app.work.papers.hand_back_receipt import hand_back_receipt_facts
from app.work.papers.issuing import issue_paper
from app.work.shop_book import Done

MENDED = frozenset({Outcome.MENDED, Outcome.MENDED_MODIFIED})


@dataclass(frozen=True, slots=True)
class HandedBack:
    """What was issued. ``receipt_id`` None: the player stays here and nobody signs, or no receipt was wanted."""

    receipt_id: int | None
    guarantee_until: date | None


def hand_back(book: Book, who: int, job_id: int, form: HandBack, *, receipt: bool = True) -> Done[HandedBack]:
    """Hand a player back, or close the job of one that stays here, as the page was filled in.

    A job that was not ready yet becomes so on the way, if it may. ``receipt`` False issues none: for jobs that
    are copied from older records. Raises FieldRefusal by field, Held with every stop and open gate, Refusal
    when the job is closed already. An unsafe player needs the owner's decision first (`decide_unsafe_return`).
    """
    with book.change(who, Sentence("handed a player back")) as change:
        job = change.get(Job, job_id)
        if change.now < job.taken_in_at:
            raise Refusal(
                Sentence(
                    "By this computer's clock the player was taken in only later, {then}.",
                    {"then": job.taken_in_at},
                ),
                Sentence("Set the clock right, then hand it back. Nothing was saved."),
            )
        change.why = Sentence("handed back job {number}", {"number": str(job.number)})
        settings = settings_of(change.session)
        job.outcome = form.outcome
        things = _things(change, job, form.things)
        _give(change, things, form.things)
        change.session.flush()
        facts = facts_of(change.session, job, change.today)
        if wrong := check_hand_back(form, form_facts(facts, settings)):
            raise FieldRefusal(wrong)
        assert form.outcome is not None
        if form.unsafe is not None:
            _unsafe_way(change, job, form.unsafe)
            facts = facts_of(change.session, job, change.today)
        _pass(change, job, ask_for(form.outcome), facts)
        job.stage, job.handed_back_at, job.waiting = Stage.HANDED_BACK, change.now, Waiting.NOTHING
        if form.outcome in MENDED:
            days = guarantee_days_of(JobRows(change.session, job))
            job.guarantee_until = guarantee_until(change.today, days)
        receipt_id = None
        if form.outcome in STAYS_HERE:
            if form.outcome is Outcome.KEPT_AS_DONOR:
                change.get(Unit, job.unit_id).is_donor = True
        else:
            _write_down(change, job, form)
            receipt_id = _receipt(change, book, job, form) if receipt else None
    return Done(HandedBack(receipt_id, job.guarantee_until), change.changes)


def form_facts(facts: JobFacts, settings: ShopSettings) -> HandBackFacts:
    """What the book knows for the form's own rules, from the rules' facts."""
    stops = unsafe_stops(facts, thresholds_of(settings))
    ours = {f"modification {m.number}" for m in facts.modifications if m.ours}
    return HandBackFacts(
        changes_left=sum(m.ours and m.job == facts.number for m in live(facts.modifications)),
        balance=facts.balance,
        safety_stop=bool(stops),
        made_by_us=any(stop.detail in ours for stop in stops),
    )


def _things(change: Change, job: Job, filled: Sequence[LeftThing]) -> list[ThingLeft]:
    """The rows behind the boxes of the form, in its order."""
    rows = list(
        change.session.scalars(select(ThingLeft).where(ThingLeft.job_id == job.id).order_by(ThingLeft.id))
    )
    if [(row.kind, row.words) for row in rows] != [(thing.kind.value, thing.words) for thing in filled]:
        raise Refusal(
            Sentence("What came with the player was changed in between. Nothing was saved."),
            Sentence("Look through the list again, then save."),
        )
    return rows


def _give(change: Change, rows: Sequence[ThingLeft], filled: Sequence[LeftThing]) -> None:
    for row, thing in zip(rows, filled, strict=True):
        if thing.given and row.returned_at is None:
            row.returned_at, row.returned_by = change.now, change.by


def _unsafe_way(change: Change, job: Job, way: UnsafeWay) -> None:
    """Signature and tag of a player that goes back unsafe; the owner has decided before."""
    decided = change.session.scalars(
        select(UnsafeReturnKept).where(UnsafeReturnKept.job_id == job.id)
    ).one_or_none()
    if decided is None:
        raise Refusal(
            Sentence("The owner has not decided yet that this player goes back unsafe."),
            Sentence("The owner decides with name, PIN and reason; then the sheet is printed and signed."),
        )
    decided.signed, decided.plug_tagged = way.signed, way.plug_tagged
    change.session.flush()


def _pass(change: Change, job: Job, asks: Asks, facts: JobFacts) -> None:
    """Through ready to handed back: the gates of the last step hold those of the one before."""
    if job.stage is not Stage.READY:
        if why := move_refused(job.stage, Stage.READY, job.outcome):
            raise Refusal(why)
        pass_or_hold(change, job, asks, facts)
        make_ready(change, job)
        return
    pass_or_hold(change, job, asks, facts)


def _write_down(change: Change, job: Job, form: HandBack) -> None:
    assert form.collector is not None
    change.add(
        HandBackRow(
            job_id=job.id,
            at=change.now,
            by=change.by,
            collector=form.collector,
            collector_name=" ".join(form.collector_name.split()),
            proof=form.proof.strip(),
            paid_words=form.paid_words.strip(),
            shown_and_told=form.shown_and_told,
            unsafe=form.unsafe is not None,
        )
    )


def _receipt(change: Change, book: Book, job: Job, form: HandBack) -> int:
    change.session.flush()
    facts = facts_of(change.session, job, change.today)
    receipt = hand_back_receipt_facts(change.session, book.files, job, form, facts, change.by)
    return issue_paper(change, job.id, receipt, number=str(job.number)).id
