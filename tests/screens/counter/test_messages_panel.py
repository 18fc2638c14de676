"""What was said: written down in two keys, read in the order of time."""

from __future__ import annotations

from datetime import UTC, datetime
from decimal import Decimal

import pytest
from PySide6.QtCore import Qt

from app.book.tables import Agreement, Message, Modification
from app.screens.counter.messages_panel import MessagesPanel
from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import Way
from app.trade.counter.agreements import AgreementKind
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence


@pytest.fixture
def panel(counter, job, qtbot) -> MessagesPanel:
    made = MessagesPanel(counter.desk, job, customer="Benedikt Arnsvik")
    qtbot.addWidget(made)
    made.resize(900, 600)
    made.show()
    made.activateWindow()
    made.load()
    counter.settle()
    return made


def texts(panel):
    from app.screens.kit.label import Label

    return [label.text() for label in panel.lines.findChildren(Label) if label.isVisible()]


def test_a_call_is_a_line_in_two_keys(counter, panel, rows, shop):
    assert panel._nothing.isVisible()
    panel.add_link.click()
    counter.type("Asked about the price.")
    counter.save()
    (row,) = rows(Message)
    assert (row.text, row.to_customer, row.way, row.at, row.by) == (
        "Asked about the price.",
        True,
        Way.TELEPHONE,
        shop.clock(),
        shop.mirr,
    )
    assert panel.open is None
    assert any("Asked about the price.  (to the customer; Mirr Quistan)" in text for text in texts(panel))


def test_a_message_from_somebody_else_at_another_time(counter, panel, rows):
    form = panel.add_message()
    form.text.set_text("Rang back.")
    form.direction.set_value("from")
    form.way.set_value(str(Way.MESSAGE))
    form.spoke_with.set_text("his sister")
    form.when.day.set_text("11 Mar")
    form.save()
    assert form.when.time.error() == "At what time was it said?"
    form.when.time.set_text("25:00")
    form.save()
    assert form.when.time.error()
    form.when.time.set_text("14:05")
    form.save()
    counter.settle()
    (row,) = rows(Message)
    assert row.at == datetime(2026, 3, 11, 13, 5, tzinfo=UTC)  # five past two in the shop
    assert (row.to_customer, row.spoke_with, row.way) == (False, "his sister", Way.MESSAGE)


def test_a_day_that_is_none_is_said(counter, panel):
    form = panel.add_message()
    form.text.set_text("x")
    form.when.day.set_text("someday")
    form.save()
    assert "No day" in form.when.day.error()


def test_an_empty_message_is_not_kept_and_leaving_keeps_the_draft(counter, panel, rows):
    form = panel.add_message()
    form.save()
    counter.settle()
    assert form.text.error() == "Write what was said."
    form.text.set_text("half a sen")
    counter.press(Qt.Key.Key_Escape)
    assert panel.open is None
    assert panel.add_message().text.text() == "half a sen"
    assert rows(Message) == []


def test_a_yes_to_a_price_has_its_amount(counter, panel, rows):
    form = panel.add_agreement()
    assert form.said_by.text() == "Benedikt Arnsvik"
    form.kind.set_value(str(AgreementKind.PRICE))
    form.what.set_text("repair and test")
    form.amount.set_text("about")
    form.save()
    assert form.amount.error()
    form.amount.set_text("148,75")
    form.save()
    counter.settle()
    (row,) = rows(Agreement)
    assert (row.kind, row.yes, row.amount, row.said_by) == ("price", True, 14875, "Benedikt Arnsvik")
    assert any(
        text.startswith("Yes to price, up to 148.75\u00a0EUR: repair and test") for text in texts(panel)
    )


def test_a_no_is_recorded_as_one(counter, panel, rows):
    form = panel.add_agreement()
    form.yes.set_value("no")
    form.what.set_text("new transport")
    form.save()
    counter.settle()
    assert rows(Agreement)[0].yes is False
    assert any(text.startswith("No to work: new transport") for text in texts(panel))


def test_without_a_modification_none_can_be_agreed_to(panel):
    form = panel.add_agreement()
    kinds = [button.text() for button in form.kind._group.buttons()]
    assert kinds == ["work", "price"]


def test_a_yes_to_a_modification_names_it(counter, job, shop, qtbot, rows):
    with shop.book.change(shop.tobbe, Sentence("modified")) as change:
        made = change.add(
            Modification(
                job_id=job,
                unit_id=1,
                kind=Kind.REPLACED,
                circuit=Circuit.RADIAL_COIL,
                law=Law.CURRENT,
                reference="R314",
                value_before=Decimal("6.8"),
                value_after=Decimal("5.6"),
                at=change.now,
                by=change.by,
            )
        ).id
    panel = MessagesPanel(
        counter.desk, job, customer="B. Arnsvik", modifications=[(made, "R314 5.6 for 6.8 ohm")]
    )
    qtbot.addWidget(panel)
    panel.show()
    form = panel.add_agreement(made, "R314 5.6 for 6.8 ohm, can be undone")
    counter.settle()
    assert form.modification.isVisible()
    assert not form.amount.isVisible()
    form.save()
    counter.settle()
    (row,) = rows(Agreement)
    assert (row.kind, row.modification_id, row.what) == (
        "modification",
        made,
        "R314 5.6 for 6.8 ohm, can be undone",
    )


def test_trouble_of_loading_reaches_the_page(counter, panel, monkeypatch):
    told = []
    panel.failed.connect(lambda error, again: told.append(error))

    def broken(book, job_id):
        raise Refusal(Sentence("no"))

    monkeypatch.setattr("app.screens.counter.messages_panel.what_was_said", broken)
    panel.load()
    counter.settle()
    assert len(told) == 1
