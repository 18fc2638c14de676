"""The two families of error: a Refusal is the person's world and has a sentence; a Fault is ours."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum

from app.trade.sentence import Sentence


class Refusal(Exception):
    """Something that cannot be done, said so that the person knows why and what to do next."""

    def __init__(self, sentence: Sentence, next_step: Sentence | None = None) -> None:
        super().__init__(sentence.key, dict(sentence.values))
        self.sentence = sentence
        self.next_step = next_step


class FieldRefusal(Refusal):
    """Values that cannot be right, each with a sentence under the name of its field."""

    def __init__(self, fields: Mapping[str, Sentence]) -> None:
        super().__init__(next(iter(fields.values())))
        self.fields = dict(fields)


class PinRefused(Refusal):
    """A signature that does not count: the wrong PIN, none yet, too many tries, or a mark that is not carried."""


class StaleRow(Refusal):
    """Somebody else saved the same row in between; both values are shown, nothing is overwritten."""

    def __init__(self, sentence: Sentence, theirs: Mapping[str, object], mine: Mapping[str, object]):
        super().__init__(sentence)
        self.theirs = dict(theirs)
        self.mine = dict(mine)


class Held(Refusal):
    """The job is held: ``reasons`` are the stops and the gates that are still to do, stops first."""

    def __init__(self, sentence: Sentence, reasons: tuple[Sentence, ...]) -> None:
        super().__init__(sentence)
        self.reasons = reasons


class Way(StrEnum):
    """A way on from a refused book that every edge has its own words for: a button, or a word to type."""

    ANOTHER_BOOK = "another book"
    RESTORE = "restore"


class BookRefused(Refusal):
    """A book that cannot be opened as it is. Its bytes are untouched. ``ways`` lead on from here."""

    def __init__(
        self, sentence: Sentence, next_step: Sentence | None = None, *, ways: tuple[Way, ...] = ()
    ) -> None:
        super().__init__(sentence, next_step)
        self.ways = ways


class Fault(Exception):
    """A mistake of the program itself: shown with details to copy, never worded away."""
