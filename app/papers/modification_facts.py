"""A modification as papers tell it: the same block, word for word, on invoice and service report."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from app.papers.facts import Clause, Flag, Said, Shown
from app.papers.facts_json import Frozen
from app.trade.sentence import Measure


@dataclass(frozen=True)
class WorkedOut(Frozen):
    """A figure of the maker's design against the figure now, worked out from the numbers."""

    name: Said  # "Coil current"
    maker: Shown
    now: Shown


@dataclass(frozen=True)
class Measured(Frozen):
    """A figure measured after the change. ``plus_minus`` is the standard uncertainty in the same unit."""

    name: Said
    now: Measure
    limit: Shown = ""  # "≤ 70 °C"
    plus_minus: Decimal | None = None


@dataclass(frozen=True)
class ModificationFacts(Frozen):
    """One non-standard change that stays inside, in plain words with its numbers and the way back."""

    paragraphs: tuple[
        Clause, ...
    ]  # What. Why. Agreed. To undo it. In this order, leads worded with their full stop
    worked_out: tuple[WorkedOut, ...] = ()
    measured: tuple[Measured, ...] = ()
    measured_when: Said = ""  # head of that part: Sentence("Measured, 30 min warm")
    fine_print: Said = ""
    flags: tuple[Flag, ...] = ()  # its caution sentence(s)
