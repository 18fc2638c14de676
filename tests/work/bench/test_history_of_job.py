"""The history of a job in words."""

from __future__ import annotations

from decimal import Decimal
from types import SimpleNamespace
from typing import Any
from zoneinfo import ZoneInfo

from app.trade.bench.kinds import FaultGroup
from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import CauseFound, Outcome, Stage, Way
from app.trade.counter.agreements import AgreementEntry, AgreementKind, MessageEntry
from app.trade.counter.hand_back import LeftKind
from app.trade.money import MICRO, Money
from app.trade.office.invoice import LineKind
from app.trade.office.vat import VatRate
from app.trade.wording import plain
from app.work.bench.findings import Findings, findings_of, record_findings
from app.work.bench.history_of_job import history_of_job
from app.work.bench.modifications import ModificationEntry, record_modification
from app.work.bench.work_done import record_labour
from app.work.counter.messages import add_agreement, add_message
from app.work.counter.stages import set_stage
from app.work.counter.things_left import note_thing
from app.work.language import wording_for
from app.work.office.charges import ChargeEntry, add_charge
from app.work.papers.labels import issue_bench_tag
from app.work.upkeep.person import erase_customer

say = plain(ZoneInfo("UTC"))


def told(bench: Any, action: str) -> list[str]:
    """Every line of the newest action of this name: what it is, and its fields."""
    entry = next(e for e in history_of_job(bench.book, bench.job) if say(e.action) == action)
    return [f"{say(c.what)}: {'; '.join(say(field) for field in c.fields)}" for c in entry.changes]


def test_a_change_tells_what_stood_there_before_and_who_did_it(bench: Any) -> None:
    bench.later(minutes=1)
    set_stage(bench.book, bench.tobbe, bench.job, Stage.RUNNING_IN)
    newest = history_of_job(bench.book, bench.job)[0]
    assert (newest.by, newest.at) == ("Tobbe Ruskamp", bench.shop.clock())
    assert told(bench, "stage: running in") == ["job: stage: running in, before: on the bench"]


def test_a_reading_is_told_by_what_people_call_it_and_as_it_was_typed(bench: Any) -> None:
    bench.read("seek_time", "4,8")
    lines = told(bench, "recorded a reading")
    assert lines[0].startswith(
        "reading: quantity: seek time, first to last track; value: 4,8; verdict: outside"
    )


def test_what_an_action_raised_stands_in_the_same_action(bench: Any) -> None:
    entry = ModificationEntry(
        kind=Kind.REPLACED,
        circuit=Circuit.RADIAL_COIL,
        where="R314",
        law=Law.CURRENT,
        maker_value=Decimal("6.8"),
        new_value=Decimal("5.6"),
    )
    record_modification(bench.book, bench.tobbe, bench.job, entry)
    lines = told(bench, "recorded a modification")
    assert any(line.startswith("modification: kind: resistor replaced; where: R314") for line in lines)
    assert any(line.startswith("flag: word: coil current up; level: caution") for line in lines)
    assert any(line.startswith("case: opened: yes; assumed by the book: yes") for line in lines)


def test_emptied_fields_are_told_as_emptied(bench: Any) -> None:
    for findings in (
        Findings(fault_group=FaultGroup.LIGHT, cause=CauseFound.DIRT, outcome=Outcome.MENDED),
        Findings(fault_group=FaultGroup.FOCUS),
    ):
        seen = findings_of(bench.book, bench.job).version
        record_findings(bench.book, bench.tobbe, bench.job, findings, version=seen)
        bench.later(minutes=1)
    assert told(bench, "noted what was found") == [
        (
            "job: outcome: emptied, before: mended; fault group: focus, before: light; "
            "cause: emptied, before: dirt or film"
        )
    ]


