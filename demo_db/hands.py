"""The people of the invented shop at work: short words for what app.work lets them do, at the story's time."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any

from app.trade.bench.evidence import Asked
from app.trade.bench.kinds import FaultGroup, HowOften, Means
from app.trade.bench.safety_test import Step
from app.trade.bench.stages import (
    CaseStep,
    CauseFound,
    Collector,
    Left,
    MainsClass,
    Moment,
    Outcome,
    Stage,
    TrialOutcome,
    Way,
)
from app.trade.counter.agreements import AgreementEntry, AgreementKind, MessageEntry
from app.trade.counter.fault_words import FaultWord, ReportedFault
from app.trade.counter.hand_back import HandBack, LeftKind, LeftThing
from app.trade.counter.taking_in import Intake
from app.trade.money import MICRO, Money
from app.trade.office.guarantee import Answer
from app.trade.office.invoice import LineKind
from app.trade.office.vat import VatRate
from app.work.bench import findings, modifications, readings, start_ups, symptoms, trials, work_done
from app.work.bench.flags import answer_flag
from app.work.bench.readings import ReadingEntry
from app.work.bench.safety_tests import SafetyEntry, record_safety_test
from app.work.bench.sheet_of_job import job_sheet
from app.work.bench.start_ups import StartUpEntry
from app.work.bench.trials import TrialEntry
from app.work.counter import hand_back, messages, stages, taking_in
from app.work.office import charges, credit_notes, guarantees, invoices, payments
from app.work.office.invoice_view import invoice_view
from app.work.papers.issuing import file_paper
from app.work.papers.labels import issue_bench_tag
from app.work.papers.service_report import issue_service_report
from app.work.shop_book import Book
from demo_db.days import Days, StoryClock

VAT_FULL, VAT_LOW = VatRate(1900), VatRate(700)


@dataclass
class Shop:
    """The open book with its people, lists and clock. Ids by key, name or code."""

    book: Book
    clock: StoryClock
    days: Days
    people: dict[str, int] = field(default_factory=dict)
    pins: dict[str, str] = field(default_factory=dict)
    tools: dict[str, int] = field(default_factory=dict)
    types: dict[str, int] = field(default_factory=dict)
    parts: dict[str, int] = field(default_factory=dict)
    noted: dict[str, Any] = field(
        default_factory=dict
    )  # what one story leaves for another: job and transport ids

    # the counter

    def take_in(self, intake: Intake, *, ticket: bool = False, file: bool = True) -> taking_in.Received:
        """Mirr takes a player in; with ``ticket`` the paper is issued, and filed unless ``file`` is False."""
        received = taking_in.receive_unit(self.book, self.people["mirr"], intake, ticket=ticket).value
        if ticket and file:
            self.file(received.ticket_id)
        return received

    def say(
        self, job: int, text: str, *, who: str = "mirr", way: Way = Way.TELEPHONE, asks: bool = False
    ) -> None:
        """Somebody of the shop speaks with the customer."""
        entry = MessageEntry(text=text, way=way, awaits_answer=asks)
        messages.add_message(self.book, self.people[who], job, entry)

    def heard(self, job: int, text: str, *, way: Way = Way.TELEPHONE) -> None:
        """The customer rings or writes."""
        messages.add_message(
            self.book, self.people["mirr"], job, MessageEntry(text=text, way=way, to_customer=False)
        )

    def agreed(self, job: int, what: str, said_by: str, *, yes: bool = True, **more: Any) -> None:
        """The customer says yes or no to exactly something; ``euro`` for a price, ``modification`` for a change."""
        euro, modification = more.pop("euro", None), more.pop("modification", None)
        kind = AgreementKind.WORK
        if modification is not None:
            kind = AgreementKind.MODIFICATION
        elif euro is not None:
            kind = AgreementKind.PRICE
        entry = AgreementEntry(
            kind=kind,
            yes=yes,
            what=what,
            said_by=said_by,
            amount=None if euro is None else money(euro),
            modification_id=modification,
            **more,
        )
        messages.add_agreement(self.book, self.people["mirr"], job, entry)

    def move(self, job: int, stage: Stage, who: str = "tobbe") -> None:
        """Move a job to another stage."""
        stages.set_stage(self.book, self.people[who], job, stage)

    def give_back(self, job: int, outcome: Outcome, *, things: Iterable[LeftThing] = (), **more: Any) -> None:
        """Mirr hands a player back; everything that came with it goes along."""
        receipt = more.pop("receipt", False)
        collector = more.pop("collector", Collector.CUSTOMER)
        form = HandBack(outcome=outcome, collector=collector, things=tuple(things), **more)
        done = hand_back.hand_back(self.book, self.people["mirr"], job, form, receipt=receipt)
        if done.value.receipt_id is not None:
            self.file(done.value.receipt_id)

    # the bench

    def ask(self, job: int, *, who: str = "tobbe", **answers: Asked) -> None:
        """Ask for symptom words: cold=Asked.SAID, drop=Asked.DENIED."""
        symptoms.answer_symptoms(self.book, self.people[who], job, answers)

    def climb(
        self, job: int, rung: int, moment: Moment = Moment.ARRIVAL, *, who: str = "tobbe", **more: Any
    ) -> int:
        """Record how far the player starts up."""
        entry = StartUpEntry(rung=rung, moment=moment, **more)
        return start_ups.record_start_up(self.book, self.people[who], job, entry).value

    def read(
        self,
        job: int,
        quantity: str,
        typed: str,
        moment: Moment = Moment.ARRIVAL,
        *,
        tool: str = "",
        **more: Any,
    ) -> int:
        """Record a reading as it is typed."""
        who = more.pop("who", "tobbe")
        entry = ReadingEntry(
            quantity=quantity,
            typed=typed,
            moment=moment,
            instrument_id=self.tools[tool] if tool else None,
            **more,
        )
        return readings.record_reading(self.book, self.people[who], job, entry).value.id

    def begin_trial(self, job: int, change: str, words: str, *, who: str = "tobbe", **more: Any) -> int:
        """Begin a trial: one change."""
        entry = TrialEntry(change=change, words=words, **more)
        return trials.record_trial(self.book, self.people[who], job, entry).value

    def judge(
        self, trial: int, outcome: TrialOutcome, left: Left = Left.NOT_SAID, who: str = "tobbe"
    ) -> None:
        """Say what a trial did."""
        trials.judge_trial(self.book, self.people[who], trial, outcome, left=left)

    def use(self, job: int, code: str, *, who: str = "tobbe") -> None:
        """Take one part from stock."""
        work_done.use_part(self.book, self.people[who], job, self.parts[code], Decimal(1))

    def labour(
        self, job: int, words: str, hours: str | Decimal, *, who: str = "tobbe", charged: bool = True
    ) -> None:
        """Record time spent."""
        work_done.record_labour(self.book, self.people[who], job, words, Decimal(hours), charged=charged)

    def note(self, job: int, text: str, who: str = "tobbe") -> None:
        """Write a line on the job."""
        work_done.add_note(self.book, self.people[who], job, text)

    def case(self, job: int, step: CaseStep, who: str = "tobbe") -> None:
        """Open or shut the case."""
        work_done.note_case(self.book, self.people[who], job, step)

    def modify(self, job: int, entry: modifications.ModificationEntry, who: str = "tobbe") -> int:
        """Record a modification, made or found."""
        return modifications.record_modification(self.book, self.people[who], job, entry).value.id

    def reverse(
        self, job: int, modification: int, *, who: str = "tobbe", note: str = "", tried: bool = False
    ) -> None:
        """Put the maker's design back."""
        modifications.reverse_modification(
            self.book, self.people[who], modification, job, note=note, tried=tried
        )

    def found(
        self, job: int, group: FaultGroup, cause: CauseFound, outcome: Outcome | None = None, **more: Any
    ) -> None:
        """Note what it turned out to be."""
        who = self.people[more.pop("who", "tobbe")]
        version = findings.findings_of(self.book, job).version
        what = findings.Findings(fault_group=group, cause=cause, outcome=outcome, **more)
        findings.record_findings(self.book, who, job, what, version=version)

    def safety_test(self, job: int, mains: MainsClass, *, named: bool = False, **typed: str) -> None:
        """Sanna tests with the case shut. Values by step: insulation="> 100", touch_current="0.04"."""
        entry = SafetyEntry(
            typed=tuple((Step(step), value) for step, value in typed.items()),
            in_order=((Step.VISUAL, True), (Step.FUNCTION, True)),
            cord_metres=Decimal(2),
            named_class=mains if named else None,
            instrument_id=self.tools["tester"],
        )
        record_safety_test(self.book, self.people["sanna"], self.pins["sanna"], job, entry)

    def answer(self, job: int, rule: str, reason: str, who: str = "ine") -> None:
        """Answer the open flag of a rule, with the PIN of whoever may."""
        flags = {flag.rule: flag.id for flag in job_sheet(self.book, job).flags}
        answer_flag(self.book, self.people[who], self.pins[who], flags[rule], reason)

    def owner_looks(self, job: int, reason: str) -> None:
        """Ine acknowledges everything that waits for the owner."""
        for flag in job_sheet(self.book, job).flags:
            if flag.owner_sees and not flag.acknowledged:
                answer_flag(self.book, self.people["ine"], self.pins["ine"], flag.id, reason)

    def transport_in(self, job: int) -> int:
        """The transport that is in the player now."""
        inside = job_sheet(self.book, job).transport_id
        assert inside is not None
        return inside

    # the office

    def charge(
        self, job: int, words: str, euro: str, kind: LineKind = LineKind.FIXED_CHARGE, *, low: bool = False
    ) -> None:
        """Put a charge on a job, typed with VAT."""
        entry = charges.ChargeEntry(
            kind=kind, words=words, price=micro(euro), vat=VAT_LOW if low else VAT_FULL
        )
        charges.add_charge(self.book, self.people["ine"], job, entry)

    def issue(self, job: int, *, file: bool = False) -> None:
        """Ine issues the invoice; with ``file`` its paper is rendered and filed."""
        issued = invoices.issue_invoice(self.book, self.people["ine"], job).value
        if file:
            self.file(issued.paper_id)

    def credit(self, job: int, words: str, reason: str) -> None:
        """Ine gives the line with these words back and pays it out in cash; the paper is filed."""
        found = invoice_view(self.book, job).credit
        assert found is not None
        places = [at for at, line in enumerate(found.invoice.lines) if line.words == words]
        wanted = {at: found.left.quantities[at] for at in places}
        issued = credit_notes.issue_credit_note(
            self.book, self.people["ine"], found.invoice_id, wanted, reason, pay_out=Means.CASH
        ).value
        self.file(issued.paper_id)

    def due(self, job: int) -> Money:
        """What the job comes to now, less what was paid."""
        return invoices.draft_invoice(self.book, job).totals.due

    def pay(self, job: int, due: Money, means: Means) -> None:
        """The customer pays."""
        payments.take_payment(self.book, self.people["mirr"], job, due, means)

    def decide_guarantee(self, job: int, answer: Answer, reason: str = "") -> None:
        """Ine decides what becomes of a comeback within the guarantee."""
        guarantees.answer_guarantee(self.book, self.people["ine"], job, answer, reason)

    def stands_by_it(self, job: int) -> bool:
        """Ine decides about a comeback as the book proposes it; tells whether that is without charge."""
        view = guarantees.guarantee_view(self.book, job)
        if view is not None:
            self.decide_guarantee(job, view.proposal.answer)
        return view is not None and view.proposal.answer is not Answer.CHARGED

    def tag(self, job: int, *, file: bool = True) -> None:
        """Print the bench tag."""
        tag = issue_bench_tag(self.book, self.people["mirr"], job).value
        if file:
            self.file(tag)

    def report(self, job: int) -> None:
        """Tobbe makes the service report, with every photo of the job."""
        files = job_sheet(self.book, job).files
        photos = [file.id for file in files if file.media_type.startswith("image/")]
        self.file(issue_service_report(self.book, self.people["tobbe"], job, photos).value)

    def file(self, paper: int) -> None:
        """Render a paper and file it with its job."""
        file_paper(self.book, paper, self.people["mirr"])


def money(euro: str) -> Money:
    """An amount of the shop's money."""
    return Money.of(Decimal(euro), "EUR")


def micro(euro: str) -> int:
    """A price in millionths."""
    return int(Decimal(euro) * MICRO)


def faults(*picked: str) -> tuple[ReportedFault, ...]:
    """Fault words, each alone or with how often behind a colon: ``faults("skips: sometimes")``."""
    return tuple(
        ReportedFault(FaultWord(word), HowOften(how.strip() or "always"))
        for word, _, how in (one.partition(":") for one in picked)
    )


def given(words: Sequence[str], disc: str = "") -> Iterator[LeftThing]:
    """What came with the player, ticked as it goes back."""
    for thing in words:
        yield LeftThing(LeftKind.THING, thing, given=True)
    if disc:
        yield LeftThing(LeftKind.DISC, disc, given=True)
