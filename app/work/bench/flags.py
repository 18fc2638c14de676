"""Answers to flags: acknowledged or cleared with a reason, signed by the PIN of whoever may."""

from __future__ import annotations

from app.book.door import Book
from app.book.tables import Flag
from app.trade.bench.flag import Closing
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.work.people.pins import check_pin
from app.work.shop_book import Changes, Done


def answer_flag(book: Book, who: int, pin: str, flag_id: int, reason: str) -> Done[int]:
    """Acknowledge a caution, or clear it by a reason, as its rule allows. Raises Refusal, FieldRefusal."""
    if not reason.strip():
        raise FieldRefusal({"reason": Sentence("Give the reason: it is kept with your name.")})
    with book.ask() as session:
        row = session.get_one(Flag, flag_id)
        needs, closing, clears = row.needs, row.closing, row.clears
    if closing is Closing.FACTS:
        raise Refusal(Sentence("Nobody's word clears this: the facts have to change."), clears)
    check_pin(book, who, pin, needs)
    deed = Sentence("acknowledged a flag") if closing is Closing.SEEN else Sentence("cleared a flag")
    with book.change(who, deed) as change:
        flag = change.get(Flag, flag_id)
        if flag.cleared_at is not None:
            raise Refusal(Sentence("This flag is gone already."))
        flag.answered_mark = needs
        if closing is Closing.SEEN:
            flag.acknowledged_at, flag.acknowledged_by = change.now, change.by
            flag.acknowledged_reason = reason.strip()
        else:
            flag.cleared_at, flag.cleared_by, flag.cleared_reason = change.now, change.by, reason.strip()
    return Done(flag_id, change.changes)


def refresh_dated_flags(book: Book) -> Changes:
    """At opening and at midnight: ask the rules anew for every job in the shop, as some speak of the date."""
    from app.book.bench.flag_rows import ask_rules, open_jobs  # not before the window stands

    with book.change(None, Sentence("looked at the date")) as change:
        ask_rules(change, open_jobs(change.session))
    return change.changes
