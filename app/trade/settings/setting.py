"""How one setting of the shop is declared: key, type, default, words, who may change it, what it may hold."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from enum import StrEnum
from typing import Any, Generic, TypeVar

from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.trade.typed_words import check_typed

T = TypeVar("T")


class Who(StrEnum):
    """Who may change a setting."""

    ANYONE = "anyone"
    OWNER = "owner"


class Group(StrEnum):
    """The page of the Office on which a setting stands."""

    SHOP = "shop"
    COUNTER = "counter"
    MONEY = "money"
    PARTS = "parts"
    PAPERS = "papers"
    CALENDAR = "calendar"
    SAFETY = "safety"
    BENCH = "bench"


class Kind(StrEnum):
    """What sort of value it is, so that a screen knows which editor to show."""

    TEXT = "text"
    PARAGRAPH = "paragraph"
    LINES = "lines"
    CHOICE = "choice"
    YES_NO = "yes or no"
    WHOLE = "whole number"
    PRICE = "price"
    DECIMAL = "decimal"
    PICTURE = "picture"
    WEEKDAYS = "weekdays"
    CLOSED_DAYS = "closed days"
    VAT_RATES = "vat rates"
    TERMS = "terms"
    SAFETY_STANDARD = "safety standard"


@dataclass(frozen=True)
class Shape(Generic[T]):
    """How one kind of value becomes JSON data and back.

    ``unpack`` raises ValueError, KeyError, TypeError or AttributeError for data that ``pack`` never wrote.
    """

    kind: Kind
    pack: Callable[[T], Any]
    unpack: Callable[[Any], T]


def _text(plain: Any) -> str:
    if not isinstance(plain, str):
        raise TypeError(f"not a text: {plain!r}")
    return plain


def whole_number(plain: Any) -> int:
    """An int and nothing that only behaves like one. Raises TypeError."""
    if isinstance(plain, bool) or not isinstance(plain, int):
        raise TypeError(f"not a whole number: {plain!r}")
    return plain


def _yes_no(plain: Any) -> bool:
    if not isinstance(plain, bool):
        raise TypeError(f"neither yes nor no: {plain!r}")
    return plain


def finite(plain: Any) -> Decimal:
    """A finite Decimal from its text. Raises ValueError."""
    try:
        number = Decimal(_text(plain))
    except InvalidOperation:
        raise ValueError(f"not a number: {plain!r}") from None
    if not number.is_finite():
        raise ValueError(f"not a finite number: {plain!r}")
    return number


TEXT: Shape[str] = Shape(Kind.TEXT, _text, _text)
PARAGRAPH: Shape[str] = Shape(Kind.PARAGRAPH, _text, _text)
CHOICE: Shape[str] = Shape(Kind.CHOICE, _text, _text)
PICTURE: Shape[str] = Shape(Kind.PICTURE, _text, _text)  # SHA-256 of the attachment, empty: none
LINES: Shape[tuple[str, ...]] = Shape(Kind.LINES, list, lambda plain: tuple(_text(line) for line in plain))
YES_NO: Shape[bool] = Shape(Kind.YES_NO, _yes_no, _yes_no)
WHOLE: Shape[int] = Shape(Kind.WHOLE, whole_number, whole_number)
WHOLE_CHOICE: Shape[int] = Shape(Kind.CHOICE, whole_number, whole_number)
PRICE: Shape[int] = Shape(Kind.PRICE, whole_number, whole_number)  # millionths of the shop's currency
DECIMAL: Shape[Decimal] = Shape(Kind.DECIMAL, str, finite)


def anything(value: object) -> Sentence | None:
    """The rule of a setting that has none."""
    return None


@dataclass(frozen=True, eq=False)
class Setting(Generic[T]):
    """One setting of the shop, declared once. The book keeps only what differs from ``default``.

    ``rule`` says why a value cannot be right, or None. ``choices`` are the values a screen offers, with words.
    ``unit`` stands behind the field ("days", "%").
    """

    key: str
    shape: Shape[T]
    default: T
    label: Sentence
    group: Group
    who: Who = Who.OWNER
    rule: Callable[[T], Sentence | None] = anything
    choices: tuple[tuple[T, Sentence], ...] = ()
    hint: Sentence | None = None
    unit: Sentence | None = None

    @property
    def kind(self) -> Kind:
        """Which editor it needs."""
        return self.shape.kind

    def check(self, value: T) -> Sentence | None:
        """Why this value cannot be right, or None."""
        if self.choices and all(value != choice for choice, _ in self.choices):
            return Sentence("Choose one of the values offered.")
        return self.rule(value)

    def to_plain(self, value: T) -> Any:
        """The value as JSON data, for the book."""
        return self.shape.pack(value)

    def from_plain(self, plain: Any) -> T:
        """The value that `to_plain` wrote. Raises ValueError for anything else."""
        try:
            return self.shape.unpack(plain)
        except (TypeError, ValueError, KeyError, AttributeError, Refusal) as mismatch:
            raise ValueError(f"setting {self.key} cannot hold {plain!r}") from mismatch


def at_most(letters: int) -> Callable[[str], Sentence | None]:
    """A rule: one line of at most so many letters that can be printed."""
    return lambda value: check_typed(value, letters)


def paragraph(letters: int) -> Callable[[str], Sentence | None]:
    """A rule: several lines of at most so many letters in all."""
    return lambda value: check_typed(value, letters, lines=True)


def lines_of(most: int, letters: int) -> Callable[[tuple[str, ...]], Sentence | None]:
    """A rule: at most so many lines, each as `at_most` has it and none empty."""

    def rule(value: tuple[str, ...]) -> Sentence | None:
        if len(value) > most:
            return Sentence("At most {most} lines have room here.", {"most": most})
        if any(not line.strip() for line in value):
            return Sentence("Leave no empty line.")
        return next((wrong for line in value if (wrong := check_typed(line, letters))), None)

    return rule


def between(least: int, most: int) -> Callable[[int], Sentence | None]:
    """A rule: a whole number from ``least`` to ``most``, both allowed."""

    def rule(value: int) -> Sentence | None:
        if least <= value <= most:
            return None
        return Sentence("From {least} to {most}.", {"least": least, "most": most})

    return rule