def test_hours_and_money_are_told_as_people_count_them(bench: Any) -> None:
    record_labour(bench.book, bench.tobbe, bench.job, "Arm bearing cleaned", Decimal("0.75"))
    assert told(bench, "recorded labour")[0].startswith(
        "working time: words: Arm bearing cleaned; hours: 0.75"
    )
    add_agreement(
        bench.book,
        bench.shop.mirr,
        bench.job,
        AgreementEntry(
            kind=AgreementKind.PRICE,
            yes=True,
            what="up to ninety",
            said_by="Benedikt Arnsvik",
            way=Way.TELEPHONE,
            amount=Money(9000, "EUR"),
        ),
    )
    (line,) = [
        text for text in told(bench, "recorded the customer's yes or no") if text.startswith("the customer's")
    ]
    assert "amount: 90.00\u00a0EUR" in line
    assert "what: up to ninety" in line


def test_texts_of_an_erased_person_stand_as_erased(bench: Any) -> None:
    add_message(
        bench.book,
        bench.shop.mirr,
        bench.job,
        MessageEntry(text="rings on Friday", way=Way.TELEPHONE, to_customer=False),
    )
    assert "message: text: rings on Friday; by: telephone" in told(
        bench, "noted what was said with the customer"
    )
    bench.close()
    erase_customer(bench.book, bench.shop.ine, bench.shop.pin("ine"), bench.customer)
    assert "message: text: erased; by: telephone" in told(bench, "noted what was said with the customer")


def test_what_the_program_did_itself_has_no_name(bench: Any) -> None:
    from app.work.papers.issuing import file_paper

    file_paper(bench.book, bench.sheet.papers[0].id)
    newest = history_of_job(bench.book, bench.job)[0]
    assert newest.by == ""
    assert say(newest.action).startswith("filed")


def test_rows_of_a_table_that_a_later_book_has_dropped_are_told_as_they_stand(
    bench: Any, monkeypatch: Any
) -> None:
    from app.work.bench import history_of_job as history

    bench.read("seek_time", "4.8")
    monkeypatch.setattr(history, "TABLES", {})
    monkeypatch.setattr(history, "tables", SimpleNamespace(metadata=SimpleNamespace(tables={})))
    (entry, *_) = history_of_job(bench.book, bench.job)
    lines = {say(change.what): [say(field) for field in change.fields] for change in entry.changes}
    assert "verdict: outside high" in lines["readings"]


def test_a_value_that_is_no_word_is_told_as_it_stands() -> None:
    from app.work.bench.history_of_job import _plain

    assert _plain(["a"]) == "['a']"


def test_an_amount_of_a_charge_is_told_as_people_count_it(bench: Any) -> None:
    fee = ChargeEntry(
        kind=LineKind.FEE, words="looking", price=40 * MICRO, quantity=2 * MICRO, vat=VatRate(1900)
    )
    add_charge(bench.book, bench.tobbe, bench.job, fee)
    (line,) = told(bench, "put a charge on a job")
    assert line.startswith("charge: how many: 2; kind: fee; words: looking")


def test_a_flag_is_told_by_its_sentence_alone(bench: Any) -> None:
    bench.read("laser_current", "70")
    flags = [line for line in told(bench, "recorded a reading") if line.startswith("flag: ")]
    assert flags
    assert not any("which: " in line for line in flags)


def test_words_that_the_book_keeps_are_said_in_the_language_of_the_window(bench: Any) -> None:
    german = wording_for("de", ZoneInfo("UTC"))
    note_thing(bench.book, bench.tobbe, bench.job, LeftKind.THING, "remote control")
    bench.later(minutes=1)
    bench.read("seek_time", "4,8")
    bench.later(minutes=1)
    issue_bench_tag(bench.book, bench.tobbe, bench.job)
    tag, reading, thing = (
        [german(field) for change in entry.changes for field in change.fields]
        for entry in history_of_job(bench.book, bench.job)[:3]
    )
    assert "Art: Werkstattzettel" in tag
    assert "Bewertung: außerhalb, zu hoch" in reading
    assert "Worte: Fernbedienung" in thing
