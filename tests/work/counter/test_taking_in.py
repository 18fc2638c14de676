"""Taking in: what the book holds afterwards, and what it refuses."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest
from sqlalchemy import select

from app.book.tables import (
    Customer,
    Fitting,
    HistoryRow,
    Job,
    Paper,
    Payment,
    ReportedFault,
    ThingLeft,
    Transport,
    Unit,
)
from app.trade.bench.kinds import Arrangement, ComebackStanding, FaultGroup, HowOften, Means, TransitLock
from app.trade.bench.stages import MainsClass, Outcome, Stage
from app.trade.counter import fault_words
from app.trade.counter.fault_words import FaultWord
from app.trade.counter.taking_in import Intake
from app.trade.money import Money
from app.trade.people.customer import CustomerForm
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.work.counter.taking_in import receive_unit
from app.work.papers.issuing import paper_pdf
from app.work.people.customers import add_customer, merge_customers

LARCH = Intake(
    name="Benedikt Arnsvik",
    phone="01632 960 142",
    serial="0420 158",
    maker="Quellmar",
    model="Larch 2",
    mains_class=MainsClass.II,
    fault="Plays nicely from the start. Then it hangs for ages.",
    promised_on=date(2026, 3, 20),
)
STOPS_WARM = fault_words.ReportedFault(FaultWord.STOPS_WARM, HowOften.WHEN_WARM)


def rows(shop: Any, table: Any) -> list[Any]:
    """All rows of a table, loaded and let go."""
    with shop.book.ask() as session:
        found = list(session.scalars(select(table).order_by(table.id)))
        session.expunge_all()
        return found


def close(shop: Any, job_id: int, group: FaultGroup | None = FaultGroup.RADIAL) -> None:
    """Hand a job back the short way: only what a later visit looks at."""
    with shop.book.change(shop.mirr, Sentence("handed back")) as change:
        job = change.get(Job, job_id)
        job.stage, job.outcome, job.handed_back_at = Stage.HANDED_BACK, Outcome.MENDED, change.now
        job.fault_group, job.guarantee_until = group, change.today + timedelta(days=180)


def test_taking_in_writes_customer_unit_job_and_ticket_in_one_action(shop):
    done = receive_unit(shop.book, shop.mirr, LARCH)
    (job,), (customer,), (unit,), (paper,) = (rows(shop, t) for t in (Job, Customer, Unit, Paper))
    assert done.value.number == job.number == 1001
    assert (job.customer_id, job.unit_id) == (customer.id, unit.id)
    assert job.stage is Stage.TAKEN_IN
    assert job.fault_short == "Plays nicely from the start"
    assert (unit.serial, unit.serial_key, unit.customer_id) == ("0420 158", "0420158", customer.id)
    assert paper.id == done.value.ticket_id
    assert paper.title == "Intake ticket 1001"
    assert paper.facts["fault"] == LARCH.fault
    assert job.id in done.changes.jobs
    assert "customers" in done.changes.kinds


def test_one_action_tells_history_who_took_in_which_job(shop):
    before = len(rows_of_history(shop))
    receive_unit(shop.book, shop.mirr, LARCH)
    told = rows_of_history(shop)[before:]
    assert {row.staff_id for row in told} == {shop.mirr}
    assert {(row.action, row.action_values["number"]) for row in told} == {("took in job {number}", "1001")}


def rows_of_history(shop: Any) -> list[Any]:
    with shop.book.ask() as session:
        found = list(session.scalars(select(HistoryRow).order_by(HistoryRow.seq)))
        session.expunge_all()
        return found


def test_job_numbers_rise_without_a_gap_even_after_a_refusal(shop):
    receive_unit(shop.book, shop.mirr, LARCH)
    with pytest.raises(Refusal, match="in the shop already"):
        receive_unit(shop.book, shop.mirr, LARCH)
    other = replace(LARCH, serial="0431 207")
    assert receive_unit(shop.book, shop.mirr, other).value.number == 1002
    assert len(rows(shop, Unit)) == 2


def test_everything_missing_is_named_by_its_field(shop):
    with pytest.raises(FieldRefusal) as refusal:
        receive_unit(shop.book, shop.mirr, Intake())
    assert set(refusal.value.fields) == {"name", "serial", "maker", "fault"}
    assert rows(shop, Job) == []


def test_what_cannot_be_right_is_named_by_its_field(shop):
    with pytest.raises(FieldRefusal) as refusal:
        receive_unit(
            shop.book, shop.mirr, replace(LARCH, phone="ring the bell", promised_on=date(2026, 3, 1))
        )
    assert set(refusal.value.fields) == {"phone", "promised_on"}


def test_the_same_name_and_number_is_the_same_customer_however_it_is_spelt(shop):
    receive_unit(shop.book, shop.mirr, LARCH)
    receive_unit(
        shop.book, shop.mirr, replace(LARCH, name="benedikt  ARNSVIK", phone="01632-960142", serial="9")
    )
    (customer,) = rows(shop, Customer)
    assert customer.name == "benedikt ARNSVIK"


def test_the_same_number_under_another_name_is_another_customer(shop):
    receive_unit(shop.book, shop.mirr, LARCH)
    receive_unit(shop.book, shop.mirr, replace(LARCH, name="Greta Lindqvarn", serial="9"))
    assert len(rows(shop, Customer)) == 2


def test_without_a_number_a_name_alone_never_means_a_customer_of_the_book(shop):
    receive_unit(shop.book, shop.mirr, replace(LARCH, phone=""))
    receive_unit(shop.book, shop.mirr, replace(LARCH, phone="", serial="9"))
    assert len(rows(shop, Customer)) == 2


def test_a_chosen_customer_keeps_what_the_form_left_empty_and_takes_what_it_says(shop):
    key = add_customer(
        shop.book,
        shop.mirr,
        CustomerForm(name="Benedikt Arnsvik", phone="01632 960 142", city="Mossgate Quay"),
    ).value
    receive_unit(
        shop.book,
        shop.mirr,
        replace(LARCH, customer_id=key, phone="01632 960 999", ring_when="after 17:00"),
    )
    (customer,) = rows(shop, Customer)
    assert (customer.city, customer.phone, customer.phone_digits) == (
        "Mossgate Quay",
        "01632 960 999",
        "1632960999",
    )
    assert rows(shop, Job)[0].ring_when == "after 17:00"


def test_a_merged_card_leads_to_the_one_that_stands_for_both(shop):
    keep = add_customer(shop.book, shop.mirr, CustomerForm(name="Benedikt Arnsvik")).value
    other = add_customer(shop.book, shop.mirr, CustomerForm(name="B. Arnsvik")).value
    merge_customers(shop.book, shop.mirr, keep, 1, other, 1)
    assert receive_unit(shop.book, shop.mirr, replace(LARCH, customer_id=other)).value.customer_id == keep


def test_an_erased_person_is_not_taken_in_again_under_the_blank_card(shop):
    key = add_customer(shop.book, shop.mirr, CustomerForm(name="Benedikt Arnsvik")).value
    with shop.book.change(shop.ine, Sentence("erased")) as change:
        change.get(Customer, key).erased_at = change.now
    with pytest.raises(Refusal, match="erased"):
        receive_unit(shop.book, shop.mirr, replace(LARCH, customer_id=key))


def test_a_unit_seen_before_is_the_same_unit_with_its_new_owner_and_what_was_learnt(shop):
    first = receive_unit(shop.book, shop.mirr, replace(LARCH, mains_class=MainsClass.NOT_KNOWN)).value
    close(shop, first.job_id)
    again = receive_unit(
        shop.book,
        shop.mirr,
        replace(LARCH, name="Wilma Achterberg", phone="", serial="0420-158", model="", look="black"),
    ).value
    (unit,) = rows(shop, Unit)
    assert again.unit_id == first.unit_id == unit.id
    assert (unit.maker, unit.look, unit.mains_class) == ("Quellmar", "black", MainsClass.II)
    assert unit.customer_id == again.customer_id != first.customer_id
    assert unit.serial == "0420-158"


def test_two_units_with_one_serial_are_told_apart_by_maker(shop):
    receive_unit(shop.book, shop.mirr, LARCH)
    osier = receive_unit(shop.book, shop.mirr, replace(LARCH, maker="Ostrind", model="Osier 7"))
    assert len(rows(shop, Unit)) == 2
    close(shop, osier.value.job_id)
    again = receive_unit(shop.book, shop.mirr, replace(LARCH, maker="Ostrind", model="Osier 7"))
    assert again.value.unit_id == osier.value.unit_id


def test_a_plate_that_could_not_be_read_takes_its_serial_later(shop):
    first = receive_unit(shop.book, shop.mirr, replace(LARCH, serial="", serial_unreadable=True)).value
    close(shop, first.job_id)
    receive_unit(shop.book, shop.mirr, replace(LARCH, unit_id=first.unit_id))
    (unit,) = rows(shop, Unit)
    assert (unit.serial, unit.serial_unreadable) == ("0420 158", False)


def test_everything_that_came_with_it_and_what_was_paid_is_kept(shop):
    intake = replace(
        LARCH,
        came_with=("mains lead", "a  red cloth", "mains lead"),
        disc_inside="tray",
        deposit=Money(2000, "EUR"),
        deposit_means=Means.CARD,
        go_ahead_limit=Money(9000, "EUR"),
        diagnosis_fee=Money(4500, "EUR"),
        diagnosis_fee_told=True,
        faults=(STOPS_WARM,),
        marks="Scratch on the cover, front left; lid scuffed",
        opened_before=True,
        screws_missing=False,
        transit_lock=TransitLock.RELEASED,
        smell="burnt",
        rust="feet",
        parts_returned=True,
    )
    done = receive_unit(shop.book, shop.mirr, intake)
    things = {(row.kind, row.words) for row in rows(shop, ThingLeft)}
    assert things == {("thing", "mains lead"), ("thing", "a red cloth"), ("disc", "tray")}
    (payment,) = rows(shop, Payment)
    assert (payment.kind, payment.amount, payment.means) == ("deposit", 2000, Means.CARD)
    (fault,) = rows(shop, ReportedFault)
    assert (fault.word, fault.how) == ("stops when warm", HowOften.WHEN_WARM)
    (job,) = rows(shop, Job)
    assert (job.go_ahead_limit, job.diagnosis_fee, job.parts_returned) == (9000, 4500, True)
    (paper,) = rows(shop, Paper)
    assert [mark["text"] for mark in paper.facts["marks"]] == [
        "Scratch on the cover, front left",
        "lid scuffed",
    ]
    assert paper.facts["deposit"] == {"money": [2000, "EUR"]}
    assert len(paper.facts["condition"]) == 4
    assert paper_pdf(shop.book, done.value.ticket_id).pdf.startswith(b"%PDF")


@pytest.fixture
def velk(shop) -> int:
    from app.book.tables import TransportType

    with shop.book.change(shop.ine, Sentence("transport type")) as change:
        kind = change.add(
            TransportType(name="Velk A1", arrangement=Arrangement.SWING_ARM, has_transit_lock=True)
        )
    return kind.id


def test_a_transport_in_sight_is_fitted_from_this_job_on(shop, velk):
    done = receive_unit(
        shop.book, shop.mirr, replace(LARCH, transport_type_id=velk, transport_serial="55 871")
    )
    (fitting,), (transport,) = rows(shop, Fitting), rows(shop, Transport)
    assert (fitting.transport_id, fitting.fitted_job_id) == (transport.id, done.value.job_id)
    assert transport.marking == "55 871"


def test_the_same_transport_seen_again_is_not_fitted_twice(shop, velk):
    seen = replace(LARCH, transport_type_id=velk)
    for marking in ("", "", "55 871", "55871"):
        job = receive_unit(shop.book, shop.mirr, replace(seen, transport_serial=marking)).value
        close(shop, job.job_id)
    assert len(rows(shop, Fitting)) == 1
    assert rows(shop, Transport)[0].marking == "55 871"


def test_another_transport_in_the_same_unit_closes_the_old_fitting(shop, velk):
    first = receive_unit(
        shop.book, shop.mirr, replace(LARCH, transport_type_id=velk, transport_serial="55 871")
    ).value
    close(shop, first.job_id)
    shop.clock.advance(days=40)
    second = receive_unit(
        shop.book,
        shop.mirr,
        replace(LARCH, transport_type_id=velk, transport_serial="60 002", promised_on=None),
    ).value
    old, new = rows(shop, Fitting)
    assert (old.removed_job_id, old.removed_at) == (second.job_id, shop.clock())
    assert (new.fitted_job_id, new.removed_at) == (second.job_id, None)


def test_a_transport_that_is_in_another_player_is_refused_and_takes_no_number(shop, velk):
    seen = replace(LARCH, transport_type_id=velk, transport_serial="55 871")
    receive_unit(shop.book, shop.mirr, seen)
    with pytest.raises(Refusal, match="in another unit"):
        receive_unit(shop.book, shop.mirr, replace(seen, serial="0431 207"))
    assert receive_unit(shop.book, shop.mirr, replace(LARCH, serial="0431 207")).value.number == 1002


def test_a_transport_from_the_shelf_is_known_again(shop, velk):
    first = receive_unit(
        shop.book, shop.mirr, replace(LARCH, transport_type_id=velk, transport_serial="55 871")
    ).value
    with shop.book.change(shop.tobbe, Sentence("taken out")) as change:
        fitting = change.get(Fitting, 1)
        fitting.removed_at = change.now
        change.get(Transport, fitting.transport_id).shelf = "T 3"
    close(shop, first.job_id)
    receive_unit(
        shop.book,
        shop.mirr,
        replace(LARCH, serial="9", transport_type_id=velk, transport_serial="55871"),
    )
    assert [t.shelf for t in rows(shop, Transport)] == [""]


# --- comebacks -------------------------------------------------------------------------------------------


@pytest.fixture
def former(shop) -> int:
    first = receive_unit(shop.book, shop.mirr, LARCH).value
    close(shop, first.job_id)
    shop.clock.advance(days=47)
    return first.job_id


AGAIN = replace(LARCH, faults=(STOPS_WARM,), promised_on=None)


def test_an_accepted_comeback_is_confirmed_and_flagged(shop, former):
    receive_unit(shop.book, shop.mirr, replace(AGAIN, comeback_of_id=former))
    job = rows(shop, Job)[-1]
    assert (job.comeback_of_id, job.comeback) == (former, ComebackStanding.CONFIRMED)


def test_a_comeback_that_nobody_answered_stays_proposed(shop, former):
    receive_unit(shop.book, shop.mirr, AGAIN)
    job = rows(shop, Job)[-1]
    assert (job.comeback_of_id, job.comeback) == (former, ComebackStanding.PROPOSED)


def test_a_denied_comeback_keeps_its_reason(shop, former):
    receive_unit(shop.book, shop.mirr, replace(AGAIN, comeback_denied="another disc, another fault"))
    job = rows(shop, Job)[-1]
    assert (job.comeback, job.comeback_reason) == (ComebackStanding.DENIED, "another disc, another fault")


def test_outside_the_window_nothing_is_proposed(shop, former):
    shop.clock.advance(days=300)
    receive_unit(shop.book, shop.mirr, AGAIN)
    assert rows(shop, Job)[-1].comeback is None


def test_only_an_earlier_job_of_the_same_unit_can_be_come_back_from(shop, former):
    with pytest.raises(FieldRefusal):
        receive_unit(shop.book, shop.mirr, replace(AGAIN, serial="0431 207", comeback_of_id=former))


def test_a_transport_with_a_short_marking_is_known_again_too(shop, velk):
    first = receive_unit(
        shop.book, shop.mirr, replace(LARCH, transport_type_id=velk, transport_serial="7")
    ).value
    with shop.book.change(shop.tobbe, Sentence("taken out")) as change:
        change.get(Fitting, 1).removed_at = change.now
    close(shop, first.job_id)
    receive_unit(
        shop.book, shop.mirr, replace(LARCH, serial="9", transport_type_id=velk, transport_serial=" 7")
    )
    assert len(rows(shop, Transport)) == 1
