"""A German job from the counter to the counter: no English word of ours stands on any of its papers."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from app.trade.bench.kinds import HowOften, Means, TransitLock
from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.safety_limits import PROPOSED
from app.trade.bench.safety_test import Step
from app.trade.bench.stages import CaseStep, Collector, MainsClass, Moment, Outcome, Stage
from app.trade.counter.agreements import AgreementEntry, AgreementKind
from app.trade.counter.fault_words import FaultWord, ReportedFault
from app.trade.counter.hand_back import HandBack, LeftThing, UnsafeWay
from app.trade.counter.taking_in import Intake
from app.trade.money import MICRO, Money
from app.trade.office.invoice import LineKind
from app.trade.office.vat import VatRate
from app.trade.settings import HOURLY_RATE, LANGUAGE
from app.trade.settings.bench import SAFETY_STANDARD
from app.work.bench.modifications import ModificationEntry, record_modification
from app.work.bench.readings import ReadingEntry, record_reading
from app.work.bench.safety_tests import SafetyEntry, record_safety_test
from app.work.bench.start_ups import StartUpEntry, record_start_up
from app.work.bench.work_done import note_case, record_labour
from app.work.counter.hand_back import hand_back
from app.work.counter.hand_back_view import hand_back_view
from app.work.counter.messages import add_agreement
from app.work.counter.stages import set_stage
from app.work.counter.taking_in import receive_unit
from app.work.counter.unsafe_return import decide_unsafe_return
from app.work.language import wording_for
from app.work.office.charges import ChargeEntry, add_charge
from app.work.office.invoices import draft_invoice, issue_invoice
from app.work.office.payments import take_payment
from app.work.office.settings import change_settings
from app.work.papers.issuing import file_paper, paper_pdf
from app.work.papers.labels import issue_bench_tag, issue_modified_label
from tests.house.test_check import load
from tests.papers.reading import whole
from tests.work.asked import papers_of_job

LERCHE = Intake(
    name="Benedikt Arnsvik",
    phone="01632 960 142",
    street="Nirgendweg 18",
    postcode="00000",
    city="Musterhausen",
    maker="Quellmar",
    model="Lerche 2",
    serial="0420 158",
    look="schwarz",
    mains_class=MainsClass.II,
    fault="Spielt am Anfang, bei den letzten Liedern bleibt er hängen.",
    faults=(ReportedFault(FaultWord.SKIPS, HowOften.WHEN_WARM),),
    error_shown="E 03",
    marks="Kratzer auf dem Deckel; Ecke bestoßen",
    opened_before=True,
    screws_missing=False,
    transit_lock=TransitLock.RELEASED,
    came_with=("remote control", "mains lead", "zwei Hefte"),
    disc_inside="Schublade",
    go_ahead_limit=Money(27000, "EUR"),
    diagnosis_fee=Money(4500, "EUR"),
    diagnosis_fee_told=True,
    deposit=Money(4000, "EUR"),
    deposit_means=Means.CASH,
    shelf="B 3",
    parts_returned=True,
    promised_on=date(2026, 3, 20),
    ring_when="ab 16 Uhr",
)


def german_shop(shop: Any) -> None:
    """The shop writes German, has an hourly rate and a standard for its safety test."""
    change_settings(
        shop.book,
        shop.ine,
        {
            LANGUAGE: "de",
            HOURLY_RATE: 62 * MICRO,
            SAFETY_STANDARD: replace(PROPOSED, standard="EN 50678", edition="2020"),
        },
    )


def mended(shop: Any) -> int:
    """A player mended with a modification, from taking in to handing back; gives its job."""
    book = shop.book
    job = receive_unit(book, shop.mirr, LERCHE).value.job_id
    issue_bench_tag(book, shop.mirr, job)
    set_stage(book, shop.tobbe, job, Stage.ON_THE_BENCH)
    record_start_up(book, shop.tobbe, job, StartUpEntry(rung=10, moment=Moment.ARRIVAL, tries=3))
    raised = ModificationEntry(
        kind=Kind.REPLACED,
        circuit=Circuit.RADIAL_COIL,
        law=Law.CURRENT,
        where="R314",
        maker_value=Decimal("6.8"),
        new_value=Decimal("5.6"),
        maker_tolerance=Decimal(5),
        new_tolerance=Decimal(5),
        why="Drei andere Eingriffe halfen nicht.",
    )
    modification = record_modification(book, shop.tobbe, job, raised).value.id
    add_agreement(
        book,
        shop.mirr,
        job,
        AgreementEntry(
            kind=AgreementKind.MODIFICATION,
            yes=True,
            what="R314 mit 5,6 Ω",
            said_by="Benedikt Arnsvik",
            modification_id=modification,
        ),
    )
    issue_modified_label(book, shop.tobbe, modification)
    for quantity, typed, detail, warm in (
        ("driver_temp", "48", "Radialtreiber", 30),
        ("radial_coil_r", "14.0", "", None),
        ("radial_coil_r", "14.5", "", 30),
        ("dropout_passed", "0.8", "", None),
    ):
        reading = ReadingEntry(
            quantity=quantity, typed=typed, moment=Moment.FINAL, detail=detail, warm_minutes=warm
        )
        record_reading(book, shop.tobbe, job, reading)
    record_start_up(book, shop.tobbe, job, StartUpEntry(rung=12, moment=Moment.FINAL))
    note_case(book, shop.tobbe, job, CaseStep.CLOSED)
    shop.clock.advance(minutes=5)
    test = SafetyEntry(
        typed=((Step.INSULATION, "> 100"), (Step.TOUCH_CURRENT, "0.04")),
        in_order=((Step.VISUAL, True), (Step.FUNCTION, True)),
    )
    record_safety_test(book, shop.sanna, shop.pin("sanna"), job, test)
    record_labour(book, shop.tobbe, job, "Anlauf und vier Versuche", Decimal("2.25"))
    fixed = ChargeEntry(
        kind=LineKind.FIXED_CHARGE, words="Lot und Kleinteile", price=18 * MICRO, vat=VatRate(1900)
    )
    add_charge(book, shop.tobbe, job, fixed)
    due = draft_invoice(book, job).totals.due
    file_paper(book, issue_invoice(book, shop.ine, job).value.paper_id)
    take_payment(book, shop.mirr, job, due, Means.CARD)
    things = tuple(
        LeftThing(kind=thing.kind, words=thing.words, given=True)
        for thing in hand_back_view(book, job).things
    )
    form = HandBack(
        outcome=Outcome.MENDED_MODIFIED, collector=Collector.CUSTOMER, shown_and_told=True, things=things
    )
    hand_back(book, shop.mirr, job, form)
    return job


def unsafe(shop: Any) -> int:
    """A player with a bridged fuse that goes back unrepaired; gives its job."""
    book = shop.book
    zelkove = Intake(
        name="Egon Wiltsch", maker="Zindermoor", model="Zelkove 9", serial="Z 04", mains_class=MainsClass.I,
        fault="Brummt.", promised_on=date(2026, 3, 20),
    )  # fmt: skip
    job = receive_unit(book, shop.mirr, zelkove).value.job_id
    found = ModificationEntry(
        kind=Kind.FUSE,
        circuit=Circuit.FUSE,
        law=Law.NEITHER,
        where="F1",
        was="T 315 mA",
        now="Folie",
        ours=False,
    )
    record_modification(book, shop.tobbe, job, found)
    note_case(book, shop.tobbe, job, CaseStep.CLOSED)
    add_agreement(
        book,
        shop.mirr,
        job,
        AgreementEntry(
            kind=AgreementKind.WORK, yes=False, what="Folie heraus, richtige Patrone", said_by="Egon Wiltsch",
            amount=Money(14875, "EUR"),
        ),
    )  # fmt: skip
    fee = ChargeEntry(kind=LineKind.FEE, words="Durchsicht", price=40 * MICRO, vat=VatRate(1900))
    add_charge(book, shop.tobbe, job, fee)
    decide_unsafe_return(
        book,
        shop.ine,
        shop.pin("ine"),
        job,
        outcome=Outcome.DECLINED,
        reason="Er will das nicht repariert haben.",
        law_looked_at=True,
    )
    file_paper(book, issue_invoice(book, shop.ine, job).value.paper_id)
    way = UnsafeWay(reason="abgelehnt", law_looked_at=True, signed=True, plug_tagged=True, case_shut=True)
    form = HandBack(
        outcome=Outcome.DECLINED, collector=Collector.CUSTOMER, paid_words="am Freitag", unsafe=way
    )
    hand_back(book, shop.mirr, job, form)
    return job


def english_on(text: str, catalogue: list[tuple[str, str]]) -> set[str]:
    """English pieces of our templates of two words or more, or of one long word, that stand in ``text``."""
    german = " ".join(re.sub(r"\{[^{}]*\}", " ", said) for _, said in catalogue).casefold()
    found = set()
    for key, said in catalogue:
        if key == said:
            continue
        for piece in re.split(r"\{[^{}]*\}", key):
            piece = re.sub(r"\s+", " ", piece).strip(" .,:;()·?“”")
            if len(piece) < 4 or (" " not in piece and piece.casefold() in german):
                continue
            if re.search(rf"(?<!\w){re.escape(piece)}(?!\w)", text):
                found.add(piece)
    return found


@pytest.fixture(scope="module")
def catalogue() -> list[tuple[str, str]]:
    return [(message.id, message.string) for message in load("catalogue").read("de") if message.id]


def papers(shop: Any, job: int) -> dict[str, str]:
    """The text of every paper of a job, by its title."""
    return {
        line.title: whole(paper_pdf(shop.book, line.id, copy=line.kind == "invoice").pdf)
        for line in papers_of_job(shop.book, job)
    }


@pytest.mark.parametrize("story", [mended, unsafe])
def test_no_english_stands_on_the_papers_of_a_german_job(shop, catalogue, story):
    german_shop(shop)
    said = papers(shop, story(shop))
    assert len(said) == {mended: 5, unsafe: 4}[story]
    assert {title: found for title, text in said.items() if (found := english_on(text, catalogue))} == {}


def test_an_english_word_would_be_found(catalogue):
    assert "final readings" in english_on("Noch zu tun: final readings", catalogue)
    assert "Intake ticket" in english_on("Intake ticket 1001", catalogue)


def test_dates_and_money_are_written_as_germans_write_them(shop):
    german_shop(shop)
    said = papers(shop, mended(shop))
    assert "20. März" in said["Annahmeschein 1001"]
    assert "270,00 EUR" in said["Annahmeschein 1001"]
    assert "12. März 2026" in said["Rechnung 0001"]
    assert "Strom das 1,214-Fache" in said["Rechnung 0001"]


def test_the_wording_of_german_says_what_the_catalogue_says(catalogue, shop):
    wording = wording_for("de", shop.book.zone)
    assert [key for key, said in catalogue if wording(key) != said] == []
