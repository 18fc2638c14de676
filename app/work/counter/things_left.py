"""Things that belong to the customer, noted or given back after the player was taken in."""

from __future__ import annotations

from app.book.door import Book
from app.book.tables import ThingLeft
from app.trade.counter.hand_back import LeftKind
from app.trade.counter.taking_in import THING_ROOM
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.trade.typed_words import check_typed
from app.work.bench.open_job import open_job
from app.work.shop_book import Done


def note_thing(book: Book, who: int, job_id: int, kind: LeftKind, words: str) -> Done[int]:
    """Note a thing, a disc that was found inside, or an old part that is to go back. Raises FieldRefusal."""
    words = " ".join(words.split())
    if not words:
        raise FieldRefusal({"words": Sentence("Name it.")})
    if wrong := check_typed(words, THING_ROOM):
        raise FieldRefusal({"words": wrong})
    with book.change(who, Sentence("noted a thing of the customer's: {thing}", {"thing": words})) as change:
        open_job(change, job_id)
        row = change.add(ThingLeft(job_id=job_id, kind=kind.value, words=words))
    return Done(row.id, change.changes)


def give_thing_back(book: Book, who: int, thing_id: int) -> Done[None]:
    """One thing went back before the player does, such as a disc that was handed over at the counter."""
    with book.change(who, Sentence("gave a thing back to the customer")) as change:
        row = change.get(ThingLeft, thing_id)
        open_job(change, row.job_id)
        if row.returned_at is not None:
            raise Refusal(Sentence("That went back already."))
        row.returned_at, row.returned_by = change.now, change.by
    return Done(None, change.changes)
