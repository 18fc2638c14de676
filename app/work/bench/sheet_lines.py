"""The lines of a job sheet's lists, as frozen facts."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from app.trade.bench.flag import Closing, Level, Subject
from app.trade.bench.kinds import (
    HowSeen,
    Warmth,
)
from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import (
    Left,
    Mark,
    Moment,
    Outcome,
    TrialOutcome,
    Way,
)
from app.trade.bench.start_up import StartUpResult
from app.trade.bench.verdict import VerdictWord
from app.trade.money import Money
from app.trade.office.part_orders import Ordered
from app.trade.sentence import Measure, Sentence


@dataclass(frozen=True, slots=True)
class Struck:
    """Why, when and by whom a record was struck out. It stays legible."""

    at: datetime
    by: str
    reason: str


@dataclass(frozen=True, slots=True)
class FlagLineFact:
    """One open flag as a line."""

    id: int
    rule: str
    level: Level
    subject: Subject
    word: Sentence
    sentence: Sentence
    clears: Sentence
    closing: Closing
    needs: Mark | None
    owner_sees: bool
    acknowledged: str  # who, empty while nobody did


@dataclass(frozen=True, slots=True)
class GateLineFact:
    """One step still to do or done. ``reason`` is what it says as a stop."""

    rule: str
    words: Sentence
    done: bool
    how: Sentence | None
    reason: Sentence
    link: Sentence | None


@dataclass(frozen=True, slots=True)
class StartUpLine:
    """One climb of the ladder. ``stands`` is the one sentence that says where the job stands."""

    id: int
    rung: int
    seen: HowSeen
    tries: int
    stopped_in: int
    error_shown: str
    disc: str
    warmth: Warmth
    warm_minutes: int | None
    room: Decimal | None
    moment: Moment
    note: str
    at: datetime
    by: str
    struck: Struck | None

    @property
    def result(self) -> StartUpResult:
        """The climb as the ladder reads it."""
        return StartUpResult(
            rung=self.rung,
            tries=self.tries,
            stopped_in=self.stopped_in,
            seen=self.seen,
            warmth=self.warmth,
            warm_minutes=self.warm_minutes,
            room=self.room,
            disc=self.disc,
            error_shown=self.error_shown,
        )


@dataclass(frozen=True, slots=True)
class ReadingLine:
    """One reading as shown; numbers are in ``unit``. ``last`` is the same transport's last value before this job."""

    id: int
    quantity: str
    name: Sentence
    detail: str
    value: Decimal | None  # None: open circuit
    bound: str
    uncertainty: Decimal | None
    unit: str
    low: Decimal | None
    high: Decimal | None
    limit_source: str
    verdict: VerdictWord | None
    probability: float | None
    read_with: str
    instrument_overdue: bool
    moment: Moment
    trial_number: int | None
    trial_side: str
    conditions: str  # disc, radius or track, in one line
    last: Decimal | None
    at: datetime
    by: str
    struck: Struck | None
    warm_minutes: int | None = None
    room: Decimal | None = None  # degrees Celsius
    seconds: int | None = None  # counting time
    as_made: Sentence | None = None  # its verdict at the maker's value, where a live change moves it


@dataclass(frozen=True, slots=True)
class TrialReading:
    """A quantity read before and after a trial. ``z`` is the difference in its standard uncertainties."""

    name: Sentence
    before: Measure | None
    after: Measure | None
    z: float | None


@dataclass(frozen=True, slots=True)
class TrialTile:
    """One trial."""

    id: int
    number: int
    words: str
    reference: str
    readings: tuple[TrialReading, ...]
    rung_before: int | None
    rung_after: int | None
    outcome: TrialOutcome | None
    left: Left
    came_back: bool
    modification_id: int | None  # what it left inside
    order_reason: str
    note: str
    at: datetime
    by: str
    struck: Struck | None
    suspect: Sentence | None = None  # what it was made for
    proposed: TrialOutcome | None = None  # what the book worked out
    change: str = ""  # its id in the list of changes


@dataclass(frozen=True, slots=True)
class ModificationLine:
    """One modification of the unit or the transport in it, with its worked effect in one sentence."""

    id: int
    ours: bool
    kind: Kind
    circuit: Circuit
    law: Law
    reference: str
    words: Sentence  # what it is, with its numbers
    was: str
    now: str
    value_before: Decimal | None
    value_after: Decimal | None
    tolerance_before: Decimal | None
    tolerance_after: Decimal | None
    unit: str
    ratio: Decimal | None
    effect: Sentence | None
    way_back: Sentence
    why: str
    agreed: Sentence | str
    named_on: str
    assessed: str
    in_transport: bool
    trial_id: int | None
    job_number: int
    at: datetime
    by: str
    reversed_at: datetime | None
    reversed_in: int | None
    struck: Struck | None
    reversed_by_trial: int | None = None  # its id


@dataclass(frozen=True, slots=True)
class WorkLine:
    """Labour or a part used: words, how much, what it costs net."""

    id: int
    kind: str  # labour, part, fixed charge, fee, discount, text
    words: str
    quantity: Decimal
    unit: str
    net: Money
    at: datetime
    by: str
    struck: Struck | None


@dataclass(frozen=True, slots=True)
class OrderedPart:
    """A part that was ordered for the job. ``bin``: where it lies once it is here."""

    part_id: int
    code: str
    words: str
    unit: str
    bin: str
    supplier: str
    ordered: Ordered


@dataclass(frozen=True, slots=True)
class SafetyStepLine:
    """One step of a safety test."""

    name: Sentence
    value: Sentence | Measure | None
    limit: Sentence | None
    meets: bool | None
    shop_verdict: str
    probability: float | None


@dataclass(frozen=True, slots=True)
class SafetyTestLine:
    """One electrical safety test."""

    id: int
    job_id: int
    at: datetime
    by: str
    edition: str
    result: str
    counts: bool
    steps: tuple[SafetyStepLine, ...]
    tested_with: str = ""
    note: str = ""  # what the tester wrote, and the cord by which the limit was chosen


@dataclass(frozen=True, slots=True)
class CaseLine:
    """The case opened or closed."""

    opened: bool
    assumed: bool
    at: datetime
    by: str


@dataclass(frozen=True, slots=True)
class MessageLine:
    """One call or message."""

    id: int
    to_customer: bool
    way: Way
    text: str
    spoke_with: str
    at: datetime
    by: str


@dataclass(frozen=True, slots=True)
class AgreementLine:
    """The customer's recorded yes or no."""

    id: int
    kind: str
    yes: bool
    what: str
    amount: Money | None
    way: Way
    said_by: str
    said_at: datetime
    by: str


@dataclass(frozen=True, slots=True)
class ThingLine:
    """Something that came with the player."""

    id: int
    kind: str
    words: str
    returned: bool


@dataclass(frozen=True, slots=True)
class FileLine:
    """A photo or file of the job."""

    id: int
    name: str
    media_type: str
    size: int
    sha256: str
    note: str
    at: datetime
    by: str
    struck: Struck | None


@dataclass(frozen=True, slots=True)
class NoteLine:
    """A line somebody wrote on the job."""

    id: int
    text: str
    at: datetime
    by: str
    struck: Struck | None


@dataclass(frozen=True, slots=True)
class PaperLine:
    """A paper that was issued."""

    id: int
    kind: str
    title: str
    issued_at: datetime
    by: str
    filed: bool


@dataclass(frozen=True, slots=True)
class EarlierJob:
    """An earlier visit of the same unit."""

    id: int
    number: int
    handed_back_at: datetime | None
    outcome: Outcome | None
    done: str  # the last change that helped, or the fault in short
