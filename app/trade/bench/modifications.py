"""A departure from the maker's design that stays in the player until somebody reverses it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from enum import StrEnum

from app.trade.sentence import Sentence, words


class Kind(StrEnum):
    """What was done."""

    PARALLEL = words("resistor in parallel")
    SERIES = words("resistor in series")
    REPLACED = words("resistor replaced")
    TRIMMER = words("trimmer turned")
    OTHER_TYPE = words("part of another type")
    MECHANICAL = words("mechanical shift")
    FIRMWARE = words("firmware changed")
    JUMPER = words("jumper set")
    WIRING = words("wiring")
    FUSE = words("fuse")
    INTERLOCK = words("interlock")
    SUPPLY = words("supply changed")
    OTHER = words("other change")


class Circuit(StrEnum):
    """Which part of the player the change acts on."""

    RADIAL_COIL = words("radial coil drive")
    FOCUS_COIL = words("focus coil drive")
    LASER_SUPPLY = words("laser supply")
    MAINS = words("mains")
    EARTH = words("protective earth")
    SERVO_GAIN = words("servo gain")
    SUPPLY_RAIL = words("supply rail")
    FUSE = words("fuse")
    INTERLOCK = words("laser interlock")
    SIGNAL = words("signal")
    MECHANICS = words("mechanics")
    OTHER = words("other circuit")


class Law(StrEnum):
    """How current or gain goes with the resistor. ``NEITHER`` shows no factor and asks for readings."""

    CURRENT = words("current as 1/R")
    GAIN = words("gain as R")
    NEITHER = words("neither")


class Origin(StrEnum):
    """Who made the change."""

    OURS = words("ours")
    FOUND = words("found, not ours")


SETTINGS = frozenset(
    {Kind.FIRMWARE, Kind.JUMPER}
)  # told by what stood there before and what stands there now
RESISTOR_KINDS = frozenset({Kind.PARALLEL, Kind.SERIES, Kind.REPLACED})
COIL_CIRCUITS = frozenset({Circuit.RADIAL_COIL, Circuit.FOCUS_COIL})
# A part here protects people, whatever the part itself is marked with.
SAFETY_CIRCUITS = frozenset({Circuit.MAINS, Circuit.EARTH, Circuit.FUSE, Circuit.INTERLOCK})


@dataclass(frozen=True, slots=True)
class Reversal:
    """The change was put back. ``note`` names the cause of a wrong fuse; ``tried`` says the switch was tried."""

    at: datetime
    by: str
    note: str = ""
    tried: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Modification:
    """One modification as the rules need to know it. Struck-out ones are never handed to the rules.

    ``maker_value`` and ``new_value`` are in ohm for resistors and in volt for a changed supply; ``new_value``
    is what was fitted (replaced), what was added (parallel, series) or what the rail is now. ``was`` and
    ``now`` say in words what a change without a formula took out and put in. ``power`` and ``rating`` in watt
    are those of the added or new part at its hottest.
    """

    number: int
    job: int
    kind: Kind
    circuit: Circuit
    where: str  # reference designator or place: R314
    law: Law = Law.NEITHER
    maker_value: Decimal | None = None
    new_value: Decimal | None = None
    was: str = ""
    now: str = ""
    way_back: str = ""
    power: Decimal | None = None
    rating: Decimal | None = None
    origin: Origin = Origin.OURS
    in_transport: bool = False  # it leaves the unit together with the transport
    at: datetime
    reading_before: bool = False  # a trimmer was read before it was turned
    safety_part: bool = False  # the part is marked as protecting people
    agreed: Sentence | str = ""  # who said yes, when, by which way, to what; empty: no recorded yes
    named_on: str = ""  # the filed paper of this job that names it; empty: none
    assessed: bool = False  # a found one: its effect was worked out, and it was kept or reversed on purpose
    reversal: Reversal | None = None

    def __post_init__(self) -> None:
        if self.at.tzinfo is None or (self.reversal is not None and self.reversal.at.tzinfo is None):
            raise ValueError("a naive instant has no place in the book")

    @property
    def live(self) -> bool:
        """Still in the player."""
        return self.reversal is None

    @property
    def ours(self) -> bool:
        """Made in this shop."""
        return self.origin is Origin.OURS

    @property
    def protects_people(self) -> bool:
        """The changed part is safety-critical, by its own mark or by its circuit."""
        return self.safety_part or self.circuit in SAFETY_CIRCUITS


def live(modifications: tuple[Modification, ...]) -> tuple[Modification, ...]:
    """Those that are still in the player, in the order given."""
    return tuple(m for m in modifications if m.live)


_PHRASES: dict[Circuit, Sentence] = {
    Circuit.RADIAL_COIL: Sentence("the radial coil"),
    Circuit.FOCUS_COIL: Sentence("the focus coil"),
    Circuit.LASER_SUPPLY: Sentence("the laser supply"),
    Circuit.MAINS: Sentence("the mains side"),
    Circuit.EARTH: Sentence("the protective earth"),
    Circuit.SERVO_GAIN: Sentence("the servo"),
    Circuit.SUPPLY_RAIL: Sentence("the supply rail"),
    Circuit.FUSE: Sentence("the fuse"),
    Circuit.INTERLOCK: Sentence("the laser interlock"),
    Circuit.SIGNAL: Sentence("the signal path"),
    Circuit.MECHANICS: Sentence("the mechanics"),
    Circuit.OTHER: Sentence("another circuit"),
}


def in_words(circuit: Circuit) -> Sentence:
    """The circuit as it stands in the middle of a sentence: the radial coil."""
    return _PHRASES[circuit]
