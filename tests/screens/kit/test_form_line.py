"""Fields beside each other that go on below where there is no room."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QSizePolicy, QWidget
from pytestqt.qtbot import QtBot

from app.screens.kit.fields import Field
from app.screens.kit.form import Form
from app.screens.kit.label import Label
from app.screens.kit.measure import px


class Line(Form):
    """Rung, tries and what stopped, with words between them."""

    def __init__(self) -> None:
        super().__init__(sections=False)
        self.tries, self.stopped = Field("", width=60), Field("", width=60)
        self.line = self.row("Tries", self.tries, "stopped in", self.stopped, "times")
        self.mail = Field("")
        self.row("E-mail", self.mail)


@pytest.fixture
def form(qtbot: QtBot) -> Line:
    made = Line()
    qtbot.addWidget(made)
    made.resize(720, 160)
    made.show()
    return made


def test_with_room_all_stand_in_one_line_at_the_left(form: Line) -> None:
    before, after = form.line.layout().itemAt(1).widget(), form.line.layout().itemAt(3).widget()
    assert before is not None
    assert after is not None
    assert form.tries.x() == 0
    assert before.x() == form.tries.width() + px(9)
    assert form.stopped.x() == before.geometry().right() + 1 + px(9)
    assert after.x() == form.stopped.geometry().right() + 1 + px(9)
    assert {form.tries.y(), form.stopped.y(), before.y(), after.y()} == {0}


def test_words_go_on_below_with_their_field(form: Line) -> None:
    form.resize(px(112 + 9 + 60) + 40, 300)
    layout = form.line.layout()
    assert layout is not None
    before, after = layout.itemAt(1).widget(), layout.itemAt(3).widget()
    assert before is not None
    assert after is not None
    assert before.y() > form.tries.geometry().bottom()
    assert before.x() == 0
    assert form.stopped.y() == before.y()
    assert after.y() == before.y()
    assert form.line.height() >= form.stopped.geometry().bottom()


def test_what_grows_takes_the_rest(form: Line) -> None:
    line = form.mail.parentWidget()
    assert line is not None
    assert form.mail.width() == line.width()


def test_two_that_grow_share_and_none_is_narrower_than_it_needs(qtbot: QtBot) -> None:
    form = Form(sections=False)
    qtbot.addWidget(form)
    small, large = QWidget(), QWidget()
    for widget, least in ((small, 40), (large, 400)):
        widget.setMinimumWidth(least)
        widget.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
    line = form.row("", small, 10, large)
    form.resize(700, 60)
    form.show()
    room = line.width() - px(9) - px(10)
    assert large.width() == 400
    assert small.width() == room - 400
    form.resize(1200, 60)
    assert abs(small.width() - large.width()) <= 1


def test_hidden_fields_leave_no_gap(form: Line) -> None:
    form.tries.hide()
    form.line.layout().activate()
    before = form.line.layout().itemAt(1).widget()
    assert before is not None
    assert before.x() == 0


def test_the_last_may_grow_where_it_is_told_to(qtbot: QtBot) -> None:
    form = Form(sections=False)
    qtbot.addWidget(form)
    told = Label("Only the owner sees this.", wrap=True)
    line = form.row("", told, stretch_last=True)
    form.resize(600, 60)
    form.show()
    assert told.width() == line.width()
