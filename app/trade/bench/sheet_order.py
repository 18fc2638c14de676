"""The sheet of a transport type: which readings, in which order, at which stage of the job."""

from __future__ import annotations

from enum import StrEnum
from typing import NamedTuple

from app.trade.bench.stages import Moment
from app.trade.sentence import words

_BETWEEN = ": "


class When(StrEnum):
    """The stage of a job at which the sheet asks for a reading."""

    ALWAYS = words("at every stage")
    ARRIVAL = words("on arrival")
    DURING = words("during the work")
    FINAL = words("at the end")
    BOTH_ENDS = words("on arrival and at the end")

    def holds(self, moment: Moment) -> bool:
        """Whether the sheet asks for it at this moment."""
        return moment in _MOMENTS[self]


_MOMENTS = {
    When.ALWAYS: frozenset(Moment),
    When.ARRIVAL: frozenset({Moment.ARRIVAL}),
    When.DURING: frozenset({Moment.DURING}),
    When.FINAL: frozenset({Moment.FINAL}),
    When.BOTH_ENDS: frozenset({Moment.ARRIVAL, Moment.FINAL}),
}


class SheetEntry(NamedTuple):
    """One reading that the sheet asks for, and when."""

    quantity: str
    when: When = When.ALWAYS

    @property
    def text(self) -> str:
        """As the book keeps it: the quantity's id, and the stage behind a colon where it is not every one."""
        return self.quantity if self.when is When.ALWAYS else f"{self.quantity}{_BETWEEN}{self.when.value}"


def read_entry(text: str) -> SheetEntry:
    """An entry from its text. ValueError for a stage that nobody knows."""
    quantity, _, when = text.partition(_BETWEEN)
    return SheetEntry(quantity, When(when) if when else When.ALWAYS)
