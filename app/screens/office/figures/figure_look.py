"""One question asked away from the window: the answer with its picture and its tables."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from app.trade.sentence import Sentence
from app.trade.statistics.picture import Picture
from app.trade.statistics.table import Table
from app.work.statistics.answer import Answer


@dataclass(frozen=True, slots=True)
class Look:
    """What a page shows; ``asked`` says of which jobs it is, ``own_window`` is the shop's, in days."""

    answer: Answer
    asked: tuple[Sentence, ...]
    picture: Picture
    tables: tuple[Table, ...]
    own_window: int

    @property
    def is_empty(self) -> bool:
        """Whether there is nothing to draw and nothing to list."""
        return not self.picture.panels and not self.tables


def look(
    book: Any,
    name: str,
    asked: Mapping[str, Any],
    step: Callable[[int, int, Sentence | None], object] | None = None,
) -> Look:
    """Ask the question of this name. Run away from the window: the first one also fetches what draws."""
    from app.screens.kit.life_plot import fetch_parts
    from app.work.statistics.asked import asked_words
    from app.work.statistics.pictures import picture_of
    from app.work.statistics.question import shop_question
    from app.work.statistics.questions import ANSWERS
    from app.work.statistics.tables.answer_tables import tables_of

    fetch_parts()
    own = shop_question(book)
    question = shop_question(book, **asked)
    answer = ANSWERS[name](book, question, step)
    return Look(answer, asked_words(book, answer), picture_of(answer), tables_of(answer), own.window)
