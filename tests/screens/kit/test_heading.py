"""Headings, facts, stages, feet."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from app.screens.kit import measure
from app.screens.kit.boxes import Column
from app.screens.kit.buttons import Button
from app.screens.kit.foot import Foot
from app.screens.kit.heading import FactLine, Heading, Rule, StageWord
from app.screens.kit.label import Label


def test_plain_buttons_leave_when_the_words_need_the_room_and_blocked_ones_stay(qtbot: QtBot) -> None:
    heading = Heading("Quellmar Larch 2, serial 0420 158", number="2131")
    qtbot.addWidget(heading)
    tag, back = Button("Print bench tag", key="Ctrl+P"), Button("Hand back")
    back.block("safety test, final readings to do")
    heading.set_buttons(tag, back)
    heading.resize(1200, 60)
    heading.show()
    assert tag.isVisible()
    heading.resize(840, 60)
    assert not tag.isVisible()
    assert back.isVisible()
    heading.resize(1200, 60)
    assert tag.isVisible()


def test_words_break_rather_than_a_kept_button_leaves(qtbot: QtBot) -> None:
    heading = Heading("Not all groups last equally long (log-rank p under 0.0001)", keeps=True)
    qtbot.addWidget(heading)
    buttons = copy, save, *_ = Button("Copy", key="Ctrl+C"), Button("Save as…"), Button("Print", key="Ctrl+P")
    heading.set_buttons(*buttons)
    heading.resize(800, 80)
    heading.show()
    QApplication.processEvents()
    title = heading.findChildren(Label)[2]
    assert all(button.isVisible() for button in buttons)
    assert copy.x() > title.geometry().right()  # beside the words
    assert title.height() > 2 * measure.line()
    heading.resize(500, 120)
    QApplication.processEvents()
    assert all(button.isVisible() for button in buttons)
    assert copy.y() > title.geometry().bottom()  # below them
    heading.set_gone(save, True)
    assert not save.isVisible()
    heading.resize(200, 120)
    assert not copy.isVisible()


def test_the_main_button_never_leaves(qtbot: QtBot) -> None:
    heading = Heading("In the shop", below="14 players.")
    qtbot.addWidget(heading)
    main = Button("Take in a player", kind="main")
    heading.set_buttons(Button("Print this list"), main)
    heading.resize(320, 60)
    heading.show()
    assert main.isVisible()


def test_buttons_that_leave_the_words_little_room_stand_below_them(qtbot: QtBot) -> None:
    heading = Heading("Quellmar Larch 2, serial 0420 158", number="2131")
    qtbot.addWidget(heading)
    back = Button("Hand back")
    back.block("safety test, final readings and 2 more to do")
    heading.set_buttons(back)
    heading.resize(500, 80)
    heading.show()
    QApplication.processEvents()
    title = heading.findChildren(Label)[2]
    assert back.x() == 0
    assert back.y() > title.geometry().bottom()
    heading.resize(1200, 80)
    QApplication.processEvents()
    assert back.x() > title.geometry().right()


def test_words_can_change(qtbot: QtBot) -> None:
    heading = Heading("One transport type", above="Which repairs come back")
    qtbot.addWidget(heading)
    heading.show()
    assert heading._above.isVisible()
    heading.set_words("Ponnik S5: 27 %", number="1")
    assert not heading._above.isVisible()
    assert heading.accessibleName() == "1 Ponnik S5: 27 %"
    heading.set_below("from 15 to 44 %")
    assert heading._below.isVisible()
    heading.set_below("")
    assert not heading._below.isVisible()


@pytest.mark.parametrize("width", [260, 500, 1000])
def test_facts_go_on_in_the_next_line_and_none_is_cut(qtbot: QtBot, width: int) -> None:
    page = QWidget()
    qtbot.addWidget(page)
    facts = FactLine(
        [
            ("Customer", "Benedikt Arnsvik"),
            ("Transport", "Velk A1 swing arm, 55 871"),
            ("", ""),
            ("Stage", StageWord(1, "on the bench", "waiting for part")),
            ("Promised", "Fri 27 Nov"),
        ]
    )
    Column(page).add(facts).addStretch(1)
    page.resize(width, 300)
    page.show()
    page.grab()
    shown = [label for label in facts.findChildren(Label) if label.isVisible()]
    assert [label.text() for label in shown].count("Fri 27 Nov") == 1
    for label in shown:
        assert label.width() >= measure.width(label.text())
        assert facts.rect().contains(label.mapTo(facts, label.rect().bottomRight()))


def test_a_stage_is_heard_with_what_it_waits_for(qtbot: QtBot) -> None:
    stage = StageWord(3, "ready", "waiting for customer")
    qtbot.addWidget(stage)
    assert stage.accessibleName() == "ready waiting for customer"
    wide = stage.sizeHint().width()
    stage.set_stage(0, "taken in")
    assert stage.sizeHint().width() < wide
    stage.refit()
    stage.grab()


def test_a_foot_has_the_way_out_at_its_right_end(qtbot: QtBot) -> None:
    leave = Button("Leave, keep the draft", kind="quiet", key="Esc")
    save = Button("Save", kind="main")
    foot = Foot(save, leave=leave)
    qtbot.addWidget(foot)
    foot.resize(700, 60)
    foot.show()
    assert save.x() == 0
    assert leave.x() + leave.width() == 700
    rule = Rule("line")
    qtbot.addWidget(rule)
    rule.grab()
