"""Forms: one line for all labels, Enter goes on, Ctrl+Enter saves, Esc leaves."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from app.screens.kit import measure
from app.screens.kit.buttons import Button
from app.screens.kit.choice import Choice
from app.screens.kit.combo import Combo
from app.screens.kit.day_field import DayField
from app.screens.kit.fields import Field, TextArea
from app.screens.kit.form import Form
from app.screens.kit.label import Label
from app.screens.kit.tick import Tick


class Intake(Form):
    """A form with every kind of field."""

    def __init__(self) -> None:
        super().__init__()
        self.section("Who")
        self.customer = Field("")
        self.phone, self.mail = Field("", width=160), Field("")
        self.row("Customer", self.customer)
        self.row("Phone", self.phone, "E-mail", self.mail)
        self.section("What")
        self.mains = Choice("", (("I", "class I"), ("II", "class II")))
        self.row("Mains", self.mains)
        self.section("Fault")
        self.said = TextArea("")
        self.short = Combo("", (("warm", "stops when warm"), ("dead", "dead")), "warm")
        self.row("As they say it", self.said)
        self.row("In short", self.short)
        self.lead, self.disc = Tick("mains lead"), Tick("a disc")
        self.row("Came with it", self.lead, self.disc)
        self.section("Promise")
        self.ready = DayField("", lambda: date(2026, 11, 25))
        self.row("Ready by", self.ready)
        self.order = [self.customer.edit, self.phone.edit, self.mail.edit, self.mains, self.said,
                      self.short, self.lead, self.disc, self.ready.edit]  # fmt: skip


@pytest.fixture
def form(qtbot: QtBot) -> Intake:
    made = Intake()
    qtbot.addWidget(made)
    made.resize(720, 520)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    return made


def focus() -> QWidget:
    widget = QApplication.focusWidget()
    assert widget is not None
    return widget


def stands_on(widget: QWidget, field: QWidget) -> bool:
    return widget is field or field.isAncestorOf(widget)


def test_every_field_has_the_name_of_its_label(form: Intake) -> None:
    names = [w.accessibleName() for w in form.order]
    assert names == ["Customer", "Phone", "E-mail", "Mains", "As they say it", "In short", "mains lead", "a disc",
                     "Ready by"]  # fmt: skip


def test_enter_walks_through_the_form_in_the_order_people_speak(qtbot: QtBot, form: Intake) -> None:
    form.first()
    for field in form.order[:4]:
        assert stands_on(focus(), field), field.accessibleName()
        qtbot.keyClick(focus(), Qt.Key.Key_Return)
    assert focus() is form.said
    qtbot.keyClick(focus(), Qt.Key.Key_Tab)
    for field in form.order[5:]:
        assert stands_on(focus(), field), field.accessibleName()
        qtbot.keyClick(focus(), Qt.Key.Key_Return)


def test_tab_walks_the_same_way_and_the_geometry_agrees(qtbot: QtBot, form: Intake) -> None:
    form.first()
    seen: list[QPoint] = []
    for field in form.order:
        assert stands_on(focus(), field), field.accessibleName()
        at = focus().mapTo(form, QPoint(0, 0))
        seen.append(QPoint(at.x(), at.y() // 20))
        qtbot.keyClick(focus(), Qt.Key.Key_Tab)
    assert [(p.y(), p.x()) for p in seen] == sorted((p.y(), p.x()) for p in seen)


def test_enter_in_a_text_area_is_a_new_line(qtbot: QtBot, form: Intake) -> None:
    form.said.setFocus()
    qtbot.keyClicks(form.said, "a")
    qtbot.keyClick(form.said, Qt.Key.Key_Return)
    qtbot.keyClicks(form.said, "b")
    assert form.said.text() == "a\nb"


@pytest.mark.parametrize("at", range(9))
def test_ctrl_enter_saves_and_esc_leaves_from_every_field(qtbot: QtBot, form: Intake, at: int) -> None:
    form.order[at].setFocus()
    with qtbot.waitSignal(form.save_asked):
        qtbot.keyClick(focus(), Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    with qtbot.waitSignal(form.leave_asked):
        qtbot.keyClick(focus(), Qt.Key.Key_Escape)


def test_typing_anywhere_is_heard_for_the_draft(qtbot: QtBot, form: Intake) -> None:
    heard: list[int] = []
    form.typed.connect(lambda: heard.append(1))
    qtbot.keyClicks(form.customer.edit, "B")
    form.mains.set_value("II")
    form.said.set_text("x")
    form.short.set_value("dead")
    form.lead.setChecked(True)
    form.ready.set_text("+8")
    assert len(heard) >= 6


@pytest.mark.parametrize("percent", measure.TEXT_SIZES)
def test_labels_end_where_fields_begin_and_none_is_cut(
    qapp: QApplication, qtbot: QtBot, percent: int
) -> None:
    measure.set_text_size(qapp, percent)
    form = Intake()
    qtbot.addWidget(form)
    form.resize(720 * percent // 100, 520 * percent // 100)
    form.show()
    starts = {f.mapTo(form, QPoint(0, 0)).x() for f in (form.customer, form.phone, form.said, form.short)}
    assert len(starts) == 1
    left = starts.pop()
    for label in form.findChildren(Label):
        if label.isVisible() and label.text() and label.mapTo(form, QPoint(0, 0)).x() < left:
            assert label.mapTo(form, QPoint(label.width(), 0)).x() <= left
            assert label.width() >= measure.width(label.text(), label.font())


def test_something_wide_and_a_button_can_stand_in_a_form(qtbot: QtBot) -> None:
    done: list[int] = []
    form = Form(sections=False, label_width=80)
    qtbot.addWidget(form)
    form.wide(Label("Words across"))
    button = Button("Look it up", lambda: done.append(1))
    form.row("Serial", button, 9, stretch_last=True)
    form.show()
    form.activateWindow()
    qtbot.waitUntil(form.isActiveWindow)
    button.setFocus()
    qtbot.keyClick(button, Qt.Key.Key_Return)
    assert done == [1]
    assert form.fields() == (button,)
    form.grab()


@pytest.fixture
def housed(qtbot: QtBot) -> Iterator[Intake]:
    """A form in a page, which may be narrower than the form would like."""
    page = QWidget()
    qtbot.addWidget(page)
    page.resize(900, 900)
    made = Intake()
    made.setParent(page)
    made.resize(720, 520)
    page.show()
    yield made
    page.hide()


def test_in_a_narrow_form_labels_stand_above_their_fields_and_nothing_sticks_out(
    qtbot: QtBot, housed: Intake
) -> None:
    form = housed
    assert not form.labels_above
    labels = [label for label in form.findChildren(Label) if label.text() == "Customer"]
    before = form.customer.mapTo(form, QPoint(0, 0))
    form.resize(320, 900)
    qtbot.waitUntil(lambda: form.labels_above)
    form.grab()
    for field in form.findChildren(Field):
        assert field.mapTo(form, field.rect().topRight()).x() < form.width()
    field = form.customer.mapTo(form, QPoint(0, 0))
    assert labels[0].mapTo(form, QPoint(0, 0)).y() < field.y()
    assert labels[0].sizeHint().height() < measure.px(20)  # close to its field
    assert field.x() < before.x()
    form.resize(720, 520)
    qtbot.waitUntil(lambda: not form.labels_above)
    form.grab()
    assert form.customer.mapTo(form, QPoint(0, 0)).x() == before.x()


def test_a_line_added_to_a_narrow_form_lies_as_the_others_do(qtbot: QtBot, housed: Intake) -> None:
    form = housed
    form.resize(320, 900)
    qtbot.waitUntil(lambda: form.labels_above)
    late, across = Field(""), Label("no later than the promise")
    form.row("Shelf", late)
    form.wide(across)
    form.grab()
    assert late.mapTo(form, QPoint(0, 0)).x() == form.customer.mapTo(form, QPoint(0, 0)).x()
    assert across.x() == 0
