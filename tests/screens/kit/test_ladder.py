"""The ladder: how far it came is read without its colours, and in words."""

from __future__ import annotations

import pytest
from PySide6.QtGui import QColor, QImage
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.screens.kit import measure
from app.screens.kit.ladder import Ladder, LadderFacts
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
