"""Where a job stands by its last climb of the ladder, in one sentence, and what that proves."""

from __future__ import annotations

from collections.abc import Sequence

from app.book.bench.knowledge_data import knowledge_of
from app.book.door import Book
from app.trade.bench.kinds import Arrangement
from app.trade.bench.ladder import Ladder
from app.trade.bench.start_up import StartUpResult, ladder_sentence
from app.trade.sentence import Sentence
from app.work.bench.sheet_lines import StartUpLine


def ladder_of(book: Book) -> Ladder:
    """The ladder of this shop."""
    with book.ask() as session:
        return knowledge_of(session).ladder


def standing_of(
    start_ups: Sequence[StartUpLine],
    ladder: Ladder,
    arrangement: Arrangement | None,
    not_testable: Sequence[int],
) -> tuple[Sentence | None, Sentence | None]:
    """The headline and the sentence below it, of the last climb that is not struck out; None before the first.
    ``ladder`` is the shop's."""
    standing = [line for line in start_ups if line.struck is None]
    if not standing:
        return None, None
    last = standing[-1]
    result = StartUpResult(
        rung=last.rung, tries=last.tries, stopped_in=last.stopped_in, seen=last.seen, warmth=last.warmth
    )
    headline = result.headline(ladder, arrangement)
    if not result.counts or result.first_not_reached is None or arrangement is None:
        return headline, result.detail
    return headline, ladder_sentence(result, ladder, arrangement, frozenset(not_testable))
