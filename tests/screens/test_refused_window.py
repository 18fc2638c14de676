"""The small window when a book was refused: what it says, the copies it offers, and what comes of them."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtGui import QGuiApplication, QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.book.lock import WindowLock
from app.screens import program as program_file
from app.screens.kit import measure
from app.screens.office.upkeep.upkeep_page import UpkeepPage
from app.screens.program import Program
from app.screens.refused_window import EDGE, RefusedWindow
from app.trade.refusal import BookRefused
from app.work.people.staff import add_staff, staff_list
from app.work.shop_book import open_shop
from app.work.upkeep.copies import Copy, back_up_now, copies_of


class Refused:
    """A program whose book was refused at the start, and short ways to press and look."""

    def __init__(self, app: QApplication, own: Path, clock: Any) -> None:
        self.program = Program(app, own, clock=clock)
        self.clock = clock

    def start(self, path: Path, *, make: bool = False) -> RefusedWindow:
        """As the program does: the book is asked for, and its refusal shown."""
        with pytest.raises(BookRefused) as refused:
            open_shop(path, clock=self.clock, make=make)
        self.program.show_refused(refused.value, path, make=make)
        self.settle()
        return self.window

    @property
    def window(self) -> RefusedWindow:
        assert self.program.between is not None
        return self.program.between

    def settle(self) -> None:
        """Until every piece of work has come back and was shown."""
        for _ in range(5000):
            QApplication.processEvents()
            doors = [self.program._doors, self.program.shop.doors if self.program.shop else None]
            if not any(door is not None and door.waiting for door in doors):
                QApplication.processEvents()
                return
            QTest.qWait(2)
        raise AssertionError("work is still on its way")

    def press(self, keys: str) -> None:
        """Press a key where the focus is."""
        found = QApplication.focusWidget()
        assert found is not None
        QTest.keySequence(found, QKeySequence(keys))
        self.settle()


@pytest.fixture
def refused(qapp: QApplication, tmp_path: Path, clock: Any) -> Iterator[Refused]:
    made = Refused(qapp, tmp_path / "own", clock)
    yield made
    if made.program.shop is not None:
        made.program.shop.window.closing.clear()
        made.program.shop.window.close()
    made.program.close()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
    qapp.setQuitOnLastWindowClosed(True)
    measure.set_text_size(qapp, 100)


@pytest.fixture
def copied(shop: Any) -> list[Copy]:
    """The shop's book with two copies, closed; Hanne Oxlaith joined after the first one."""
    back_up_now(shop.book)
    shop.clock.advance(days=1)
    add_staff(shop.book, shop.ine, "Hanne Oxlaith")
    back_up_now(shop.book)
    shop.book.close()
    return list(copies_of(shop.path))


@pytest.fixture
def damaged(shop: Any, copied: list[Copy]) -> bytes:
    """Its file overwritten with something else from the first page on; gives the bytes."""
    shop.path.write_bytes(b"no database any more" * 5000)
    return bytes(shop.path.read_bytes())


def told(refused: Refused) -> str:
    return refused.window.words


def mains(window: RefusedWindow) -> list[str]:
    buttons = (window.restore, window.try_again, window.choose, window.leave, window.strip.restore)
    return [button.words() for button in buttons if button.kind == "main" and button.isVisible()]


# --- what it says ------------------------------------------------------------------------------------------


def test_it_says_why_and_what_to_do_and_lists_the_copies_newest_marked(
    refused: Refused, shop: Any, damaged: bytes, copied: list[Copy]
) -> None:
    window = refused.start(shop.path)
    assert f"{shop.path} is not a Spindlebook book." in told(refused)
    assert [Path(key) for key in window.copies] == [copy.path for copy in copied]
    assert window.table.marked_key() == str(copied[0].path)
    assert QApplication.focusWidget() is window.table
    assert mains(window) == ["Restore the marked copy…"]


def test_without_copies_there_is_nothing_to_restore(refused: Refused, tmp_path: Path) -> None:
    letters = tmp_path / "letters.sqlite"
    letters.write_text("Dear customer")
    window = refused.start(letters)
    assert not window.table.isVisible()
    assert mains(window) == ["Try again"]
    assert QApplication.focusWidget() is window.try_again
    assert letters.read_text() == "Dear customer"


def test_a_book_that_is_open_elsewhere_is_in_good_order_and_only_waited_for(
    refused: Refused, shop: Any, qtbot: Any
) -> None:
    back_up_now(shop.book)
    window = refused.start(shop.path)
    assert "This book is open in another window." in told(refused)
    assert not window.table.isVisible()
    shop.book.close()
    refused.press("Return")
    qtbot.waitUntil(lambda: refused.program.shop is not None)
    assert refused.program.between is None


