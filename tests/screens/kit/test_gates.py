"""What is still to do: open boxes, ticked ones, links to do them."""

from __future__ import annotations

from typing import Any

from pytestqt.qtbot import QtBot

from app.screens.kit.buttons import Button
from app.screens.kit.gates import GateBox, GateFacts, GateRow


def test_open_gates_offer_a_link_and_done_ones_tell_when(qtbot: QtBot) -> None:
    row = GateRow(note="before it can be ready")
    qtbot.addWidget(row)
    acted: list[Any] = []
    row.acted.connect(acted.append)
    row.set_gates(
        [
            GateFacts("safety test", action="Record the safety test", target="safety_test"),
            GateFacts("final readings", True, "24 Nov 15:10", action="Take final readings"),
        ]
    )
    row.resize(900, 40)
    row.show()
    links = row.findChildren(Button)
    assert [link.words() for link in links] == ["Record the safety test"]
    links[0].click()
    assert acted == ["safety_test"]
    names = [box.accessibleName() for box in row.findChildren(GateBox)]
    assert names == ["safety test: still to do", "final readings: done 24 Nov 15:10"]
    row.grab()


def test_nothing_to_do_hides_the_row(qtbot: QtBot) -> None:
    row = GateRow()
    qtbot.addWidget(row)
    row.set_gates([GateFacts("safety test")], "before it can be handed back")
    row.show()
    assert row.isVisible()
    row.set_gates([])
    assert not row.isVisible()
