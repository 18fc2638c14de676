"""Words in a few lines."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QApplication

from app.screens.kit import measure
from app.screens.kit.plots.wrapped import fits, wrapped


@pytest.mark.usefixtures("qapp")
def test_words_are_broken_between_words_and_cut_only_at_the_end() -> None:
    font = measure.body()
    wide = measure.width("spindle bearing")
    assert wrapped("spindle bearing oiled", font, wide, 3) == ["spindle bearing", "oiled"]
    assert fits("spindle bearing oiled", font, wide, 2)
    cut = wrapped("spindle bearing oiled and much more besides", font, wide, 2)
    assert cut[0] == "spindle bearing"
    assert cut[1].endswith("…")
    assert not fits("spindle bearing oiled", font, wide, 1)
    assert wrapped("", font, wide, 2) == []


def test_a_word_longer_than_the_line_is_cut(qapp: QApplication) -> None:
    (line,) = wrapped("x" * 300, measure.body(), 80, 1)
    assert measure.width(line) <= 80
