"""What the rules need to know of one job with its unit and transport, in plain frozen values.

The book fills these; flags and gates are functions of them and of nothing else. Struck-out readings, trials
and modifications are left out by whoever fills them. Sequences are in the order of time.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal

from app.trade.bench.kinds import TransitLock
from app.trade.bench.modifications import Modification
from app.trade.bench.stages import CaseStep, MainsClass, Mark, Moment, Outcome, Stage
from app.trade.bench.verdict import VerdictWord
from app.trade.money import Money
from app.trade.sentence import Measure, Sentence


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingFact:
    """One reading of this job, as shown. ``u``, ``low`` and ``high`` are in the unit of ``value``."""

    quantity: str  # id of the quantity: driver_temp
    name: Sentence  # its words: Sentence("driver temperature")
    value: Measure
    moment: Moment
    at: datetime
    u: Decimal = Decimal(0)  # standard uncertainty
    low: Decimal | None = None
    high: Decimal | None = None
    verdict: VerdictWord | None = None
    within: Decimal | None = None  # probability of conforming, 0..1
    must: bool = False  # its limit takes no reason at the final readings
    place: str = ""  # what tells it from another reading of the same quantity: inner, +8 V
    warm_minutes: int | None = None  # how long the player had run
    room: Decimal | None = None  # degrees Celsius

    @property
    def limit(self) -> Sentence:
        """The limit in signs: ≤ 1.5 s, ≥ 0.5 mm, 5 Ω to 40 Ω."""
        low = None if self.low is None else Measure(self.low, self.value.unit)
        high = None if self.high is None else Measure(self.high, self.value.unit)
        if low is not None and high is not None:
            return Sentence("{low} to {high}", {"low": low, "high": high})
        if high is not None:
            return Sentence("≤ {high}", {"high": high})
        if low is not None:
            return Sentence("≥ {low}", {"low": low})
        return Sentence("none")


@dataclass(frozen=True, slots=True, kw_only=True)
class TrialFact:
    """One change tried in this job: its id in the catalogue, and the trimmer it turned, if it turned one."""

    number: int
    change: str  # laser_set
    at: datetime
    trimmer: str = ""
    reading_before: bool = False


@dataclass(frozen=True, slots=True)
class CaseEvent:
    """The case opened or shut; ``assumed`` when the book took it as opened by what was entered."""

    step: CaseStep
    at: datetime
    by: str
    job: int
    assumed: bool = False


@dataclass(frozen=True, slots=True)
class FailedStep:
    """A step of the safety test that did not pass; no ``value`` where the step is looked at, not measured."""

    step: str  # id of the step: pe_resistance, visual
    name: Sentence
    value: Measure | None = None
    limit: Measure | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SafetyTestFact:
    """One electrical safety test of this unit, also of an earlier job."""

    at: datetime
    by: str
    passed: bool
    edition: str  # standard and edition as the shop entered it
    competent: bool = True  # signed by a person who carried the mark on that day
    instrument_overdue: bool = False  # its tester was past its date on that day
    failed: tuple[FailedStep, ...] = ()

    @property
    def counts(self) -> bool:
        """Passed, by a competent person, with an instrument in date."""
        return self.passed and self.competent and not self.instrument_overdue


@dataclass(frozen=True, slots=True)
class OtherTypeFact:
    """A transport or pick-up of another type than belongs here."""

    place: str  # what it is: transport, pick-up
    fitted: str
    belongs: str
    limits_chosen: bool = False  # limits and label for the type that is in there now
    in_transport: bool = False


@dataclass(frozen=True, slots=True)
class InstrumentFact:
    """An instrument used in this job, its calibration date and how many verdicts rest on it."""

    name: str
    due: date
    verdicts: int


@dataclass(frozen=True, slots=True)
class AskedFact:
    """A customer asked for something that would make the player unsafe; open until refused."""

    number: int
    what: str
    refused: bool = False


@dataclass(frozen=True, slots=True)
class DiscFact:
    """A disc of the customer's noted at intake or found. ``place``: where it is, such as tray."""

    number: int
    place: str
    returned: bool = False


@dataclass(frozen=True, slots=True)
class ComebackFact:
    """The earlier job that this one is a comeback of, as it was accepted when the player was taken in."""

    job: int
    days: int
    change: str  # what was done then, in the words of the record
    modified: Sentence | None = None  # the modification it left inside


@dataclass(frozen=True, slots=True)
class Answer:
    """A person's recorded word on a flag: seen and acknowledged, or cleared with a reason.

    It covers the flag only while the flag's sentence, with its numbers, stays what it was.
    """

    rule: str
    detail: str
    sentence: Sentence
    mark: Mark | None
    by: str
    at: datetime
    reason: str


@dataclass(frozen=True, slots=True)
class UnsafeReturn:
    """The owner's decision that this player goes back unrepaired and unsafe."""

    by: str
    at: datetime
    reason: str
    law_looked_at: bool  # local law was looked at first and lets it go back
    plug_tagged: bool = False
    signed: bool = False  # the customer signed the warning


@dataclass(frozen=True, slots=True, kw_only=True)
class JobFacts:
    """One job with its unit and the transport in it, on the day ``today`` (shop-local)."""

    number: int
    today: date
    stage: Stage
    taken_in: datetime
    outcome: Outcome | None = None
    mains_class: MainsClass = MainsClass.NOT_KNOWN
    powered: bool = False  # it was switched on in this shop
    rung_arrival: int | None = None  # highest rung reached in normal use, 0..12
    rung_final: int | None = None
    modifications: tuple[Modification, ...] = ()  # of the unit and its present transport, reversed ones too
    readings: tuple[ReadingFact, ...] = ()
    trials: tuple[TrialFact, ...] = ()
    parts_fitted: int = 0
    laser_label: Measure | None = None  # the current printed on the transport
    case_events: tuple[CaseEvent, ...] = ()  # of the unit's whole life here
    safety_tests: tuple[SafetyTestFact, ...] = ()  # of the unit's whole life here
    other_types: tuple[OtherTypeFact, ...] = ()
    instruments: tuple[InstrumentFact, ...] = ()
    asked: tuple[AskedFact, ...] = ()
    discs: tuple[DiscFact, ...] = ()
    transit_lock: TransitLock = TransitLock.NONE
    by_post: bool = False  # the player goes back by post
    comeback: ComebackFact | None = None
    agreed: Money | None = None  # the amount the customer agreed to; None: no limit was named
    work_so_far: Money | None = None  # work and parts, in the same way (with or without VAT) as ``agreed``
    balance: Money | None = None  # open on issued invoices
    finals_wanted: tuple[tuple[str, Sentence], ...] = ()  # quantities the shop's sheet asks for: id, words
    finals_reason: str = ""  # why the final readings were left out, or the player leaves worse
    answers: tuple[Answer, ...] = ()  # on flags of this job, and of its unit and transport whenever given
    unsafe_return: UnsafeReturn | None = None

    @property
    def finals(self) -> tuple[ReadingFact, ...]:
        """The final readings of this job."""
        return tuple(r for r in self.readings if r.moment is Moment.FINAL)
