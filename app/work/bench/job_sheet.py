"""The job sheet as frozen facts: everything that one page shows of one job."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from app.trade.bench.kinds import Arrangement, ComebackStanding, FaultGroup, HowOften, TransitLock
from app.trade.bench.safety_notes import NoteTold
from app.trade.bench.stages import CauseFound, MainsClass, Outcome, Stage, Waiting
from app.trade.money import Money
from app.trade.sentence import Measure, Sentence
from app.work.bench.sheet_estimate import SheetEstimate
from app.work.bench.sheet_lines import (
    AgreementLine,
    CaseLine,
    EarlierJob,
    FileLine,
    FlagLineFact,
    GateLineFact,
    MessageLine,
    ModificationLine,
    NoteLine,
    OrderedPart,
    PaperLine,
    ReadingLine,
    SafetyTestLine,
    StartUpLine,
    ThingLine,
    TrialTile,
    WorkLine,
)


@dataclass(frozen=True, slots=True)
class JobSheet:
    """One job from top to bottom. Lists are in the order of time; struck-out records are in them."""

    id: int
    number: int
    version: int
    # who and what
    customer_id: int
    customer: str
    customer_phone: str
    ring_when: str
    unit_id: int
    maker: str
    model: str
    serial: str
    mains_class: MainsClass
    mains_voltage: str
    transport_id: int | None
    transport_type_id: int | None
    transport: str  # "Velk A1"
    arrangement: Arrangement | None
    transport_marking: str
    laser_label: Measure | None
    not_testable: tuple[int, ...]
    # where it stands
    stage: Stage
    waiting: Waiting
    outcome: Outcome | None
    taken_in_at: datetime
    promised_on: date | None
    promised_time: str
    handed_back_at: datetime | None
    fault: str
    fault_short: str
    fault_words: tuple[tuple[str, HowOften], ...]
    error_shown: str
    shelf: str
    transit_lock: TransitLock
    fault_group: FaultGroup | None
    cause: CauseFound | None
    comeback_of: int | None  # number of the former job
    comeback: ComebackStanding | None
    agreed: Money | None
    work_so_far: Money
    paid: Money
    balance: Money
    case_open: bool
    stands: Sentence | None
    stands_more: Sentence | None  # what is proven and what stays suspect
    # lists
    flags: tuple[FlagLineFact, ...]
    gates: tuple[GateLineFact, ...]
    start_ups: tuple[StartUpLine, ...]
    readings: tuple[ReadingLine, ...]
    trials: tuple[TrialTile, ...]
    modifications: tuple[ModificationLine, ...]
    work: tuple[WorkLine, ...]
    safety_tests: tuple[SafetyTestLine, ...]
    case_events: tuple[CaseLine, ...]
    messages: tuple[MessageLine, ...]
    agreements: tuple[AgreementLine, ...]
    things: tuple[ThingLine, ...]
    files: tuple[FileLine, ...]
    notes: tuple[NoteLine, ...]
    papers: tuple[PaperLine, ...]
    earlier_jobs: tuple[EarlierJob, ...]  # newest first
    estimate: SheetEstimate | None = None
    ordered: tuple[OrderedPart, ...] = ()  # parts that were ordered for it
    safety_notes: tuple[NoteTold, ...] = ()  # what to mind while working on it
