"""A field for a part of the stock, by its code or its words, and what is known of the one that is named."""

from __future__ import annotations

from collections.abc import Sequence

from app.screens.kit.fields import Field
from app.screens.language import day, say
from app.work.office.parts import PartLine


class PartField(Field):
    """``chosen`` is the part that is named, ``about`` what stands under the field."""

    def __init__(self) -> None:
        super().__init__("", width=340, hint=say("code or words"))
        self._parts: dict[str, PartLine] | None = None  # not asked yet

    def show_parts(self, lines: Sequence[PartLine]) -> None:
        """Offer these parts."""
        self._parts = {}
        for line in lines:
            for words in (line.code, line.words, f"{line.code} {line.words}"):
                self._parts.setdefault(words.casefold(), line)
        self.set_seen([f"{line.code} {line.words}" for line in lines] + [line.words for line in lines])

    def chosen(self) -> PartLine | None:
        """The part that is named."""
        return (self._parts or {}).get(self.text().casefold())

    def about(self) -> str:
        """What it is, how many there are and are on their way; or why nothing is chosen."""
        line = self.chosen()
        if line is not None:
            return ", ".join(filter(None, (line.words, line.rating, *stock_words(line), *_demands(line))))
        if self._parts is None:
            return ""
        if not self._parts:
            return say("No parts are kept yet: the Office lists them.")
        return say("No part of the list is called so.") if self.text() else ""


def stock_words(line: PartLine) -> tuple[str, ...]:
    """How many are on hand, how many on order and until when, and where they lie."""
    ordered = ""
    if line.on_order and line.expected_on is not None:
        expected = day(line.expected_on, "d MMM")
        ordered = say("{n} on order, expected {day}", n=line.on_order, day=expected)
    return (
        say("{n} on hand", n=line.on_hand),
        ordered,
        say("bin {name}", name=line.bin) if line.bin else "",
    )


def _demands(line: PartLine) -> tuple[str, ...]:
    return (
        say("must carry {what}", what=line.safety_type) if line.safety_type else "",
        say("protects people: no other in its place") if line.safety_critical else "",
    )
