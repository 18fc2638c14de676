"""About Spindlebook: which program, which book, and what can be copied for those who look after it."""

from __future__ import annotations

from typing import Any

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.screens.about_page import AboutPage
from app.screens.desk import Desk
from app.screens.kit.label import Label
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence


@pytest.fixture
def page(qtbot: QtBot, desk: Desk, shop: Any) -> AboutPage:
    desk.book = shop.book
    made = AboutPage(desk)
    qtbot.addWidget(made)
    made.reload()
    qtbot.waitUntil(lambda: desk.doors.waiting == 0)
    return made


def words_on(page: AboutPage) -> str:
    return "\n".join(label.text() for label in page.findChildren(Label))


def test_it_says_where_the_book_lies_and_what_keeps_it(page: AboutPage, shop: Any) -> None:
    text = words_on(page)
    assert f"{shop.path}, " in text
    assert "journal mode" in text
    assert str(shop.path.with_name("book.copies")) in text
    assert "does not make work safe" in text
    assert "Permission is hereby granted, free of charge" in text
    page.resize(1100, 700)
    page.grab()


def test_the_parts_are_named_once_however_often_it_loads(qtbot: QtBot, page: AboutPage, desk: Desk) -> None:
    count = page.parts.rows_model().rowCount()
    assert count > 10
    page.reload()
    qtbot.waitUntil(lambda: desk.doors.waiting == 0)
    assert page.parts.rows_model().rowCount() == count


def test_the_details_go_to_the_clipboard(page: AboutPage, shop: Any) -> None:
    page.copy.click()
    copied = QApplication.clipboard().text()
    assert copied.startswith("Spindlebook 0.1.0, Python 3.")
    assert f"book {shop.path}, " in copied
    assert "\nSQLite 3." in copied
    assert page.head._below.text() == "The details are on the clipboard."


@pytest.mark.logs_errors("the book does not answer")
def test_a_book_that_does_not_answer_is_told_and_the_rest_stands(
    qtbot: QtBot, desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    def gone(book: Any) -> None:
        raise Refusal(Sentence("The drive is gone."))

    monkeypatch.setattr("app.screens.about_page.about_book", gone)
    page = AboutPage(desk)
    qtbot.addWidget(page)
    page.reload()
    qtbot.waitUntil(lambda: bool(page.trouble.words))
    assert "could not be asked" in page.trouble.words
    assert page.details().startswith("Spindlebook")
    page.arrive()
    assert set(page.commands()) == {"leave"}
