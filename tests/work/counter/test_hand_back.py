"""Handing back: what holds a player, what is written down, and what the receipt says."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from app.book.tables import CaseEvent, Invoice, Job, Modification, Paper, Payment, ThingLeft, Unit
from app.book.tables import HandBack as HandBackRow
from app.trade.bench.kinds import Means
from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import Collector, Outcome, Stage, Waiting
from app.trade.counter.hand_back import HandBack, LeftKind, LeftThing
from app.trade.money import Money
from app.trade.refusal import FieldRefusal, Held, Refusal
from app.trade.sentence import Sentence
from app.trade.settings.terms import GUARANTEE_DAYS
from app.work.counter.hand_back import hand_back
from app.work.counter.hand_back_view import hand_back_view
from app.work.counter.stages import set_stage
from app.work.office.settings import change_settings
from app.work.papers.issuing import paper_pdf
from tests.work.asked import papers_of_job

MENDED = HandBack(outcome=Outcome.MENDED, collector=Collector.CUSTOMER, shown_and_told=True)


def row(shop, table, key):
    with shop.book.ask() as session:
        found = session.get_one(table, key)
        session.expunge(found)
        return found


@pytest.fixture
def ready(shop, take_in, waive) -> int:
    """A job that is ready, with a mains lead and a disc to go back."""
    job = take_in(came_with=("mains lead",), disc_inside="tray").job_id
    waive(job)
    set_stage(shop.book, shop.tobbe, job, Stage.READY)
    return job


THINGS = (LeftThing(LeftKind.THING, "mains lead", given=True), LeftThing(LeftKind.DISC, "tray", given=True))


def test_nobody_gets_a_player_back_before_it_came(shop, ready):
    shop.clock.advance(days=-1)
    with pytest.raises(Refusal, match="taken in only later") as refused:
        hand_back(shop.book, shop.mirr, ready, replace(MENDED, things=THINGS))
    assert refused.value.next_step.key.startswith("Set the clock right")
    assert row(shop, Job, ready).stage is Stage.READY


def test_a_player_goes_back_with_its_things_a_receipt_and_a_guarantee(shop, ready):
    done = hand_back(shop.book, shop.mirr, ready, replace(MENDED, things=THINGS)).value
    job = row(shop, Job, ready)
    assert (job.stage, job.outcome, job.waiting) == (Stage.HANDED_BACK, Outcome.MENDED, Waiting.NOTHING)
    assert (job.handed_back_at, job.guarantee_until) == (shop.clock(), date(2026, 9, 8))
    assert done.guarantee_until == job.guarantee_until
    assert [row(shop, ThingLeft, key).returned_by for key in (1, 2)] == [shop.mirr] * 2
    back = row(shop, HandBackRow, 1)
    assert (back.collector, back.shown_and_told, back.unsafe) == (Collector.CUSTOMER, True, False)
    assert done.receipt_id is not None
    facts = row(shop, Paper, done.receipt_id).facts
    assert facts["outcome"]["sentence"][0] == "mended"
    assert [tick["ticked"] for tick in facts["given_back"]] == [True, True, True]
    assert facts["payment"]["sentence"][0] == "Nothing to pay."
    assert facts["done"] == [
        {
            "sentence": [
                "Final readings: {how}.",
                {"how": {"sentence": ["{reason}", {"reason": "only the lid was bent"}]}},
            ]
        }
    ]
    assert paper_pdf(shop.book, done.receipt_id).pdf.startswith(b"%PDF")


def test_the_page_shows_what_to_tick_and_what_holds_it(shop, ready):
    view = hand_back_view(shop.book, ready)
    assert [(thing.kind, thing.words, thing.returned) for thing in view.things] == [
        (LeftKind.THING, "mains lead", False),
        (LeftKind.DISC, "tray", False),
    ]
    assert (view.number, view.player, view.serial, view.customer) == (
        1001,
        "Quellmar Larch 2",
        "0420 158",
        "Benedikt Arnsvik",
    )
    assert len(view.reasons) == 1  # the disc
    assert (view.stops, view.decision, view.invoiced) == ((), None, False)
    assert view.paid == Money(0, "EUR")
    assert [paper.title for paper in view.papers] == ["Intake ticket 1001"]
    assert view.facts.changes_left == 0


def test_a_disc_never_stays_and_a_thing_that_stays_says_why(shop, ready):
    kept = (replace(THINGS[0], given=False), replace(THINGS[1], given=False))
    with pytest.raises(FieldRefusal) as refusal:
        hand_back(shop.book, shop.mirr, ready, replace(MENDED, things=kept))
    assert set(refusal.value.fields) == {"things.0", "things.1"}
    noted = (replace(THINGS[0], given=False, note="broken, thrown away"), THINGS[1])
    done = hand_back(shop.book, shop.mirr, ready, replace(MENDED, things=noted)).value
    assert row(shop, ThingLeft, 1).returned_at is None
    assert done.receipt_id is not None
    ticks = row(shop, Paper, done.receipt_id).facts["given_back"]
    assert [tick["ticked"] for tick in ticks] == [True, False, True]


def test_things_that_changed_in_between_are_looked_through_again(shop, ready):
    with pytest.raises(Refusal, match="changed in between"):
        hand_back(shop.book, shop.mirr, ready, MENDED)


def test_nothing_is_written_when_the_form_is_wrong(shop, ready):
    with pytest.raises(FieldRefusal) as refusal:
        hand_back(shop.book, shop.mirr, ready, HandBack(things=THINGS))
    assert set(refusal.value.fields) == {"outcome", "collector"}
    assert row(shop, Job, ready).stage is Stage.READY
    assert row(shop, ThingLeft, 1).returned_at is None


def test_a_job_on_the_bench_becomes_ready_on_the_way_if_it_may(shop, take_in, waive):
    job = take_in().job_id
    waive(job)
    set_stage(shop.book, shop.tobbe, job, Stage.ON_THE_BENCH)
    hand_back(shop.book, shop.mirr, job, MENDED)
    assert row(shop, Job, job).ready_at == shop.clock()


def test_an_open_gate_holds_it_whatever_the_form_says(shop, take_in):
    job = take_in().job_id
    with shop.book.change(shop.tobbe, Sentence("opened")) as change:
        change.add(CaseEvent(job_id=job, opened=True, at=change.now, by=change.by))
    with pytest.raises(Held) as held:
        hand_back(shop.book, shop.mirr, job, MENDED)
    assert len(held.value.reasons) == 2  # safety test, final readings
    assert row(shop, Job, job).stage is Stage.TAKEN_IN


def test_what_is_handed_back_is_closed(shop, ready):
    hand_back(shop.book, shop.mirr, ready, replace(MENDED, things=THINGS))
    with pytest.raises(Refusal, match="closed"):
        hand_back(shop.book, shop.mirr, ready, replace(MENDED, things=THINGS))


def test_a_change_of_ours_that_stays_is_named_by_the_outcome(shop, take_in, waive):
    job = take_in().job_id
    waive(job)
    with shop.book.change(shop.tobbe, Sentence("modified")) as change:
        change.add(
            Modification(
                job_id=job,
                unit_id=1,
                kind=Kind.OTHER,
                circuit=Circuit.MECHANICS,
                law=Law.NEITHER,
                reference="feet",
                part_after="felt",
                at=change.now,
                by=change.by,
            )
        )
    with pytest.raises(FieldRefusal, match="mended with a modification"):
        hand_back(shop.book, shop.mirr, job, MENDED)
    with pytest.raises(Held) as held:
        hand_back(shop.book, shop.mirr, job, replace(MENDED, outcome=Outcome.MENDED_MODIFIED))
    assert len(held.value.reasons) == 2  # agreed, named on paper


def test_an_open_balance_is_taken_or_agreed(shop, take_in, waive):
    job = take_in(deposit=Money(2000, "EUR"), deposit_means=Means.CASH).job_id
    waive(job)
    invoice(shop, job, 14875)
    assert hand_back_view(shop.book, job).invoiced
    with pytest.raises(FieldRefusal) as refusal:
        hand_back(shop.book, shop.mirr, job, MENDED)
    assert refusal.value.fields["paid_words"].values["balance"] == Money(12875, "EUR")
    done = hand_back(shop.book, shop.mirr, job, replace(MENDED, paid_words="transfer on Friday")).value
    assert done.receipt_id is not None
    facts = row(shop, Paper, done.receipt_id).facts
    assert facts["payment"]["sentence"][1]["words"] == "transfer on Friday"


def test_what_was_paid_stands_on_the_receipt(shop, take_in, waive):
    job = take_in().job_id
    waive(job)
    invoice(shop, job, 14875)
    with shop.book.change(shop.mirr, Sentence("paid")) as change:
        change.add(
            Payment(
                job_id=job,
                kind="payment",
                amount=14875,
                currency="EUR",
                means=Means.CARD,
                at=change.now,
                by=change.by,
            )
        )
    receipt = hand_back(shop.book, shop.mirr, job, MENDED).value.receipt_id
    assert receipt is not None
    told = row(shop, Paper, receipt).facts["payment"]["sentence"]
    assert told[0] == "{day}: {amount}, {means}; nothing open."


def invoice(shop, job, gross):
    with shop.book.change(shop.ine, Sentence("invoiced")) as change:
        change.add(
            Invoice(
                number=1,
                job_id=job,
                customer_id=1,
                issued_on=change.today,
                issued_at=change.now,
                issued_by=change.by,
                currency="EUR",
                lines_net=12500,
                discount=0,
                charge=0,
                net=12500,
                vat=gross - 12500,
                gross=gross,
                prepaid=0,
                rounding=0,
                due=gross,
                groups=[],
                line_count=0,
            )
        )


def test_somebody_else_collects_by_name_and_a_lost_ticket_by_proof(shop, ready):
    form = replace(MENDED, things=THINGS, collector=Collector.NAMED)
    with pytest.raises(FieldRefusal):
        hand_back(shop.book, shop.mirr, ready, form)
    hand_back(shop.book, shop.mirr, ready, replace(form, collector_name=" Greta  Lindqvarn "))
    assert row(shop, HandBackRow, 1).collector_name == "Greta Lindqvarn"


def test_a_player_kept_as_donor_closes_its_job_without_receipt_and_guarantee(shop, take_in):
    job = take_in().job_id
    done = hand_back(shop.book, shop.mirr, job, HandBack(outcome=Outcome.KEPT_AS_DONOR)).value
    assert (done.receipt_id, done.guarantee_until) == (None, None)
    assert row(shop, Unit, 1).is_donor
    assert [paper.kind for paper in papers_of_job(shop.book, job)] == ["intake ticket"]


def test_an_uncollected_player_is_no_donor(shop, take_in):
    job = take_in().job_id
    hand_back(shop.book, shop.mirr, job, HandBack(outcome=Outcome.UNCOLLECTED))
    assert not row(shop, Unit, 1).is_donor


def test_a_declined_player_goes_back_without_guarantee(shop, take_in):
    job = take_in().job_id
    done = hand_back(shop.book, shop.mirr, job, replace(MENDED, outcome=Outcome.DECLINED)).value
    assert done.guarantee_until is None


def test_a_shop_that_gives_no_guarantee_promises_none(shop, take_in, waive):
    change_settings(shop.book, shop.ine, {GUARANTEE_DAYS: 0})
    job = take_in().job_id
    waive(job)
    assert hand_back(shop.book, shop.mirr, job, MENDED).value.guarantee_until is None


def test_an_unreadable_serial_is_shown_as_none(shop, take_in):
    job = take_in(serial="", serial_unreadable=True).job_id
    assert hand_back_view(shop.book, job).serial == ""


def test_an_old_part_goes_back_by_its_name(shop, take_in, waive):
    job = take_in(parts_returned=True).job_id
    waive(job)
    with shop.book.change(shop.tobbe, Sentence("belt out")) as change:
        change.add(ThingLeft(job_id=job, kind=LeftKind.OLD_PART.value, words="loading belt"))
    belt = LeftThing(LeftKind.OLD_PART, "loading belt", given=True)
    receipt = hand_back(shop.book, shop.mirr, job, replace(MENDED, things=(belt,))).value.receipt_id
    assert receipt is not None
    told = row(shop, Paper, receipt).facts["given_back"][1]["text"]["sentence"]
    assert told == ["old part: {part}", {"part": "loading belt"}]


def test_the_page_asks_as_if_the_outcome_were_chosen(shop, take_in):
    job = take_in().job_id
    assert hand_back_view(shop.book, job).reasons
    assert hand_back_view(shop.book, job, Outcome.DECLINED).reasons == ()
    assert hand_back_view(shop.book, job, Outcome.KEPT_AS_DONOR).gates == ()
    assert row(shop, Job, job).outcome is None


def test_a_deposit_without_an_invoice_stands_on_the_receipt_as_paid(shop, take_in, waive):
    job = take_in(deposit=Money(2000, "EUR"), deposit_means=Means.CASH).job_id
    waive(job)
    receipt = hand_back(shop.book, shop.mirr, job, MENDED).value.receipt_id
    assert receipt is not None
    assert row(shop, Paper, receipt).facts["payment"]["sentence"][0] == "{day}: {amount}, {means}."
