"""What stands on a service report: what was found, tried, fitted and left, in figures and in plain words."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from app.papers.facts import Caution, Clause, Flag, Player, Said, SheetFacts, Shown
from app.papers.facts_json import Frozen
from app.papers.modification_facts import ModificationFacts


@dataclass(frozen=True)
class Climb(Frozen):
    """One climb of the start-up ladder. ``rung``: the highest reached, 0 to all of them."""

    rung: int
    day: date
    tries: Said = ""  # Sentence("stopped in {n} of {tries} tries")


@dataclass(frozen=True)
class LadderFacts(Frozen):
    """The ladder before and after, drawn small. ``rungs`` from the lowest up."""

    rungs: tuple[Said, ...]
    arrival: Climb | None = None
    final: Climb | None = None
    conditions: Said = ""  # how the last climb was seen


@dataclass(frozen=True)
class Value(Frozen):
    """One value in the unit of its row. None: an open circuit. ``bound`` is ">" where nothing was read below."""

    value: Decimal | None
    u: Decimal | None = None  # standard uncertainty, as it is shown
    bound: str = ""


@dataclass(frozen=True)
class ReadingRow(Frozen):
    """A quantity on arrival and at the end. ``verdict`` is that of the final value, of the first where there is
    no other; ``was`` what the arrival was, where it was not within. ``strong`` sets it in Semibold."""

    name: Said
    unit: str
    arrival: Value | None = None
    final: Value | None = None
    low: Decimal | None = None
    high: Decimal | None = None
    verdict: Said = ""
    strong: bool = False
    was: Said = ""
    not_readable: bool = False  # on arrival: its rung was not reached


@dataclass(frozen=True)
class StruckReading(Frozen):
    """A reading that was struck out and stays legible: what it was, then why and by whom."""

    what: Said
    why: Said


@dataclass(frozen=True)
class TrialReading(Frozen):
    """A quantity before and after a trial."""

    name: Said
    unit: str
    before: Decimal | None
    after: Decimal | None


@dataclass(frozen=True)
class TrialRow(Frozen):
    """One change tried. ``effect`` in Semibold, ``rest`` behind it: what became of it."""

    number: int
    change: Said
    readings: tuple[TrialReading, ...] = ()
    rung_before: int | None = None
    rung_after: int | None = None
    effect: Said = ""
    rest: Said = ""


@dataclass(frozen=True)
class PartRow(Frozen):
    """A part, and what became of it."""

    what: Said
    became: Said


@dataclass(frozen=True)
class RatioRow(Frozen):
    """How large a change is against the maker's value, with the shop's lines for a caution and for the owner."""

    name: Said
    ratio: Decimal
    caution: Decimal | None = None
    owner: Decimal | None = None


@dataclass(frozen=True)
class SafetyStep(Frozen):
    """One step of the electrical safety test. ``meets`` is arithmetic, ``verdict`` a person's."""

    name: Said
    measured: Shown
    limit: Shown = ""
    meets: Said = ""
    verdict: Said = ""


@dataclass(frozen=True)
class SafetyRecord(Frozen):
    """The electrical safety test as it was recorded."""

    edition: Said
    steps: tuple[SafetyStep, ...]
    result: Said  # in Semibold
    about: Said  # when, by whom
    fine_print: Said = ""


@dataclass(frozen=True)
class Photo(Frozen):
    """A photo that was chosen for the report: JPEG bytes as base64, and what it shows."""

    picture: str
    caption: str = ""


@dataclass(frozen=True)
class ServiceReportFacts(Frozen):
    """A service report. Sections without anything in them are left out."""

    sheet: SheetFacts
    job: int
    day: date
    customer_name: str
    player: Player
    complaint: str  # letter for letter
    complaint_words: tuple[Said, ...] = ()  # picked at the counter
    bench: str = ""  # who worked on it
    ladder: LadderFacts | None = None
    finding: tuple[Clause, ...] = ()  # Known. Done. Not known.
    flags: tuple[Flag, ...] = ()  # open stops
    readings: tuple[ReadingRow, ...] = ()
    struck: tuple[StruckReading, ...] = ()
    reading_notes: tuple[Clause, ...] = ()
    reading_sources: Said = ""  # where the limits come from
    instruments: Said = ""
    captures: Said = ""
    trials: tuple[TrialRow, ...] = ()
    trials_fine_print: tuple[Said, ...] = ()
    parts: tuple[PartRow, ...] = ()
    modifications: tuple[ModificationFacts, ...] = ()
    ratios: tuple[RatioRow, ...] = ()
    photos: tuple[Photo, ...] = ()
    safety: SafetyRecord | None = None
    safety_missing: Said = ""  # said where there is no test: why none is needed, or that none was done
    cautions_user: tuple[Caution, ...] = ()
    cautions_technician: tuple[Caution, ...] = ()
    guarantee: Said = ""
