"""Limits of the electrical safety test as the shop entered them, with standard and edition.

The figures of a standard belong to the shop: it owns the edition and copies them in. The program ships a
proposal to check against it, and nothing entered means that no test passes.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal

from app.trade.bench.stages import MainsClass
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence

THIN = Decimal("1.5")  # mm²: up to here the rule by length holds (trade articles on EN 50678)
COPPER = Decimal(56)  # m/(ohm mm²), conductivity; from memory
CONTACTS = Decimal("0.1")  # ohm; from memory


@dataclass(frozen=True)
class CordRule:
    """Limit of the protective conductor by cord length: ``base_ohm`` up to ``base_metres``, then ``more_ohm``
    for each further ``more_metres`` that is started, never above ``most_ohm``."""

    base_ohm: Decimal
    base_metres: Decimal
    more_ohm: Decimal
    more_metres: Decimal
    most_ohm: Decimal

    def __post_init__(self) -> None:
        figures = (self.base_ohm, self.base_metres, self.more_ohm, self.more_metres, self.most_ohm)
        if any(not figure.is_finite() or figure < 0 for figure in figures) or not self.more_metres:
            raise FieldRefusal({"protective_conductor": Sentence("These figures cannot be a limit.")})

    def limit(self, cord_metres: Decimal | None, cord_mm2: Decimal | None = None) -> Decimal:
        """The limit in ohm for a cord; a cord of unknown length gets the limit of the shortest. Above 1.5 mm² the
        cord's own resistance l / (kappa A) and what its contacts may add is the limit, where that is less."""
        by_length = self._by_length(cord_metres)
        if cord_mm2 is None or cord_metres is None or cord_mm2 <= THIN:
            return by_length
        return min(by_length, cord_metres / (COPPER * cord_mm2) + CONTACTS)

    def _by_length(self, cord_metres: Decimal | None) -> Decimal:
        if cord_metres is None or cord_metres <= self.base_metres:
            return min(self.base_ohm, self.most_ohm)
        started = math.ceil((cord_metres - self.base_metres) / self.more_metres)
        return min(self.base_ohm + self.more_ohm * started, self.most_ohm)


@dataclass(frozen=True)
class SafetyLimits:
    """One edition of a standard as entered: ohm, ampere. A figure that is None was not entered."""

    standard: str
    edition: str
    protective_conductor: CordRule | None = None
    insulation_class_i: Decimal | None = None
    insulation_class_ii: Decimal | None = None
    protective_conductor_current: Decimal | None = None
    touch_current: Decimal | None = None

    @property
    def named(self) -> bool:
        """Both standard and edition were entered; without them no test passes."""
        return bool(self.standard.strip() and self.edition.strip())

    @property
    def title(self) -> str:
        """Standard and edition as printed, e.g. ``EN 50678:2020``."""
        return f"{self.standard.strip()}:{self.edition.strip()}"

    def insulation(self, mains_class: MainsClass) -> Decimal | None:
        """Least insulation resistance in ohm; a class not known takes the stricter figure, or none."""
        if mains_class is MainsClass.I:
            return self.insulation_class_i
        if mains_class is MainsClass.II:
            return self.insulation_class_ii
        if self.insulation_class_i is None or self.insulation_class_ii is None:
            return None
        return max(self.insulation_class_i, self.insulation_class_ii)


# What the Office page proposes, with standard and edition left for the shop to enter. Sources, as read in
# secondary texts: trade articles on EN 50678 for the protective conductor, a tester manual for
# VDE 0701-0702:2008 for insulation, the 2008 tables for the currents.
PROPOSED = SafetyLimits(
    standard="",
    edition="",
    protective_conductor=CordRule(Decimal("0.3"), Decimal(5), Decimal("0.1"), Decimal("7.5"), Decimal("1.0")),
    insulation_class_i=Decimal(1_000_000),
    insulation_class_ii=Decimal(2_000_000),
    protective_conductor_current=Decimal("0.0035"),
    touch_current=Decimal("0.0005"),
)
