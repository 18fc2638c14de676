"""A page that is one form: drafts, refusals under their fields, the way out."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest
from pytestqt.qtbot import QtBot

from app.screens.desk import Desk
from app.screens.form_page import FormPage
from app.screens.kit.fields import Field
from app.screens.kit.tick import Tick
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence


class Intake(FormPage):
    """Two fields and a tick."""

    draft_key = "intake"

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk, "Take in a player")
        self.customer, self.serial, self.lead = Field(""), Field(""), Tick("mains lead")
        self.form.row("Customer", self.customer)
        self.form.row("Serial number", self.serial)
        self.form.row("Came with it", self.lead)
        self.named = {"customer": self.customer, "serial": self.serial, "lead": self.lead}
        self.saves = 0
        self.set_below("Job 2171")
        self.take_draft()

    def values(self) -> dict[str, Any]:
        return {"customer": self.customer.text(), "serial": self.serial.text()}

    def fill(self, values: Mapping[str, Any]) -> None:
        self.customer.set_text(values["customer"])
        self.serial.set_text(values["serial"])

    def save(self) -> None:
        self.saves += 1


@pytest.fixture
def page(qtbot: QtBot, desk: Desk) -> Intake:
    made = Intake(desk)
    qtbot.addWidget(made)
    made.resize(900, 600)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    made.arrive()
    return made


def test_what_is_typed_is_kept_and_said(qtbot: QtBot, page: Intake, desk: Desk) -> None:
    assert page.customer.edit.hasFocus()
    with qtbot.waitSignal(desk.drafts.kept):
        qtbot.keyClicks(page.customer.edit, "Benedikt")
    desk.drafts.flush()
    assert desk.drafts.read("intake") == {"customer": "Benedikt", "serial": ""}
    qtbot.waitUntil(lambda: page.head._below.text() == "Job 2171 Draft kept, 09:30.")


def test_the_draft_is_there_when_the_form_is_opened_again(qtbot: QtBot, page: Intake, desk: Desk) -> None:
    qtbot.keyClicks(page.customer.edit, "Benedikt")
    again = Intake(desk)
    qtbot.addWidget(again)
    assert again.customer.text() == "Benedikt"
    assert "draft" in again.head._below.text()


def test_filling_from_a_draft_is_no_typing(qtbot: QtBot, desk: Desk) -> None:
    desk.drafts.keep("intake", {"customer": "B", "serial": ""})
    page = Intake(desk)
    qtbot.addWidget(page)
    desk.drafts.drop("intake")
    assert page.leave()
    assert desk.drafts.read("intake") is None


def test_a_saved_form_forgets_its_draft(qtbot: QtBot, page: Intake, desk: Desk) -> None:
    qtbot.keyClicks(page.customer.edit, "B")
    page.commands()["save"]()
    page.saved()
    assert page.saves == 1
    assert desk.drafts.read("intake") is None
    assert page.head._below.text() == "Job 2171"


def test_esc_leaves_and_keeps(qtbot: QtBot, page: Intake, desk: Desk) -> None:
    went: list[str] = []
    desk.serve(lambda kind, key: None, lambda: went.append("back"))
    qtbot.keyClicks(page.customer.edit, "B")
    desk.drafts.drop("intake")
    page.commands()["leave"]()
    assert went == ["back"]
    assert desk.drafts.read("intake") == {"customer": "B", "serial": ""}


def test_sentences_stand_under_their_fields_and_the_first_has_the_focus(page: Intake) -> None:
    page.refuse(FieldRefusal({"serial": Sentence("Type the serial number, or choose not readable.")}))
    assert page.serial.error() == "Type the serial number, or choose not readable."
    assert page.serial.edit.hasFocus()
    assert not page.trouble.isVisible()
    page.refuse(FieldRefusal({"customer": Sentence("Who is it?")}))
    assert page.serial.error() == ""
    assert page.customer.error() == "Who is it?"
    page.clear_errors()
    assert page.customer.error() == ""


def test_what_belongs_to_no_field_is_told_at_the_top(page: Intake) -> None:
    page.refuse(FieldRefusal({"shelf": Sentence("Shelf C 4 is taken."), "lead": Sentence("Tick what came.")}))
    assert page.trouble.isVisible()
    assert "Shelf C 4 is taken." in page.trouble.words
    assert "Tick what came." in page.trouble.words


def test_a_form_without_a_key_keeps_no_draft(qtbot: QtBot, desk: Desk) -> None:
    page = FormPage(desk, "Settings")
    qtbot.addWidget(page)
    page.form.typed.emit()
    page.saved()
    page.save()
    page.fill({})
    assert page.values() == {}
    assert not page.take_draft()
    assert desk.drafts.forms() == ()
