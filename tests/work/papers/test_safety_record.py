"""The safety test on papers: standard, edition, instrument, each value beside its limit, and nothing made up."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from app.book.bench.job_facts import facts_of
from app.book.bench.job_rows import JobRows
from app.book.office.job_lines import draft_of
from app.book.tables import Job, Unit
from app.trade.bench.safety_limits import PROPOSED
from app.trade.bench.safety_test import Step
from app.trade.bench.stages import CaseStep, MainsClass
from app.trade.office.invoice import work_out
from app.trade.sentence import Sentence
from app.trade.settings.bench import SAFETY_STANDARD
from app.trade.wording import plain
from app.work.bench.safety_tests import SafetyEntry, record_safety_test
from app.work.bench.work_done import note_case
from app.work.office.invoice_paper import invoice_facts
from app.work.office.settings import change_settings
from app.work.office.shop_lists import InstrumentLine, save_instrument
from app.work.papers.safety_record import safety_record

CLASS_I = SafetyEntry(
    typed=(
        (Step.PE_RESISTANCE, "0.35"),
        (Step.INSULATION, "> 100"),
        (Step.PE_CURRENT, "0.21"),
        (Step.TOUCH_CURRENT, "0.04"),
    ),
    in_order=((Step.VISUAL, True), (Step.FUNCTION, True)),
    named_class=MainsClass.I,
    cord_metres=Decimal("12.5"),
    cord_mm2=Decimal("1.5"),
)


@pytest.fixture
def entered(bench: Any) -> Any:
    """Sanna tests, the case closed, the mains class not known before; gives what papers then say."""
    note_case(bench.book, bench.tobbe, bench.job, CaseStep.OPENED)
    note_case(bench.book, bench.tobbe, bench.job, CaseStep.CLOSED)
    with bench.book.change(bench.tobbe, Sentence("mains class")) as change:
        change.get(Unit, change.get(Job, bench.job).unit_id).mains_class = MainsClass.NOT_KNOWN

    def test(entry: SafetyEntry) -> list[str]:
        bench.later(minutes=5)
        record_safety_test(bench.book, bench.shop.sanna, bench.shop.pin("sanna"), bench.job, entry)
        return said(bench)

    return test


@pytest.fixture
def tested(bench: Any, entered: Any) -> Any:
    """The same by the edition that the shop entered."""
    limits = replace(PROPOSED, standard="EN 50678", edition="2020")
    change_settings(bench.book, bench.shop.ine, {SAFETY_STANDARD: limits})
    return entered


def said(bench: Any) -> list[str]:
    say = plain(bench.book.zone)
    with bench.book.ask() as session:
        job = session.get_one(Job, bench.job)
        rows = JobRows(session, job)
        record = safety_record(rows, facts_of(session, job, bench.book.today(), rows))
    return [say(sentence).replace("\u00a0", " ") for sentence in record]


def test_without_a_test_papers_say_nothing_of_one(bench: Any) -> None:
    assert said(bench) == []


def test_each_value_stands_beside_its_limit_with_standard_edition_and_cord(bench: Any, tested: Any) -> None:
    lines = tested(CLASS_I)
    assert lines[0].startswith("Electrical safety by EN 50678:2020: passed ")
    assert lines[0].endswith("Sanna Wickerel.")
    # 0.3 ohm and 0.1 more for a started 7.5 m beyond 5 m: trade articles on EN 50678
    assert "Protective conductor 0.35 Ω (limit at most 0.4 Ω)" in lines[1]
    assert "Insulation more than 100 MΩ (limit at least 1.0 MΩ)" in lines[1]
    assert "Protective-conductor current 0.21 mA (limit at most 3.5 mA)" in lines[1]
    assert "Touch current 0.04 mA (limit at most 0.5 mA)" in lines[1]
    assert "Visual: case, cord, plug, openings: in order" in lines[1]
    assert lines[2:] == ["Cord and remarks: 12.5 m, 1.5 mm²."]


def test_a_failed_and_an_unfinished_test_are_told_as_they_are(bench: Any, tested: Any) -> None:
    meter = save_instrument(
        bench.book,
        bench.shop.ine,
        InstrumentLine(name="Norrbeck 60", due_on=date(2027, 1, 1)),
    ).value
    failed = tested(
        replace(
            CLASS_I, in_order=((Step.VISUAL, False),), instrument_id=meter, cord_metres=None, cord_mm2=None
        )
    )
    assert ": failed " in failed[0]
    assert "openings: not in order" in failed[1]
    assert "Function, case closed: not done" in failed[1]
    assert failed[2:] == ["Measured with Norrbeck 60."]


def test_without_a_standard_a_value_stands_without_a_limit(bench: Any, entered: Any) -> None:
    lines = entered(CLASS_I)
    assert lines[0].startswith("Electrical safety by no standard entered: not done ")
    assert "Touch current 0.04 mA" in lines[1]
    assert "Touch current 0.04 mA (" not in lines[1]


def test_the_invoice_carries_the_test_and_the_notes_of_this_job(bench: Any, tested: Any) -> None:
    tested(CLASS_I)
    say = plain(bench.book.zone)
    with bench.book.ask() as session:
        job = session.get_one(Job, bench.job)
        rows = JobRows(session, job)
        facts = facts_of(session, job, bench.book.today(), rows)
        draft = draft_of(rows, fees_only=False)
        paper = invoice_facts(bench.book.files, rows, facts, draft, work_out(draft), "1", bench.book.today())
    technician = {note.id: say(note.text) for note in paper.cautions_technician}
    user = {note.id: say(note.text) for note in paper.cautions_user}
    assert "at most 0.4\u00a0Ω" in technician["safety_test"]
    assert "magnet" in technician  # a swing arm was opened
    assert "EN 50678:2020; values on request" in user["safety_test"]
