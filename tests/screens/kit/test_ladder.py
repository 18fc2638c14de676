"""The ladder: how far it came is read without its colours, and in words."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QColor, QImage
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.screens.kit import measure
from app.screens.kit.ladder import Ladder
from app.screens.kit.ladder_drawing import LadderFacts
from app.screens.kit.measure import px
from app.screens.kit.palette import LIGHT

RUNGS = ("power", "tray and clamp", "arm home", "laser on", "focus search", "focus lock", "spindle up to speed",
         "radial lock", "lead-in read", "plays first track", "long seek", "plays outer tracks")  # fmt: skip


def picture(qtbot: QtBot, facts: LadderFacts, *, lying: bool = False, width: int = 344) -> QImage:
    ladder = Ladder(facts, lying=lying)
    qtbot.addWidget(ladder)
    ladder.resize(width, ladder.sizeHint().height())
    ladder.setAutoFillBackground(True)
    ladder.show()
    return ladder.grab().toImage()


def has(image: QImage, ink: str) -> bool:
    wanted = QColor(ink)
    return any(image.pixelColor(x, y) == wanted for x in range(image.width()) for y in range(image.height()))


@pytest.mark.parametrize("lying", [False, True])
def test_only_where_it_stopped_there_is_the_ink_of_a_stop(qtbot: QtBot, lying: bool) -> None:
    width = 840 if lying else 344
    assert has(picture(qtbot, LadderFacts(RUNGS, 10, 11), lying=lying, width=width), LIGHT.stop)
    assert not has(picture(qtbot, LadderFacts(RUNGS, 12), lying=lying, width=width), LIGHT.stop)
    assert not has(picture(qtbot, LadderFacts(RUNGS, 0), lying=lying, width=width), LIGHT.stop)


@pytest.mark.parametrize("lying", [False, True])
@pytest.mark.parametrize("reached", range(13))
def test_every_height_looks_different(qtbot: QtBot, lying: bool, reached: int) -> None:
    width = 840 if lying else 344
    stopped = reached + 1 if reached < 12 else 0
    here = picture(qtbot, LadderFacts(RUNGS, reached, stopped), lying=lying, width=width)
    other = picture(qtbot, LadderFacts(RUNGS, (reached + 5) % 13), lying=lying, width=width)
    assert here != other


def test_it_says_in_words_where_it_stands(qtbot: QtBot) -> None:
    ladder = Ladder()
    qtbot.addWidget(ladder)
    ladder.grab()
    ladder.set_facts(LadderFacts(RUNGS, 10, 11, "It plays, but stalls on a long seek."))
    assert ladder.accessibleDescription() == "It plays, but stalls on a long seek."
    assert not ladder.facts.to_the_end
    ladder.set_lying(True)
    assert ladder.sizeHint().height() < px(120)
    assert ladder.minimumSizeHint().width() >= px(344)


@pytest.mark.parametrize("percent", measure.TEXT_SIZES)
def test_the_rungs_keep_their_least_pitch_at_every_text_size(
    qapp: QApplication, qtbot: QtBot, percent: int
) -> None:
    measure.set_text_size(qapp, percent)
    ladder = Ladder(LadderFacts(RUNGS, 10, 11))
    qtbot.addWidget(ladder)
    assert ladder.minimumSizeHint().height() >= 12 * px(22)
    assert px(22) >= measure.line()
    ladder.refit()


@pytest.mark.parametrize("lying", [False, True])
def test_a_rung_that_cannot_be_tested_looks_unlike_the_others(qtbot: QtBot, lying: bool) -> None:
    width = 840 if lying else 344
    plain = picture(qtbot, LadderFacts(RUNGS, 7, 8), lying=lying, width=width)
    for unseen in (5, 8, 10):
        facts = LadderFacts(RUNGS, 7, 8, unseen=frozenset({unseen}))
        assert picture(qtbot, facts, lying=lying, width=width) != plain


@pytest.mark.parametrize("lying", [False, True])
def test_a_rung_is_marked_by_a_click_and_the_same_click_takes_the_mark_away(
    qtbot: QtBot, lying: bool
) -> None:
    ladder = Ladder(LadderFacts(RUNGS, 10, 11), lying=lying, marks=True)
    qtbot.addWidget(ladder)
    ladder.resize(840 if lying else 344, ladder.sizeHint().height())
    ladder.show()
    told: list[int] = []
    ladder.marked.connect(told.append)
    rungs = {ladder.rung_at(QPointF(x, y)) for x in range(ladder.width()) for y in (5, ladder.height() // 2)}
    assert rungs >= ({1, 6, 12} if lying else {0, 6})
    at = next(
        QPoint(x, y)
        for x in range(0, ladder.width(), 3)
        for y in range(0, ladder.height(), 3)
        if ladder.rung_at(QPointF(x, y)) == 8
    )
    for _ in range(2):
        qtbot.mouseClick(ladder, Qt.MouseButton.LeftButton, pos=at)
    assert told == [8, 0]
    assert not Ladder(LadderFacts(RUNGS, 10, 11)).focusPolicy() & Qt.FocusPolicy.StrongFocus
    assert Ladder().rung_at(QPointF(5, 5)) == 0
