"""The technician's word on a proposed comeback: it is one, or it is none and why."""

from __future__ import annotations

from app.book.door import Book
from app.book.tables import Job
from app.trade.bench.kinds import ComebackStanding
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.trade.typed_words import check_typed
from app.work.shop_book import Done

REASON_ROOM = 200


def confirm_comeback(book: Book, who: int, job_id: int, *, version: int) -> Done[int]:
    """The same fault came back. Also once the job is closed. Raises StaleRow, and Refusal where none is proposed."""
    return _decide(book, who, job_id, version, ComebackStanding.CONFIRMED, "")


def deny_comeback(book: Book, who: int, job_id: int, reason: str, *, version: int) -> Done[int]:
    """It is another fault, for a reason ("other disc problem"): the figures count it as none. Raises StaleRow,
    FieldRefusal, and Refusal where none is proposed."""
    wrong = check_typed(reason, REASON_ROOM)
    if not reason.strip():
        wrong = Sentence("Say why it is no comeback.")
    if wrong is not None:
        raise FieldRefusal({"reason": wrong})
    return _decide(book, who, job_id, version, ComebackStanding.DENIED, reason.strip())


def _decide(
    book: Book, who: int, job_id: int, version: int, said: ComebackStanding, reason: str
) -> Done[int]:
    why = {
        ComebackStanding.CONFIRMED: Sentence("confirmed a comeback"),
        ComebackStanding.DENIED: Sentence("denied a comeback"),
    }[said]
    with book.change(who, why) as change:
        job = change.get(Job, job_id, version=version)
        if job.comeback_of_id is None:
            raise Refusal(Sentence("No comeback is proposed for this job."))
        job.comeback, job.comeback_reason = said, reason
    return Done(job_id, change.changes)