def test_a_copy_that_nothing_is_known_of_is_not_marked_before_one_that_was_looked_through(
    refused: Refused, shop: Any, damaged: bytes, copied: list[Copy]
) -> None:
    copied[0].path.with_name(f"{copied[0].path.name}.json").unlink()
    assert refused.start(shop.path).table.marked_key() == str(copied[1].path)
    copied[1].path.with_name(f"{copied[1].path.name}.json").unlink()
    assert refused.start(shop.path).table.marked_key() == str(copied[0].path)


def test_every_part_of_it_stays_on_the_screen_with_the_largest_text(
    qapp: QApplication, refused: Refused, shop: Any, damaged: bytes
) -> None:
    window = refused.start(shop.path)
    measure.set_text_size(qapp, 200)
    refused.settle()
    free = QGuiApplication.primaryScreen().availableSize()
    assert window.width() <= free.width() - EDGE
    assert window.height() <= free.height() - EDGE
    for button in (window.restore, window.try_again, window.choose, window.leave):
        assert window.rect().contains(button.mapTo(window, button.rect().topLeft()))
        assert button.mapTo(window, button.rect().bottomRight()).y() < window.height()


# --- a copy in its place -----------------------------------------------------------------------------------


def test_a_copy_is_looked_through_before_it_is_asked_and_escape_changes_nothing(
    refused: Refused, shop: Any, damaged: bytes
) -> None:
    window = refused.start(shop.path)
    refused.press("Return")
    assert window.strip.isVisible()
    assert window.strip.copy is not None
    assert mains(window) == ["Restore this copy"]
    assert QApplication.focusWidget() is window.strip.not_now
    refused.press("Esc")
    assert not window.strip.isVisible()
    assert QApplication.focusWidget() is window.table
    assert shop.path.read_bytes() == damaged


def test_the_chosen_copy_takes_the_books_place_and_the_window_opens_on_it(
    refused: Refused, shop: Any, damaged: bytes, copied: list[Copy], qtbot: Any
) -> None:
    refused.start(shop.path)
    refused.press("Down")  # the older of the two
    refused.press("Return")
    refused.press("Shift+Tab")
    refused.press("Return")
    qtbot.waitUntil(lambda: refused.program.shop is not None, timeout=20_000)
    refused.settle()
    opened = refused.program.shop
    assert opened is not None
    assert "Hanne Oxlaith" not in [card.name for card in staff_list(opened.book)]
    page: Any = opened.window.page
    assert isinstance(page, UpkeepPage)
    assert page.trouble.words == ""
    assert "is the book now" in page.copies.came.lines()[0].flag.sentence
    kept = [path for path in shop.path.parent.rglob("book.sqlite") if path != shop.path]
    assert [path.read_bytes() for path in kept] == [damaged]
    assert refused.program.between is None
    assert QApplication.quitOnLastWindowClosed()


def test_the_button_does_what_enter_in_the_list_does(
    refused: Refused, shop: Any, damaged: bytes, copied: list[Copy]
) -> None:
    window = refused.start(shop.path)
    window.restore.click()
    refused.settle()
    assert window.strip.copy is not None
    assert window.strip.copy.path == copied[0].path
    window.strip.not_now.click()
    window.table.rows_model().set_rows(())
    window.restore.click()
    refused.settle()
    assert not window.strip.isVisible()


def test_a_copy_that_is_not_sound_is_told_and_the_book_left_alone(
    refused: Refused, shop: Any, damaged: bytes, copied: list[Copy]
) -> None:
    spoilt = bytearray(copied[0].path.read_bytes())
    spoilt[-50] ^= 1
    copied[0].path.write_bytes(spoilt)
    window = refused.start(shop.path)
    refused.press("Return")
    assert "is not sound" in window.trouble.words
    assert not window.strip.isVisible()
    assert window.table.isVisible()
    assert shop.path.read_bytes() == damaged
    window.table.mark(str(copied[1].path))
    window.restore.click()
    refused.settle()
    assert window.trouble.words == ""
    assert window.strip.isVisible()


def test_looking_through_a_copy_can_be_stopped(refused: Refused, shop: Any, damaged: bytes) -> None:
    window = refused.start(shop.path)
    window.restore.setFocus()
    window.restore.click()
    window.progress._stop.click()
    refused.settle()
    assert not window.strip.isVisible()
    assert QApplication.focusWidget() is window.table


