"""The technician's word on a proposed comeback: it is one, or it is none and why; what was said before, and by whom."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book.door import Book
from app.book.tables import HistoryRow, Job, Staff
from app.trade.bench.comeback import USUAL_REASONS
from app.trade.bench.kinds import ComebackStanding
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence, Value
from app.trade.typed_words import check_typed
from app.work.shop_book import Done

REASON_ROOM = 200


@dataclass(frozen=True, slots=True)
class ComebackWord:
    """What was said once: when, by whom (empty: the book itself), and what."""

    at: datetime
    by: str
    words: Sentence


@dataclass(frozen=True, slots=True)
class ComebackView:
    """How a proposed comeback stands: the former job, the reason that was given, all that was said, oldest first."""

    former_id: int
    former: int
    standing: ComebackStanding
    reason: Value
    said: tuple[ComebackWord, ...]


def comeback_view(book: Book, job_id: int) -> ComebackView | None:
    """How the comeback that a job is stands; None where none was proposed."""
    with book.ask() as session:
        job = session.get_one(Job, job_id)
        if job.comeback_of_id is None or job.comeback is None:
            return None
        former = session.get_one(Job, job.comeback_of_id)
        return ComebackView(
            former.id, former.number, job.comeback, reason_said(job.comeback_reason), _said(session, job_id)
        )


def reason_said(reason: str) -> Value:
    """A reason as it is told: a usual one in the reader's language, typed words as they stand."""
    return Sentence(reason) if reason in USUAL_REASONS else reason


def confirm_comeback(book: Book, who: int, job_id: int, reason: str = "", *, version: int) -> Done[int]:
    """The same fault came back. Also once the job is closed. Raises StaleRow, FieldRefusal, and Refusal where none is
    proposed."""
    return _decide(book, who, job_id, version, ComebackStanding.CONFIRMED, reason)


def deny_comeback(book: Book, who: int, job_id: int, reason: str, *, version: int) -> Done[int]:
    """It is another fault, for a reason ("other disc problem"): the figures count it as none. Raises StaleRow,
    FieldRefusal, and Refusal where none is proposed."""
    if not reason.strip():
        raise FieldRefusal({"reason": Sentence("Say why it is no comeback.")})
    return _decide(book, who, job_id, version, ComebackStanding.DENIED, reason)


def take_back_word(book: Book, who: int, job_id: int, *, version: int) -> Done[int]:
    """Nobody has said anything: it is proposed as it was. The history keeps what was said. Raises StaleRow, and Refusal
    where nothing was said."""
    return _decide(book, who, job_id, version, ComebackStanding.PROPOSED, "")


_ACTIONS = {
    ComebackStanding.CONFIRMED: Sentence("confirmed a comeback"),
    ComebackStanding.DENIED: Sentence("denied a comeback"),
    ComebackStanding.PROPOSED: Sentence("took back what was said of a comeback"),
}


def _decide(
    book: Book, who: int, job_id: int, version: int, said: ComebackStanding, reason: str
) -> Done[int]:
    if wrong := check_typed(reason, REASON_ROOM):
        raise FieldRefusal({"reason": wrong})
    with book.change(who, _ACTIONS[said]) as change:
        job = change.get(Job, job_id, version=version)
        if job.comeback_of_id is None:
            raise Refusal(Sentence("No comeback is proposed for this job."))
        if job.comeback is said is ComebackStanding.PROPOSED:
            raise Refusal(Sentence("Nobody has said yet whether it is a comeback."))
        job.comeback, job.comeback_reason = said, reason.strip()
    return Done(job_id, change.changes)


def _said(session: Session, job_id: int) -> tuple[ComebackWord, ...]:
    """All that was said, as the history keeps it; a book that was imported may keep none of it."""
    rows = session.execute(
        select(HistoryRow.at, HistoryRow.action, HistoryRow.fields, Staff.name)
        .outerjoin(Staff, Staff.id == HistoryRow.staff_id)
        .where(HistoryRow.job_id == job_id, HistoryRow.row_table == "jobs", HistoryRow.row_id == job_id)
        .order_by(HistoryRow.seq)
    )
    said: list[ComebackWord] = []
    standing, reason = None, ""
    for at, action, fields, name in rows:
        if not fields.keys() & {"comeback", "comeback_reason"}:
            continue
        before = standing
        standing = fields.get("comeback", (None, standing))[1]
        reason = fields.get("comeback_reason", (None, reason))[1] or ""
        own = standing == ComebackStanding.PROPOSED and action != _ACTIONS[ComebackStanding.PROPOSED].key
        if standing is not None:
            words = _in_words(standing, reason, first=before is None, own=own)
            said.append(ComebackWord(at, "" if own else name or "", words))
    return tuple(said)


def _in_words(standing: str, reason: str, *, first: bool, own: bool) -> Sentence:
    """``own``: the book says it itself, at the ``first`` or anew."""
    values = {"reason": reason_said(reason)}
    if standing == ComebackStanding.CONFIRMED:
        return Sentence("It is one: {reason}", values) if reason else Sentence("It is one")
    if standing == ComebackStanding.DENIED:
        return Sentence("It is none: {reason}", values) if reason else Sentence("It is none")
    if not own:
        return Sentence("Taken back")
    return Sentence("Proposed") if first else Sentence("Open again: the same fault group was found")
