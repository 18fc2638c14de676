"""A modification as a circuit."""

from __future__ import annotations

import itertools

from pytestqt.qtbot import QtBot

from app.screens.kit.circuit import CircuitDrawing, CircuitFacts


def test_every_way_looks_different_and_is_heard(qtbot: QtBot) -> None:
    pictures, names = [], []
    for way in ("replaced", "parallel", "series", "other"):
        drawing = CircuitDrawing(CircuitFacts(way, "R314", "6.8 Ω", "5.6 Ω"))
        qtbot.addWidget(drawing)
        drawing.resize(drawing.sizeHint())
        pictures.append(drawing.grab().toImage())
        names.append(drawing.accessibleName())
    for a, b in itertools.combinations(pictures, 2):
        assert a != b
    assert names == ["R314: replaced, 6.8 Ω by 5.6 Ω", "R314: 5.6 Ω beside 6.8 Ω", "R314: 5.6 Ω in line with 6.8 Ω",
                     "R314: 5.6 Ω"]  # fmt: skip


def test_it_follows_what_is_typed(qtbot: QtBot) -> None:
    drawing = CircuitDrawing(CircuitFacts("replaced", "R314", "6.8 Ω", ""))
    qtbot.addWidget(drawing)
    drawing.set_facts(CircuitFacts("replaced", "R314", "6.8 Ω", "5.6 Ω", "R314 replaced, 6.8 by 5.6 Ω"))
    assert drawing.accessibleName() == "R314 replaced, 6.8 by 5.6 Ω"
    drawing.refit()
