"""Answers about the whole shop are kept between transactions, and never after somebody changed them."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest
from sqlalchemy import event

from app.book.door import Book
from app.book.kept import kept
from app.book.office.shop_settings import settings_of
from app.book.opening import open_book
from app.book.tables import SettingKept, Staff
from app.trade.sentence import Sentence
from app.trade.settings.shop import SHOP_NAME

DEED = Sentence("did something")


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Book]:
    book = open_book(
        tmp_path / "book.sqlite", clock=lambda: datetime(2026, 3, 12, 9, 30, tzinfo=UTC), make=True
    )
    yield book
    book.close()


def asked(book: Book) -> list[str]:
    """The statements that the next questions send."""
    sent: list[str] = []
    event.listen(
        book.engine, "before_cursor_execute", lambda *said: sent.append(said[2]), named=False, retval=False
    )
    return sent


def name_shop(book: Book, name: str) -> None:
    with book.change(None, DEED) as change:
        change.add(SettingKept(key=SHOP_NAME.key, value=name))


def test_a_second_page_does_not_read_the_settings_again(book: Book) -> None:
    name_shop(book, "Lanternfield")
    sent = asked(book)
    for _ in range(3):
        with book.ask() as session:
            assert settings_of(session)[SHOP_NAME] == "Lanternfield"
    assert sum("FROM settings" in statement for statement in sent) == 1


def test_an_action_that_leaves_settings_alone_leaves_what_is_kept(book: Book) -> None:
    name_shop(book, "Lanternfield")
    with book.change(None, DEED) as change:
        settings_of(change.session)
        change.add(Staff(name="Ine"))  # touches names, so nothing is carried on
    with book.change(None, DEED) as change:
        settings_of(change.session)
    sent = asked(book)
    with book.change(None, DEED) as change:
        assert settings_of(change.session)[SHOP_NAME] == "Lanternfield"
    assert not any("FROM settings" in statement for statement in sent)


def test_an_action_sees_what_it_has_just_changed_itself(book: Book) -> None:
    name_shop(book, "Lanternfield")
    with book.change(None, DEED) as change:
        assert settings_of(change.session)[SHOP_NAME] == "Lanternfield"
        row = change.get(SettingKept, 1)
        row.value = "Mossgate"
        assert settings_of(change.session)[SHOP_NAME] == "Mossgate"
    with book.ask() as session:
        assert settings_of(session)[SHOP_NAME] == "Mossgate"


def test_an_action_that_is_undone_leaves_the_former_answer(book: Book) -> None:
    name_shop(book, "Lanternfield")

    def fails() -> None:
        with book.change(None, DEED) as change:
            change.get(SettingKept, 1).value = "Mossgate"
            assert settings_of(change.session)[SHOP_NAME] == "Mossgate"
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        fails()
    with book.ask() as session:
        assert settings_of(session)[SHOP_NAME] == "Lanternfield"


def test_what_another_window_changed_is_seen(book: Book) -> None:
    name_shop(book, "Lanternfield")
    other = Book(book.engine, book.path, book.clock)  # as a second computer would hold it
    with other.ask() as session:
        assert settings_of(session)[SHOP_NAME] == "Lanternfield"
    with book.change(None, DEED) as change:
        change.get(SettingKept, 1).value = "Mossgate"
    with other.ask() as session:
        assert settings_of(session)[SHOP_NAME] == "Mossgate"


def test_an_old_question_does_not_push_its_answers_forward(book: Book) -> None:
    name_shop(book, "Lanternfield")
    with book.ask() as early:
        assert settings_of(early)[SHOP_NAME] == "Lanternfield"
    with book.change(None, DEED) as change:
        change.get(SettingKept, 1).value = "Mossgate"
    with book.ask() as late:
        assert settings_of(late)[SHOP_NAME] == "Mossgate"


def test_a_session_that_belongs_to_no_book_reads_for_itself(book: Book) -> None:
    from sqlalchemy.orm import Session

    with Session(book.engine) as session:
        assert kept(session, "settings", lambda: 7) == 7
