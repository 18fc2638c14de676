"""Case, parts, labour and notes of a job."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from sqlalchemy import select

from app.book.bench.job_rows import JobRows
from app.book.bench.safety_facts import case_events_of
from app.book.door import Book
from app.book.office.shop_settings import settings_of
from app.book.tables import CaseEvent, JobNote, Labour, Part, PartMove
from app.trade.bench.case import step_refused
from app.trade.bench.stages import CaseStep
from app.trade.money import MICRO
from app.trade.office.stock import MoveKind
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.trade.settings.prices import HOURLY_RATE, VAT_RATES
from app.work.bench.open_job import open_job, take_as_opened
from app.work.office.stock import donor_refused, move_part, stock_of, wrong_note
from app.work.shop_book import Done

MOST_HOURS = Decimal(100)


@dataclass(frozen=True, slots=True)
class PartUsed:
    """A part used: the move, what is left on hand, and what the book took for granted."""

    id: int
    on_hand: Decimal
    assumed: Sentence | None


def note_case(book: Book, who: int, job_id: int, step: CaseStep) -> Done[int]:
    """Record that the case was opened or closed. Raises Refusal when it is so already."""
    opened = step is CaseStep.OPENED
    with book.change(who, Sentence("opened the case") if opened else Sentence("closed the case")) as change:
        job = open_job(change, job_id)
        refused = step_refused(case_events_of(JobRows(change.session, job)), step)
        if refused:
            raise Refusal(refused)
        row = change.add(CaseEvent(job_id=job.id, opened=opened, at=change.now, by=change.by))
    return Done(row.id, change.changes)


def use_part(
    book: Book,
    who: int,
    job_id: int,
    part_id: int,
    quantity: Decimal,
    *,
    note: str = "",
    donor: int | None = None,
) -> Done[PartUsed]:
    """Take a part from stock onto the job. Stock may go below zero: the count was wrong, not the job.

    ``donor``: it came straight out of this player, which stays here for its parts. It is taken into stock and used
    in one action. Raises FieldRefusal under ``quantity``, ``note`` and ``donor``.
    """
    wrong = wrong_note(note)
    if not Decimal(0) < quantity <= Decimal(10_000):
        wrong["quantity"] = Sentence("Say how many, more than 0.")
    if wrong:
        raise FieldRefusal(wrong)
    micro = int(quantity * MICRO)
    with book.change(who, Sentence("used a part")) as change:
        job = open_job(change, job_id)
        part = change.get(Part, part_id)
        assumed = take_as_opened(change, job, change.now, Sentence("a part"))
        if donor is not None:
            if refused := donor_refused(change, donor):
                raise FieldRefusal({"donor": refused})
            move_part(change, part, MoveKind.FROM_DONOR, micro, unit_id=donor, note=note)
        row = move_part(change, part, MoveKind.USED, -micro, job_id=job.id, unit_id=donor, note=note)
        on_hand = stock_of(change.session, part.id)
    return Done(PartUsed(row.id, Decimal(on_hand) / MICRO, assumed), change.changes)


def put_part_back(book: Book, who: int, move_id: int) -> Done[int]:
    """Give a part used on a job back to stock: a move of its own, the first one stands."""
    with book.change(who, Sentence("put a part back")) as change:
        used = change.get(PartMove, move_id)
        if used.kind is not MoveKind.USED or used.job_id is None:
            raise Refusal(Sentence("Only a part used on a job can be put back."))
        open_job(change, used.job_id)
        back = change.session.scalar(
            select(PartMove.id).where(PartMove.kind == MoveKind.PUT_BACK, PartMove.note == f"{move_id}")
        )
        if back is not None:
            raise Refusal(Sentence("This part is back in stock already."))
        row = change.add(
            PartMove(
                part_id=used.part_id,
                kind=MoveKind.PUT_BACK,
                quantity=-used.quantity,
                job_id=used.job_id,
                price=used.price,
                vat_rate=used.vat_rate,
                note=f"{move_id}",
                at=change.now,
                by=change.by,
            )
        )
    return Done(row.id, change.changes)


def record_labour(
    book: Book, who: int, job_id: int, words: str, hours: Decimal, *, charged: bool = True
) -> Done[int]:
    """Record time spent, at the shop's hourly rate of today. Raises FieldRefusal."""
    wrong: dict[str, Sentence] = {}
    if not words.strip():
        wrong["words"] = Sentence("Say what was done.")
    if not Decimal(0) < hours <= MOST_HOURS:
        wrong["hours"] = Sentence("Hours are more than 0 and at most {most}.", {"most": MOST_HOURS})
    if wrong:
        raise FieldRefusal(wrong)
    with book.change(who, Sentence("recorded labour")) as change:
        job = open_job(change, job_id)
        settings = settings_of(change.session)
        row = change.add(
            Labour(
                job_id=job.id,
                words=words.strip(),
                hours=int(hours * MICRO),
                rate=settings[HOURLY_RATE],
                vat_rate=settings[VAT_RATES][0].rate,
                charged=charged,
                at=change.now,
                by=change.by,
            )
        )
    return Done(row.id, change.changes)


def add_note(book: Book, who: int, job_id: int, text: str) -> Done[int]:
    """Write a line on the job."""
    if not text.strip():
        raise FieldRefusal({"text": Sentence("Write something, or leave.")})
    with book.change(who, Sentence("wrote a note")) as change:
        job = open_job(change, job_id)
        row = change.add(JobNote(job_id=job.id, text=text.strip(), at=change.now, by=change.by))
    return Done(row.id, change.changes)
