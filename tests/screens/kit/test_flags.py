"""Flags: three levels that are told by edge, shape and word, the gravest first."""

from __future__ import annotations

from typing import Any

import pytest
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QImage, QPainter
from pytestqt.qtbot import QtBot

from app.screens.kit.flags import FlagBar, FlagFacts, FlagLine, flag_bar, gravest_first, paint_edge
from app.screens.kit.shapes import flag_shape

NOTE = FlagFacts("note", "Order", "Done before the arm bearing was cleaned.")
CAUTION = FlagFacts(
    "caution",
    "Heat",
    "The coil takes ×1.474 the power.",
    "Cleared only by reversal.",
    action="Why this",
    target=7,
)
STOP = FlagFacts("stop", "Fuse", "The fuse was changed from T 0.5 A to T 2 A.", "Fit T 0.5 A.")


def drawn(what: Any) -> QImage:
    """A grey picture, so that ink cannot tell the difference."""
    image = QImage(20, 20, QImage.Format.Format_RGB32)
    image.fill(Qt.GlobalColor.white)
    painter = QPainter(image)
    what(painter)
    painter.end()
    black = image.convertToFormat(QImage.Format.Format_Grayscale8)
    return black.convertToFormat(QImage.Format.Format_Mono, Qt.ImageConversionFlag.ThresholdDither)


def test_stops_stand_first_and_equals_keep_their_order() -> None:
    second = FlagFacts("caution", "Laser", "x")
    assert gravest_first([NOTE, CAUTION, STOP, second]) == [STOP, CAUTION, second, NOTE]


def test_levels_differ_by_shape_alone() -> None:
    shapes = [drawn(lambda p, level=level: flag_shape(p, QRectF(2, 2, 16, 16), level)) for level in
              ("note", "caution", "stop")]  # fmt: skip
    assert shapes[0] != shapes[1] != shapes[2] != shapes[0]


def test_levels_differ_by_edge_alone() -> None:
    edges = [drawn(lambda p, level=level: paint_edge(p, 20, level)) for level in ("note", "caution", "stop")]
    assert edges[0] != edges[1] != edges[2] != edges[0]


def test_a_flag_is_heard_with_level_word_sentence_and_what_clears_it(qtbot: QtBot) -> None:
    line = FlagLine(STOP)
    qtbot.addWidget(line)
    assert line.accessibleName() == ("Stop: Fuse. The fuse was changed from T 0.5 A to T 2 A. Fit T 0.5 A.")


@pytest.mark.parametrize("stacked", [False, True])
@pytest.mark.parametrize("width", [260, 420, 900])
def test_a_long_sentence_takes_the_height_it_needs(qtbot: QtBot, stacked: bool, width: int) -> None:
    flag = FlagFacts(
        "caution", "Modification left inside", "R314 replaced, 6.8 by 5.6 Ω. " * 6, action="Read sheet"
    )
    line = FlagLine(flag, stacked=stacked)
    qtbot.addWidget(line)
    need = line._text_height(width)
    assert line.heightForWidth(width) >= need
    assert line.heightForWidth(width) > line.heightForWidth(4 * width)
    line.resize(width, line.heightForWidth(width))
    line.grab()


def test_links_and_buttons_bring_their_targets(qtbot: QtBot) -> None:
    acted: list[Any] = []
    flag = FlagFacts("caution", "Comeback proposed", "x", action="Why", target="why",
                     buttons=(("Take in as comeback", "comeback"), ("Another fault", "other")))  # fmt: skip
    line = FlagLine(flag, stacked=True)
    line.acted.connect(acted.append)
    qtbot.addWidget(line)
    line.resize(420, line.heightForWidth(420))
    line.show()
    for button in [line._link, *line._buttons]:
        assert button is not None
        button.click()
        assert line.rect().contains(button.geometry())
    assert acted == ["why", "comeback", "other"]
    line.refit()


def test_more_than_three_fold_in_the_margin_and_tell_the_gravest_of_the_rest(qtbot: QtBot) -> None:
    bar = flag_bar([NOTE, CAUTION, STOP, NOTE, NOTE], stacked=True)
    qtbot.addWidget(bar)
    bar.show()
    assert [line.isVisible() for line in bar.lines()] == [True, True, True, False, False]
    assert bar._more is not None
    assert bar._more.accessibleName().startswith("2 more")
    bar._more.click()
    assert all(line.isVisible() for line in bar.lines())
    bar._more.click()
    assert not bar.lines()[4].isVisible()


def test_a_narrow_page_folds_all_of_them(qtbot: QtBot) -> None:
    bar = FlagBar(folds=True)
    qtbot.addWidget(bar)
    bar.set_flags([NOTE, STOP])
    bar.show()
    assert not any(line.isVisible() for line in bar.lines())
    assert bar._more is not None
    assert bar._more.accessibleName().startswith("2 flags")


def test_no_flag_no_bar(qtbot: QtBot) -> None:
    acted: list[Any] = []
    bar = flag_bar([CAUTION], acted.append)
    qtbot.addWidget(bar)
    bar.show()
    bar.lines()[0]._link.click()
    assert acted == [7]
    bar.set_flags([])
    assert not bar.isVisible()
    assert bar.lines() == ()
