"""What a customer asked for that would make the player unsafe: it stops the job until it is refused."""

from __future__ import annotations

from app.book.door import Book
from app.book.tables import UnsafeRequest
from app.trade.counter.agreements import TEXT_ROOM
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.trade.typed_words import check_typed
from app.work.bench.open_job import open_job
from app.work.shop_book import Done


def note_unsafe_request(book: Book, who: int, job_id: int, what: str) -> Done[int]:
    """Write down what was asked for, in the customer's words. Raises FieldRefusal."""
    if not what.strip():
        raise FieldRefusal({"what": Sentence("Write what was asked for.")})
    if wrong := check_typed(what, TEXT_ROOM, lines=True):
        raise FieldRefusal({"what": wrong})
    with book.change(who, Sentence("noted an unsafe request")) as change:
        open_job(change, job_id)
        row = change.add(UnsafeRequest(job_id=job_id, what=what.strip(), at=change.now, by=change.by))
    return Done(row.id, change.changes)


def refuse_unsafe_request(book: Book, who: int, request_id: int) -> Done[None]:
    """Close a request as refused, the only way in which it can be closed."""
    with book.change(who, Sentence("refused an unsafe request")) as change:
        row = change.get(UnsafeRequest, request_id)
        open_job(change, row.job_id)
        if row.refused_at is not None:
            raise Refusal(Sentence("This request is refused already."))
        row.refused_at, row.refused_by = change.now, change.by
    return Done(None, change.changes)
