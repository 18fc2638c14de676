"""Words from people are shown as they stand, and never obeyed."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QPalette
from pytestqt.qtbot import QtBot

from app.screens.kit import measure
from app.screens.kit.fields import Field
from app.screens.kit.label import Label


def test_markup_in_what_a_customer_said_is_shown_not_obeyed(qtbot: QtBot) -> None:
    label = Label("<b>dead</b> <img src='x'>")
    qtbot.addWidget(label)
    assert label.textFormat() == Qt.TextFormat.PlainText
    assert label.sizeHint().width() >= measure.width("<b>dead</b> <img src='x'>")


def test_words_too_long_are_cut_with_the_whole_of_them_in_the_tooltip(qtbot: QtBot) -> None:
    label = Label("an absurdly long name of a customer", elide=True)
    qtbot.addWidget(label)
    label.resize(80, 20)
    label.grab()
    assert label.toolTip() == "an absurdly long name of a customer"
    label.resize(600, 20)
    label.grab()
    assert label.toolTip() == ""
    assert label.minimumSizeHint().width() == 0


def test_a_word_longer_than_the_line_is_broken_and_widens_nothing(qtbot: QtBot) -> None:
    label = Label("Donaudampfschifffahrtsgesellschaft" * 20, wrap=True)
    qtbot.addWidget(label)
    assert label.minimumSizeHint().width() <= measure.px(160)
    label.resize(300, label.heightForWidth(300))
    assert label.height() >= 15 * measure.px(12)  # some 4,700 px of letters, 300 in a line
    shown = label.grab().toImage()
    last = [shown.pixelColor(x, shown.height() - measure.px(6)).lightness() for x in range(shown.width())]
    assert max(last) - min(last) > 60  # the last line is written too


def test_soft_words_take_the_palettes_soft_ink(qtbot: QtBot) -> None:
    label = Label("labels", "soft")
    qtbot.addWidget(label)
    assert label.foregroundRole() == QPalette.ColorRole.PlaceholderText
    label.set_soft(False)
    assert label.foregroundRole() == QPalette.ColorRole.WindowText


def test_a_label_names_the_field_it_stands_before(qtbot: QtBot) -> None:
    field = Field("")
    label = Label("Serial number", names=field.edit)
    for widget in (field, label):
        qtbot.addWidget(widget)
    assert field.edit.accessibleName() == "Serial number"
    assert label.buddy() is field.edit
