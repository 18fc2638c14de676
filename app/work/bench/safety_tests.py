"""Electrical safety tests: signed with the PIN of a person who carries the mark, never changed afterwards."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from app.book.bench.catalogue import shipped_quantities
from app.book.bench.job_rows import JobRows
from app.book.bench.safety_facts import case_events_of
from app.book.door import Book
from app.book.office.shop_settings import settings_of
from app.book.tables import Instrument, Job, SafetyStep, SafetyTest, Unit
from app.trade.bench.case import is_open, last_step
from app.trade.bench.safety_test import Meets, Step, StepReading, TestResult, evaluate_test, steps_for
from app.trade.bench.stages import CaseStep, MainsClass, Mark
from app.trade.bench.typed_value import parse_value
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.trade.settings.bench import SAFETY_STANDARD
from app.work.bench.open_job import open_job
from app.work.people.pins import check_pin
from app.work.shop_book import Done


@dataclass(frozen=True, slots=True, kw_only=True)
class SafetyEntry:
    """A safety test as entered: by step, the value as typed, or in order / not in order; empty: not done."""

    typed: tuple[tuple[Step, str], ...] = ()
    in_order: tuple[tuple[Step, bool], ...] = ()
    cord_metres: Decimal | None = None
    cord_mm2: Decimal | None = None
    supply_class: MainsClass | None = None
    named_class: MainsClass | None = None  # where the book does not know the class: what the tester names
    instrument_id: int | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class SafetyPage:
    """What the page of a safety test needs to know first."""

    mains_class: MainsClass
    steps: tuple[Step, ...]
    standard: str
    case_open: bool


def safety_page(book: Book, job_id: int, named_class: MainsClass | None = None) -> SafetyPage:
    """The steps that apply to the unit of this job, and the standard entered."""
    with book.ask() as session:
        job = session.get_one(Job, job_id)
        unit = session.get_one(Unit, job.unit_id)
        limits = settings_of(session)[SAFETY_STANDARD]
        mains = named_class or unit.mains_class
        return SafetyPage(
            mains,
            steps_for(mains),
            limits.title if limits.named else "",
            is_open(case_events_of(JobRows(session, job))),
        )


def judge_test(book: Book, job_id: int, entry: SafetyEntry) -> TestResult:
    """What the test would say, to show while typing. Raises FieldRefusal under the step's name."""
    with book.ask() as session:
        unit = session.get_one(Unit, session.get_one(Job, job_id).unit_id)
        limits = settings_of(session)[SAFETY_STANDARD]
        return evaluate_test(
            entry.named_class or unit.mains_class,
            limits,
            _readings(entry),
            cord_metres=entry.cord_metres,
            cord_mm2=entry.cord_mm2,
            supply_class=entry.supply_class,
        )


def record_safety_test(
    book: Book, tester: int, pin: str, job_id: int, entry: SafetyEntry
) -> Done[TestResult]:
    """Record a whole test, signed by ``tester``. Raises Refusal without the mark, FieldRefusal, or when the
    case is still open."""
    readings = _readings(entry)
    check_pin(book, tester, pin, Mark.COMPETENT)
    with book.change(tester, Sentence("recorded a safety test")) as change:
        job = open_job(change, job_id)
        unit = change.get(Unit, job.unit_id)
        events = case_events_of(JobRows(change.session, job))
        if is_open(events):
            raise Refusal(
                Sentence("The case is open: the test is done with the case closed."),
                Sentence("Close the case, note it, and test again."),
            )
        if entry.named_class is not None and unit.mains_class is MainsClass.NOT_KNOWN:
            unit.mains_class = entry.named_class
        limits = settings_of(change.session)[SAFETY_STANDARD]
        result = evaluate_test(
            unit.mains_class,
            limits,
            readings,
            cord_metres=entry.cord_metres,
            cord_mm2=entry.cord_mm2,
            supply_class=entry.supply_class,
        )
        instrument = change.session.get(Instrument, entry.instrument_id) if entry.instrument_id else None
        closed = last_step(events, CaseStep.CLOSED)
        row = change.add(
            SafetyTest(
                job_id=job.id,
                unit_id=unit.id,
                mains_class=unit.mains_class,
                standard=limits.standard.strip(),
                edition=limits.edition.strip(),
                instrument_id=instrument.id if instrument else None,
                instrument_overdue=bool(
                    instrument and instrument.due_on is not None and instrument.due_on < change.today
                ),
                result=result.overall.value,
                case_closed_at=closed.at if closed else None,
                note=entry.note.strip(),
                cord_metres=entry.cord_metres,
                cord_mm2=entry.cord_mm2,
                at=change.now,
                by=change.by,
            )
        )
        typed = dict(entry.typed)
        for position, step in enumerate(result.steps):
            if step.meets is Meets.NOT_APPLICABLE:
                continue
            reading = step.reading
            change.session.add(
                SafetyStep(
                    test_id=row.id,
                    position=position,
                    step=step.step.value,
                    typed=typed.get(step.step, ""),
                    value=reading.value if reading else None,
                    bound=reading.bound.value if reading else "",
                    uncertainty=float(reading.u) if reading and reading.value is not None else None,
                    limit_low=step.limit.low if step.limit else None,
                    limit_high=step.limit.high if step.limit else None,
                    meets={Meets.YES: True, Meets.NO: False}.get(step.meets),
                    shop_verdict=step.verdict.word.value if step.verdict else "",
                    probability=step.verdict.probability if step.verdict else None,
                )
            )
    return Done(result, change.changes)


def _readings(entry: SafetyEntry) -> tuple[StepReading, ...]:
    """The steps as values in ohm and ampere with their usual uncertainty. Raises FieldRefusal by step."""
    readings = [StepReading(step, in_order=fine) for step, fine in entry.in_order]
    wrong: dict[str, Sentence] = {}
    for step, text in entry.typed:
        if not text.strip():
            continue
        quantity = shipped_quantities()[step.value]
        try:
            typed = parse_value(text, quantity.entry, step.value)
        except FieldRefusal as refusal:
            wrong.update(refusal.fields)
            continue
        assert typed.value is not None  # no safety quantity takes "open"
        u = quantity.uncertainty([typed.value]).u
        readings.append(StepReading(step, typed.value, u, typed.bound))
    if wrong:
        raise FieldRefusal(wrong)
    return tuple(readings)
