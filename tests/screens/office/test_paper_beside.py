"""The paper beside a page: one is drawn at a time, and the last one asked for is shown."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from PySide6.QtCore import QObject
from pytestqt.qtbot import QtBot

from app.screens.office.paper_beside import PaperBeside
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence

PDF = b"%PDF-1.4 "


class Doors:
    """Keeps what was asked until the test answers."""

    def __init__(self) -> None:
        self.asked: list[tuple[Any, Any, Any]] = []
        self.cancelled = 0

    def look_up(
        self, _: QObject, work: Callable[[], Any], done: Callable[[Any], Any], failed: Callable[..., Any]
    ) -> Any:
        self.asked.append((work, done, failed))
        return self

    def cancel(self) -> None:
        self.cancelled += 1

    def answer(self) -> None:
        """Draw what was asked first and bring it."""
        work, done, failed = self.asked.pop(0)
        try:
            pdf = work()
        except Refusal as refusal:
            failed(refusal)
        else:
            done(pdf)


@pytest.fixture
def beside(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> tuple[PaperBeside, Doors]:
    desk: Any = type("Desk", (), {"doors": Doors()})()
    made = PaperBeside(desk, "The paper")
    qtbot.addWidget(made)
    monkeypatch.setattr(made.view, "set_pdf", lambda pdf, _: setattr(made.view, "pdf", pdf))
    return made, desk.doors


def test_those_asked_for_while_one_is_drawn_are_never_begun_but_the_last(
    beside: tuple[PaperBeside, Doors],
) -> None:
    paper, doors = beside
    for number in range(5):
        paper.ask(f"draft {number}", lambda number=number: PDF + bytes([number]))  # type: ignore[misc]
    assert len(doors.asked) == 1
    doors.answer()
    assert paper.pdf == b""  # what nobody wants to see any more is not shown
    assert len(doors.asked) == 1
    doors.answer()
    assert paper.pdf == PDF + bytes([4])
    assert doors.asked == []


def test_one_that_fails_gives_way_to_the_next_and_says_why_when_it_is_the_last(
    beside: tuple[PaperBeside, Doors],
) -> None:
    paper, doors = beside

    def broken() -> bytes:
        raise Refusal(Sentence("It is damaged."))

    paper.ask("first", broken)
    paper.ask("second", lambda: PDF)
    doors.answer()
    assert paper._why.isHidden()
    doors.answer()
    assert paper.pdf == PDF
    paper.ask("third", broken)
    doors.answer()
    assert "It is damaged." in paper._why.text()


def test_a_page_that_goes_wants_none(beside: tuple[PaperBeside, Doors]) -> None:
    paper, doors = beside
    paper.ask("first", lambda: PDF)
    paper.ask("second", lambda: PDF)
    paper.cancel()
    assert doors.cancelled == 1
    paper.ask("third", lambda: PDF)
    assert len(doors.asked) == 2  # the first was let go, the third is asked for at once
