"""One book after another: what needs the book closed is done between two windows."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import QCoreApplication, QEvent
from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.screens.between_books import BetweenBooks
from app.screens.desk import Desk, Errand
from app.screens.page import Page
from app.screens.program import Program
from app.screens.shop_window import ShopWindow
from app.trade.refusal import BookRefused, Refusal
from app.trade.sentence import Sentence
from app.work.people.staff import add_staff, staff_list
from app.work.shop_book import open_shop
from app.work.upkeep.copies import back_up_now, copies_of
from app.work.upkeep.restore import restore_copy

SEEN: list[Any] = []


class Told(Page):
    """A page that is told what came of an errand."""

    def __init__(self, desk: Desk, came: Any) -> None:
        super().__init__(desk)
        SEEN.append(came.error or came.value)


@pytest.fixture
def program(qapp: QApplication, shop: Any, tmp_path: Path) -> Iterator[Program]:
    SEEN.clear()
    made = Program(
        qapp,
        tmp_path / "own",
        clock=shop.clock,
        watch=lambda window: window.window.register("told", "", Told),
    )
    made.show(shop.book)
    yield made
    if made.shop is not None:
        made.shop.window.closing.clear()
        made.shop.window.close()
    made.close()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
    qapp.setQuitOnLastWindowClosed(True)


def now(program: Program) -> ShopWindow:
    assert program.shop is not None
    return program.shop


def test_an_errand_finds_the_book_closed_and_the_window_opens_again_with_its_outcome(
    qtbot: QtBot, program: Program, shop: Any
) -> None:
    before = now(program)
    held: list[bool] = []

    def work() -> str:
        held.append(program.shop is not None)
        open_shop(shop.path, clock=shop.clock).close()  # would be refused while a window holds it
        return "done"

    before.desk.leave_for(Errand(work, shop.path, "Something is being done.", "told"))
    qtbot.waitUntil(lambda: SEEN == ["done"])
    assert held == [False]
    assert now(program) is not before
    assert now(program).window.isVisible()
    assert program.between is None
    assert QApplication.quitOnLastWindowClosed()


def test_a_copy_is_restored_from_the_window(qtbot: QtBot, program: Program, shop: Any) -> None:
    copy = back_up_now(shop.book)
    add_staff(shop.book, shop.ine, "Hanne Oxlaith")
    now(program).desk.leave_for(
        Errand(lambda: restore_copy(shop.path, copy.path, clock=shop.clock), shop.path, "Restoring.", "told")
    )
    qtbot.waitUntil(lambda: len(SEEN) == 1, timeout=20_000)
    names = [card.name for card in staff_list(now(program).book)]
    assert "Hanne Oxlaith" not in names
    assert SEEN[0].aside is not None
    assert len(copies_of(shop.path)) >= 2


def test_an_errand_that_was_refused_is_told_in_the_window_that_opens_again(
    qtbot: QtBot, program: Program, shop: Any
) -> None:
    refusal = Refusal(Sentence("The copy is not sound."))

    def work() -> None:
        raise refusal

    now(program).desk.leave_for(Errand(work, shop.path, "Restoring.", "told"))
    qtbot.waitUntil(lambda: [refusal] == SEEN)


def test_a_window_that_will_not_be_left_stays(qtbot: QtBot, program: Program, shop: Any) -> None:
    window = now(program)
    window.window.closing.append(lambda: False)
    program.run(Errand(lambda: None, shop.path, ""))
    assert now(program) is window
    assert window.window.isVisible()
    assert QApplication.quitOnLastWindowClosed()


def test_without_a_window_there_is_nothing_to_leave(qapp: QApplication, tmp_path: Path) -> None:
    program = Program(qapp, tmp_path, clock=lambda: None)  # type: ignore[arg-type, return-value]
    program.run(Errand(lambda: None, tmp_path, ""))
    assert program.between is None
    program.close()


def test_a_book_that_is_refused_is_told_and_can_be_tried_again_or_another_chosen(
    qtbot: QtBot, program: Program, shop: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    missing = tmp_path / "missing.sqlite"
    now(program).desk.leave_for(Errand(lambda: None, missing, "It is being opened.", "told"))
    qtbot.waitUntil(lambda: program.between is not None and "There is no book" in program.between.words)
    between = program.between
    assert between is not None
    between.grab()
    between.try_again.click()
    assert between.words == "It is being opened."
    qtbot.waitUntil(lambda: "There is no book" in between.words)
    chosen = iter(["", str(shop.path)])
    monkeypatch.setattr(
        "app.screens.between_books.QFileDialog.getOpenFileName", lambda *_: (next(chosen), "")
    )
    between.choose.click()
    assert "There is no book" in between.words
    between.choose.click()
    qtbot.waitUntil(lambda: program.shop is not None)
    assert now(program).book.path == shop.path


def test_the_program_ends_from_there(
    qtbot: QtBot, program: Program, shop: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    ended: list[bool] = []
    monkeypatch.setattr(program._app, "quit", lambda: ended.append(True))
    now(program).desk.leave_for(Errand(lambda: None, tmp_path / "missing.sqlite", "Opening."))
    qtbot.waitUntil(lambda: program.between is not None and "There is no book" in program.between.words)
    assert program.between is not None
    program.between.leave.click()
    assert ended == [True]


def test_what_is_being_done_is_not_cut_off_by_the_windows_own_button(qtbot: QtBot) -> None:
    between = BetweenBooks(lambda errand: None, lambda path, errand: None, lambda: None)
    qtbot.addWidget(between)
    between.wait("Restoring.")
    between.try_again.done.emit()
    between.choose.done.emit()

    class FromOutside(QCloseEvent):
        def spontaneous(self) -> bool:
            return True

    event = FromOutside()
    between.closeEvent(event)
    assert not event.isAccepted()
    between.refuse(BookRefused(Sentence("No book.")), Errand(lambda: None, Path("x"), ""))
    assert between.words == "No book."
