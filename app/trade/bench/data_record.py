"""One record of the bench data (parsed JSON), read strictly: every key typed, none left over."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal, InvalidOperation
from typing import NoReturn

from app.trade.bench.kinds import Arrangement
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence

ARRANGEMENTS = {"S": Arrangement.SWING_ARM, "T": Arrangement.SLED}
BOTH = "B"


class Record:
    """Reads one JSON object. ``where`` says in refusals which record is wrong, e.g. ``quantities seek_time``."""

    def __init__(self, content: object, where: str) -> None:
        self.where = where
        if not isinstance(content, Mapping):
            self.refuse(Sentence("it is no record"))
        self._content: Mapping[str, object] = content
        self._seen: set[str] = set()

    def refuse(self, what: Sentence) -> NoReturn:
        """The data are wrong here: a Refusal that says where and what."""
        raise Refusal(
            Sentence("The bench data are wrong at {where}: {what}.", {"where": self.where, "what": what})
        )

    def has(self, key: str) -> bool:
        """Whether the key is there and not null."""
        if self._content.get(key) is None:
            self._seen.add(key)
            return False
        return True

    def take(self, key: str) -> object:
        """The value as it stands; a missing key is refused."""
        self._seen.add(key)
        if key not in self._content:
            self.refuse(Sentence("{field} is missing", {"field": key}))
        return self._content[key]

    def text(self, key: str, *, empty: bool = False) -> str:
        """A text; an empty one only where allowed."""
        value = self.take(key)
        if not isinstance(value, str) or not (empty or value.strip()):
            self.refuse(Sentence("{field} is no text", {"field": key}))
        return value

    def optional_text(self, key: str) -> str:
        """A text, empty where the key is missing."""
        return self.text(key, empty=True) if self.has(key) else ""

    def whole(self, key: str, low: int, high: int) -> int:
        """A whole number from low to high."""
        value = self.take(key)
        if not isinstance(value, int) or isinstance(value, bool) or not low <= value <= high:
            self.refuse(
                Sentence(
                    "{field} is no whole number from {low} to {high}",
                    {"field": key, "low": low, "high": high},
                )
            )
        return value

    def decimal(self, key: str) -> Decimal:
        """A finite decimal number, written as text so that its digits stay."""
        value = self.take(key)
        try:
            number = Decimal(value) if isinstance(value, str) else Decimal("NaN")
        except InvalidOperation:
            number = Decimal("NaN")
        if not number.is_finite():
            self.refuse(Sentence("{field} is no number in quotes", {"field": key}))
        return number

    def optional_decimal(self, key: str) -> Decimal | None:
        """As `decimal`; None where the key is missing or null."""
        return self.decimal(key) if self.has(key) else None

    def truth(self, key: str) -> bool:
        """True or false; false where the key is missing."""
        if not self.has(key):
            return False
        value = self.take(key)
        if not isinstance(value, bool):
            self.refuse(Sentence("{field} is neither true nor false", {"field": key}))
        return value

    def arrangement(self, key: str = "arrangement") -> Arrangement | None:
        """S or T; None for both."""
        code = self.text(key)
        if code != BOTH and code not in ARRANGEMENTS:
            self.refuse(Sentence("{field} is none of S, T and B", {"field": key}))
        return ARRANGEMENTS.get(code)

    def list_of(self, key: str) -> list[object]:
        """A list; empty where the key is missing."""
        value = self.take(key) if self.has(key) else []
        if not isinstance(value, list):
            self.refuse(Sentence("{field} is no list", {"field": key}))
        return value

    def texts(self, key: str) -> tuple[str, ...]:
        """A list of texts without doubles."""
        values = [value for value in self.list_of(key) if isinstance(value, str) and value]
        if len(values) != len(self.list_of(key)) or len(set(values)) != len(values):
            self.refuse(Sentence("{field} is no list of different texts", {"field": key}))
        return tuple(values)

    def records(self, key: str, name: str = "id") -> Iterator[Record]:
        """The records of a list, each named in refusals by its ``name``; none may be left half read."""
        for number, content in enumerate(self.list_of(key), start=1):
            label = content.get(name, number) if isinstance(content, Mapping) else number
            record = Record(content, f"{key} {label}")
            yield record
            record.done()

    def record(self, key: str) -> Record:
        """A record inside this one; whoever reads it calls `done`."""
        return Record(self.take(key), f"{self.where}, {key}")

    def items(self) -> Iterator[tuple[str, object]]:
        """All pairs, where the keys are data themselves."""
        for key in self._content:
            yield key, self.take(key)

    def done(self) -> None:
        """Refuse what nobody has read: a key misspelt would else be lost in silence."""
        left = sorted(set(self._content) - self._seen)
        if left:
            self.refuse(Sentence("nobody knows {keys}", {"keys": tuple(left)}))


def unique(ids: list[str], record: Record) -> None:
    """Refuse an id that stands there twice."""
    double = sorted({one for one in ids if ids.count(one) > 1})
    if double:
        record.refuse(Sentence("the id {ids} stands there twice", {"ids": tuple(double)}))
