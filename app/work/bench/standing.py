"""Where a job stands by its last climb of the ladder, in one sentence, and what that proves."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.book.bench.catalogue import quantities
from app.book.bench.knowledge_data import knowledge_of
from app.book.door import Book
from app.trade.bench.kinds import Arrangement
from app.trade.bench.ladder import OTHER, Ladder
from app.trade.bench.start_up import ladder_sentence
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
    result = standing[-1].result
    unseen = frozenset(not_testable)
    headline = result.headline(ladder, arrangement, unseen)
    if not result.counts or result.first_not_reached is None or arrangement is None:
        return headline, result.detail
    return headline, ladder_sentence(result, ladder, arrangement, unseen)


@dataclass(frozen=True, slots=True)
class RungCard:
    """What the shop's ladder says of one rung on one arrangement, in words."""

    number: int
    name: Sentence
    shows: Sentence
    proves: Sentence
    suspects: tuple[tuple[Sentence, int], ...]  # when it stops here, with their weights in per cent
    readings: tuple[tuple[Sentence, str], ...]  # that part them, each with how to read it
    changes: tuple[Sentence, ...]
    tools: str
    caution: str


def rung_card(
    book: Book, number: int, arrangement: Arrangement, not_testable: Sequence[int] = ()
) -> RungCard:
    """The card of rung ``number``, 1 to 12; the suspects largest first, as the ranking begins with them."""
    with book.ask() as session:
        known, measured = knowledge_of(session), quantities(session)
    ladder = known.ladder
    row = ladder.row(number, arrangement)
    weights = ladder.weights(number, arrangement, frozenset(not_testable))
    changes = known.knowledge.changes
    return RungCard(
        number=number,
        name=ladder.rung(number).name(arrangement),
        shows=Sentence(row.shows),
        proves=Sentence(row.proves),
        suspects=tuple(
            (ladder.suspects[suspect].name, round(weights[suspect] * 100))
            for suspect in sorted(weights, key=lambda one: (one == OTHER, -weights[one], one))
        ),
        readings=tuple(_reading(measured[one.quantity].words, one.how) for one in row.readings),
        changes=tuple(changes[change].name for change in row.changes),
        tools=row.tools,
        caution=row.caution,
    )


def _reading(words: str, how: str) -> tuple[Sentence, str]:
    """A quantity that says itself how it is read does not say it twice."""
    return Sentence(words), "" if how in words else how
