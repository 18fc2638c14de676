"""Handing back on screen: what holds the player is said before anybody presses, and what is signed is printed."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from app.book.tables import HandBack, Invoice, Job, Modification, Payment, ThingLeft, UnsafeReturnKept
from app.screens.counter.hand_back_fields import money_words
from app.trade.bench.kinds import Means
from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import Collector, MainsClass, Outcome, Stage
from app.trade.money import Money
from app.trade.sentence import Sentence


@pytest.fixture
def ready(take_in, waive) -> int:
    job = take_in(came_with=("mains lead",), disc_inside="tray").job_id
    waive(job)
    return job


def test_everything_ticked_the_player_goes_and_the_receipt_is_shown(counter, ready, rows):
    page = counter.open("hand_back", ready)
    assert page.title == "Hand back 1001"
    for _, box, _ in page.fields.things:
        box.setChecked(True)
    page.fields.told.setChecked(True)
    counter.save()
    (back,) = rows(HandBack)
    assert (back.collector, back.shown_and_told) == (Collector.CUSTOMER, True)
    assert all(thing.returned_at for thing in rows(ThingLeft))
    assert [paper.title for paper in counter.papers] == ["Hand-back receipt 1001"]
    assert counter.page.key == ready


def test_a_disc_that_is_not_ticked_is_said_beside_it(counter, ready, rows):
    page = counter.open("hand_back", ready)
    page.fields.things[0][1].setChecked(True)
    counter.save()
    assert page.fields.things[1][2].error() == "The customer's disc goes back: tray. Tick it."
    assert rows(HandBack) == []


def test_open_gates_stand_in_the_button_and_pressing_it_goes_to_the_job(counter, take_in):
    job = take_in().job_id
    page = counter.open("hand_back", job)
    assert page.save_button.blocked
    assert "final readings" in page.save_button.words()
    page.save_button.click()
    counter.settle()
    assert counter.page.key == job


def test_saving_all_the_same_names_every_reason(counter, take_in, rows):
    job = take_in().job_id
    page = counter.open("hand_back", job)
    counter.save()
    assert page.trouble.words.startswith("This player cannot be handed back yet. Final readings missing")
    assert rows(HandBack) == []


def test_the_outcome_that_is_chosen_decides_what_is_still_to_do(counter, take_in, rows):
    job = take_in().job_id
    page = counter.open("hand_back", job)
    page.fields.outcome.set_value(str(Outcome.DECLINED))
    counter.settle()
    assert not page.save_button.blocked
    page.fields.outcome.set_value(str(Outcome.KEPT_AS_DONOR))
    counter.settle()
    assert page.fields.collector.isHidden() or not page.fields.collector.isVisible()
    counter.save()
    assert rows(Job)[0].outcome is Outcome.KEPT_AS_DONOR
    assert counter.papers == []


def test_somebody_else_needs_a_name_and_a_lost_ticket_a_proof(counter, ready):
    page = counter.open("hand_back", ready)
    assert not page.fields.collector_name.isVisible()
    page.fields.collector.set_value(str(Collector.NAMED))
    assert page.fields.collector_name.isVisible()
    page.fields.collector.set_value(str(Collector.TICKET_LOST))
    assert page.fields.proof.isVisible()
    for _, box, _ in page.fields.things:
        box.setChecked(True)
    counter.save()
    assert page.fields.proof.error().startswith("The ticket is lost")


def test_an_old_part_is_noted_and_ticked(counter, ready, rows):
    page = counter.open("hand_back", ready)
    page.fields.told.setChecked(True)
    form = page.note_old_part()
    counter.type("loading belt")
    form.save()
    counter.settle()
    assert page.open is None
    assert [thing.words for thing, _, _ in page.fields.things] == ["mains lead", "tray", "loading belt"]
    assert page.fields.told.isChecked()
    assert rows(ThingLeft)[-1].kind == "old part"


def invoice(shop, job):
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
                vat=2375,
                gross=14875,
                prepaid=0,
                rounding=0,
                due=14875,
                groups=[],
                line_count=0,
            )
        )


def test_money_is_taken_on_the_page_and_the_words_follow(counter, ready, rows, shop):
    invoice(shop, ready)
    page = counter.open("hand_back", ready)
    assert money_words(page.view) == "Open: 148.75\u00a0EUR. Paid so far: 0.00\u00a0EUR."
    assert page.fields.paid_words.isVisible()
    form = page.take_payment()
    assert form.amount.amount() == Money(14875, "EUR")
    form.means.set_value(str(Means.CARD))
    form.save()
    counter.settle()
    assert [(p.amount, p.means) for p in rows(Payment)] == [(14875, Means.CARD)]
    assert page.fields.money.text() == "Paid: 148.75\u00a0EUR. Nothing is open."
    assert not page.fields.paid_words.isVisible()


def test_an_amount_that_cannot_be_read_is_not_taken(counter, ready, rows):
    page = counter.open("hand_back", ready)
    form = page.take_payment()
    form.save()
    assert form.amount.error() == "Write the amount."
    form.amount.set_text("about ten")
    form.save()
    assert form.amount.error()
    form.leave()
    counter.settle()
    assert page.open is None
    assert rows(Payment) == []


# --- the unsafe way ---------------------------------------------------------------------------------------


@pytest.fixture
def unsafe(shop, take_in) -> int:
    job = take_in(mains_class=MainsClass.I).job_id
    with shop.book.change(shop.tobbe, Sentence("found")) as change:
        change.add(
            Modification(
                job_id=job,
                unit_id=1,
                ours=False,
                kind=Kind.OTHER,
                circuit=Circuit.FUSE,
                law=Law.NEITHER,
                reference="F1",
                part_before="T 315 mA",
                part_after="foil",
                at=change.now,
                by=change.by,
            )
        )
    return job


def test_the_owner_decides_by_pin_the_sheet_is_printed_and_signed_then_it_goes(counter, unsafe, rows, shop):
    page = counter.open("hand_back", unsafe)
    assert "a stop" in page.save_button.words()
    form = page.decide_unsafe()
    counter.settle()
    form.save()
    assert form.reason.error().startswith("Write the reason")
    form.reason.set_text("He takes it as it is.")
    form.law.setChecked(True)
    form.save()
    assert form.signature.pin.error() == "Type the PIN."
    form.signature.pin.set_text("0000")
    form.save()
    counter.settle()
    assert "not the PIN" in form.signature.pin.error()
    form.signature.pin.set_text(shop.pin("ine"))
    form.save()
    counter.settle()
    assert [paper.title for paper in counter.papers] == ["Returned unrepaired and unsafe 1001"]
    assert "decided by Ine Varloes" in page.head._below.text()
    page.fields.outcome.set_value(str(Outcome.DECLINED))
    counter.settle()
    counter.save()
    assert "The customer has to sign the warning." in page.trouble.words
    for box in (page.fields.signed, page.fields.tagged, page.fields.shut):
        box.setChecked(True)
    counter.save()
    assert page.trouble.words == ""
    assert rows(Job)[0].stage is Stage.HANDED_BACK
    (kept,) = rows(UnsafeReturnKept)
    assert (kept.signed, kept.plug_tagged, kept.by) == (True, True, shop.ine)


def test_the_reason_is_kept_as_a_draft_and_the_pin_is_not(counter, unsafe, shop):
    page = counter.open("hand_back", unsafe)
    form = page.decide_unsafe()
    counter.settle()
    form.reason.set_text("He takes it as it is.")
    form.signature.pin.set_text("470915")
    form.leave()
    draft = counter.desk.drafts.read(f"job {unsafe} unsafe return")
    assert draft["reason"] == "He takes it as it is."
    assert "470915" not in str(draft)
    assert page.decide_unsafe().reason.text() == "He takes it as it is."


def test_a_draft_of_the_page_comes_back(counter, ready):
    page = counter.open("hand_back", ready)
    page.fields.things[0][1].setChecked(True)
    page.fields.things[1][2].set_text("nowhere")
    page.fields.collector.set_value(str(Collector.NAMED))
    page.fields.collector_name.set_text("Greta")
    counter.settle()
    typed = page.fields.values()
    page.fields.collector_name.setFocus()
    counter.press(Qt.Key.Key_Escape)
    counter.window.trail.close_page("hand_back", ready)
    again = counter.open("hand_back", ready)
    assert again.fields.values() == typed


def test_a_job_that_is_closed_shows_no_form_but_its_receipt(counter, ready):
    page = counter.open("hand_back", ready)
    for _, box, _ in page.fields.things:
        box.setChecked(True)
    counter.save()
    page = counter.open("hand_back", ready)
    assert not page.form.isVisible()
    assert not page.save_button.isVisible()
    counter.papers.clear()
    page.commands()["receipt"]()
    counter.settle()
    assert [paper.title for paper in counter.papers] == ["Hand-back receipt 1001"]
    page.commands()["unsafe_paper"]()
    counter.settle()
    assert "There is no paper of this kind yet" in page.trouble.words


def test_without_somebody_at_work_nothing_is_handed_back(counter, ready, rows):
    page = counter.open("hand_back", ready)
    counter.desk.set_staff(None)
    counter.save()
    assert "Ctrl+U" in page.trouble.words
    assert rows(HandBack) == []


def test_what_was_said_stands_below_and_can_be_added_to(counter, ready, rows):
    from app.book.tables import Agreement, Message

    page = counter.open("hand_back", ready)
    page.commands()["add_message"]()
    counter.settle()
    counter.type("Told that it is ready.")
    counter.save()
    assert [row.text for row in rows(Message)] == ["Told that it is ready."]
    page.commands()["add_agreement"]()
    counter.settle()
    assert page.said.open.said_by.text() == "Benedikt Arnsvik"
    page.said.open.what.set_text("pays on Friday")
    page.said.open.save()
    counter.settle()
    assert len(rows(Agreement)) == 1


def test_without_an_invoice_the_way_to_write_one_is_there(counter, ready):
    page = counter.open("hand_back", ready)
    from app.screens.kit.buttons import Button

    links = [button.text() for button in page._deeds.findChildren(Button)]
    assert links == ["Take a payment", "Write the invoice", "Note an old part"]
    page.commands()["invoice"]()
    counter.settle()
    assert counter.page.key == ready


def test_esc_leaves_the_form_in_the_page_and_then_the_page(counter, ready):
    counter.open("counter")
    page = counter.open("hand_back", ready)
    page.take_payment()
    counter.settle()
    counter.press(Qt.Key.Key_Escape)
    assert page.open is None
    assert counter.page is page
    counter.press(Qt.Key.Key_Escape)
    assert counter.page is not page