def test_a_restore_that_fails_says_so_and_offers_the_copies_again(
    refused: Refused, shop: Any, damaged: bytes, copied: list[Copy]
) -> None:
    window = refused.start(shop.path)
    refused.press("Return")
    copied[0].path.unlink()
    window.strip.restore.click()
    refused.settle()
    assert "cannot be read" in window.trouble.words
    assert "is not a Spindlebook book" in told(refused)
    assert list(window.copies) == [str(copied[1].path)]
    assert shop.path.read_bytes() == damaged


def test_a_book_that_is_gone_comes_back_from_its_copy(
    refused: Refused, shop: Any, copied: list[Copy], qtbot: Any
) -> None:
    shop.path.unlink()
    window = refused.start(shop.path, make=True)
    assert "copies of it are in" in told(refused)
    assert not shop.path.exists()  # no empty one was made instead
    refused.press("Return")
    window.strip.restore.click()
    qtbot.waitUntil(lambda: refused.program.shop is not None, timeout=20_000)
    assert refused.program.shop is not None
    assert "Hanne Oxlaith" in [card.name for card in staff_list(refused.program.shop.book)]


# --- another book, the same again, or the end --------------------------------------------------------------


def chosen(monkeypatch: pytest.MonkeyPatch, *paths: Path) -> None:
    answers = iter([str(path) for path in paths])
    monkeypatch.setattr(
        "app.screens.between_books.QFileDialog.getOpenFileName", lambda *_: (next(answers), "")
    )


def test_another_book_is_opened_and_one_that_is_refused_too_is_told_in_its_turn(
    refused: Refused, shop: Any, tmp_path: Path, qtbot: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    shop.book.close()
    letters = tmp_path / "letters.sqlite"
    letters.write_text("Dear customer")
    missing = tmp_path / "elsewhere" / "book.sqlite"
    window = refused.start(missing)
    chosen(monkeypatch, letters, shop.path)
    window.choose.click()
    assert told(refused) == f"{letters} is being opened."
    refused.settle()
    assert f"{letters} is not a Spindlebook book." in told(refused)
    assert not refused.program.had_book
    window.choose.click()
    qtbot.waitUntil(lambda: refused.program.shop is not None)
    assert refused.program.had_book
    assert refused.program.shop is not None
    assert refused.program.shop.book.path == shop.path


def test_the_shops_own_book_is_made_when_what_kept_it_from_being_made_is_mended(
    refused: Refused, tmp_path: Path, qtbot: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    own = tmp_path / "data" / "book.sqlite"
    with monkeypatch.context() as full:
        full.setattr("app.book.places.NEEDED", 1 << 60)
        window = refused.start(own, make=True)
        assert "nearly full" in told(refused)
    own.unlink(missing_ok=True)
    window.try_again.click()
    qtbot.waitUntil(lambda: refused.program.shop is not None)
    assert own.is_file()


@pytest.mark.logs_errors("a mistake of the program, made on purpose")
def test_a_mistake_of_ours_is_told_with_details_and_the_window_can_be_closed(
    refused: Refused, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    ended: list[bool] = []
    window = refused.start(tmp_path / "missing.sqlite")
    window._end = lambda: ended.append(True)

    def broken(*_: Any, **__: Any) -> Any:
        raise ValueError("broken")

    monkeypatch.setattr(program_file, "open_shop", broken)
    window.try_again.click()
    refused.settle()
    assert "could not be opened" in told(refused)
    assert "not your doing" in window.trouble.words
    assert window.try_again.isVisible()
    window.leave.click()
    assert ended == [True]
    assert not window.isVisible()


def test_nothing_is_said_twice(refused: Refused, shop: Any, damaged: bytes) -> None:
    window = refused.start(shop.path)
    refused.press("Return")
    elsewhere = WindowLock(shop.path)
    elsewhere.take()
    try:
        window.strip.restore.click()
        refused.settle()
        assert "open in another window" in told(refused)
        assert window.trouble.words == ""
        assert not window.table.isVisible()
    finally:
        elsewhere.release()


def test_it_is_closed_while_copies_are_looked_for(refused: Refused, shop: Any, damaged: bytes) -> None:
    ended: list[bool] = []
    with pytest.raises(BookRefused) as why:
        open_shop(shop.path)
    refused.program.show_refused(why.value, shop.path)
    window = refused.window
    window._end = lambda: ended.append(True)
    QTest.mouseClick(window.leave, Qt.MouseButton.LeftButton)
    refused.settle()
    assert ended == [True]
    assert window.copies == {}
