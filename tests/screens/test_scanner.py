"""The scanner in the window: its burst never lands in a field and never presses a button."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QLineEdit, QPlainTextEdit, QPushButton, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot
from shiboken6 import delete

from app.screens.scanner import Scanner


class Clock:
    """Ms that pass only when told."""

    def __init__(self) -> None:
        self.at = 1000

    def __call__(self) -> int:
        return self.at


@pytest.fixture
def watch() -> Clock:
    return Clock()


@pytest.fixture
def scanner(qapp: QApplication, watch: Clock) -> Iterator[Scanner]:
    made = Scanner(qapp, clock=watch)
    yield made
    made.stop()
    made.setParent(None)


class Bench(QWidget):
    """A field, an area, and a button that Enter presses."""

    def __init__(self) -> None:
        super().__init__()
        self.field, self.area, self.button = QLineEdit(), QPlainTextEdit(), QPushButton("Save")
        self.presses = 0
        self.button.setAutoDefault(True)
        self.button.clicked.connect(self._pressed)
        layout = QVBoxLayout(self)
        for widget in (self.field, self.area, self.button):
            layout.addWidget(widget)

    def _pressed(self) -> None:
        self.presses += 1


@pytest.fixture
def bench(qtbot: QtBot) -> Bench:
    made = Bench()
    qtbot.addWidget(made)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    return made


def press(widget: QWidget, key: str, watch: Clock, gap: int) -> None:
    """One key with press and release, as the platform hands it to the widget that has the focus."""
    watch.at += gap
    code = {"\n": Qt.Key.Key_Return, "\t": Qt.Key.Key_Tab}.get(key) or Qt.Key(ord(key.upper()))
    shift = Qt.KeyboardModifier.ShiftModifier if key.isupper() else Qt.KeyboardModifier.NoModifier
    text = "\r" if key == "\n" else key
    for kind in (QEvent.Type.KeyPress, QEvent.Type.KeyRelease):
        to = QApplication.focusWidget() or widget
        QApplication.sendEvent(to, QKeyEvent(kind, code, shift, text))


def type_keys(widget: QWidget, keys: str, watch: Clock, gap: int) -> None:
    for key in keys:
        press(widget, key, watch, gap)


def test_a_scan_goes_to_the_book_and_not_to_the_field(
    qtbot: QtBot, scanner: Scanner, bench: Bench, watch: Clock
) -> None:
    bench.field.setFocus()
    with qtbot.waitSignal(scanner.scanned) as signal:
        type_keys(bench.field, "J2131\n", watch, 8)
    assert signal.args == [2131]
    assert bench.field.text() == ""


def test_the_enter_of_a_scan_presses_no_button(
    qtbot: QtBot, scanner: Scanner, bench: Bench, watch: Clock
) -> None:
    bench.button.setFocus()
    with qtbot.waitSignal(scanner.scanned):
        type_keys(bench.button, "J2131\n", watch, 8)
    assert bench.presses == 0


def test_a_scan_leaves_no_line_in_a_text_area(
    qtbot: QtBot, scanner: Scanner, bench: Bench, watch: Clock
) -> None:
    bench.area.setFocus()
    with qtbot.waitSignal(scanner.scanned):
        type_keys(bench.area, "J7\n", watch, 2)
    assert bench.area.toPlainText() == ""


@pytest.mark.parametrize("gap", [51, 60])
def test_slow_typing_of_the_same_keys_lands_in_the_field(
    qtbot: QtBot, scanner: Scanner, bench: Bench, watch: Clock, gap: int
) -> None:
    bench.field.setFocus()
    with qtbot.assertNotEmitted(scanner.scanned):
        type_keys(bench.field, "J2131", watch, gap)
        scanner.let_go()
    assert bench.field.text() == "J2131"


def test_a_name_typed_fast_keeps_every_letter_in_order(scanner: Scanner, bench: Bench, watch: Clock) -> None:
    bench.field.setFocus()
    type_keys(bench.field, "Jun J. Okeland J1x", watch, 12)
    assert bench.field.text() == "Jun J. Okeland J1x"


def test_a_single_letter_that_is_held_comes_through_by_itself(
    qtbot: QtBot, scanner: Scanner, bench: Bench, watch: Clock
) -> None:
    bench.field.setFocus()
    press(bench.field, "J", watch, 100)
    assert bench.field.text() == ""
    qtbot.waitUntil(lambda: bench.field.text() == "J", timeout=1000)


def test_held_keys_stay_in_the_field_they_were_typed_into(
    scanner: Scanner, bench: Bench, watch: Clock
) -> None:
    bench.field.setFocus()
    press(bench.field, "J", watch, 100)
    bench.area.setFocus()
    scanner.let_go()
    assert bench.field.text() == "J"


def test_a_click_lets_go_what_is_held(qtbot: QtBot, scanner: Scanner, bench: Bench, watch: Clock) -> None:
    bench.field.setFocus()
    press(bench.field, "J", watch, 100)
    qtbot.mouseClick(bench.button, Qt.MouseButton.LeftButton)
    assert bench.field.text() == "J"


def test_keys_held_for_a_field_that_is_gone_are_dropped(scanner: Scanner, bench: Bench, watch: Clock) -> None:
    bench.field.setFocus()
    press(bench.field, "J", watch, 100)
    delete(bench.field)
    scanner.let_go()
    assert bench.area.toPlainText() == ""


def test_shortcuts_and_held_down_keys_are_no_scan(
    qtbot: QtBot, scanner: Scanner, bench: Bench, watch: Clock
) -> None:
    bench.field.setFocus()
    event = QKeyEvent(QEvent.Type.KeyPress, Qt.Key.Key_J, Qt.KeyboardModifier.NoModifier, "j", True)
    QApplication.sendEvent(bench.field, event)
    assert bench.field.text() == "j"
    ctrl = QKeyEvent(QEvent.Type.KeyPress, Qt.Key.Key_J, Qt.KeyboardModifier.ControlModifier, "j")
    QApplication.sendEvent(bench.field, ctrl)
    assert not scanner._burst.holding


def test_shift_between_the_keys_does_not_break_the_burst(
    qtbot: QtBot, scanner: Scanner, bench: Bench, watch: Clock
) -> None:
    bench.field.setFocus()
    shift = QKeyEvent(QEvent.Type.KeyPress, Qt.Key.Key_Shift, Qt.KeyboardModifier.ShiftModifier)
    with qtbot.waitSignal(scanner.scanned) as signal:
        press(bench.field, "J", watch, 5)
        QApplication.sendEvent(bench.field, shift)
        type_keys(bench.field, "42\n", watch, 5)
    assert signal.args == [42]


def test_the_time_is_when_the_key_was_pressed_not_when_a_busy_window_saw_it(
    qapp: QApplication, bench: Bench
) -> None:
    scanner = Scanner(qapp)
    bench.field.setFocus()
    got: list[int] = []
    scanner.scanned.connect(got.append)
    for i, (_key, code, text) in enumerate(
        [("J", Qt.Key.Key_J, "J"), ("7", Qt.Key.Key_7, "7"), ("\n", Qt.Key.Key_Return, "\r")]
    ):
        event = QKeyEvent(QEvent.Type.KeyPress, code, Qt.KeyboardModifier.NoModifier, text)
        event.setTimestamp(5000 + i * 80)  # typed at 80 ms a key, seen all at once
        QApplication.sendEvent(bench.field, event)
    assert got == []
    scanner.stop()
    scanner.setParent(None)


@pytest.mark.parametrize("gap", [2, 20, 50])
def test_two_tickets_in_a_row_are_two_scans(
    qtbot: QtBot, scanner: Scanner, bench: Bench, watch: Clock, gap: int
) -> None:
    bench.field.setFocus()
    got: list[int] = []
    scanner.scanned.connect(got.append)
    type_keys(bench.field, "J2131\nJ2132\n", watch, gap)
    assert got == [2131, 2132]
    assert bench.field.text() == ""


def test_it_looks_at_what_has_the_focus_and_at_everything_only_while_keys_are_held(
    qapp: QApplication, scanner: Scanner, bench: Bench, watch: Clock
) -> None:
    bench.field.setFocus()
    assert scanner._filtered is bench.field
    bench.area.setFocus()
    assert scanner._filtered is bench.area
    press(bench.area, "J", watch, 100)
    assert scanner._filtered is qapp
    press(bench.area, "x", watch, 5)
    assert scanner._filtered is bench.area
    assert bench.area.toPlainText() == "Jx"


def test_where_nothing_has_the_focus_the_window_gets_the_keys(
    qtbot: QtBot, scanner: Scanner, bench: Bench, watch: Clock
) -> None:
    bench.field.setFocus()
    bench.field.clearFocus()
    assert QApplication.focusWidget() is None
    with qtbot.waitSignal(scanner.scanned) as signal:
        type_keys(bench, "J77\n", watch, 5)
    assert signal.args == [77]


def test_stopped_it_withholds_nothing(scanner: Scanner, bench: Bench, watch: Clock) -> None:
    bench.field.setFocus()
    scanner.stop()
    press(bench.field, "J", watch, 100)
    assert bench.field.text() == "J"
