"""Opening the shop's book: what is made, what is only looked at, and what is refused."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

import pytest

from app.trade.refusal import BookRefused
from app.work.people.staff import add_staff, staff_list
from app.work.shop_book import close_book, look_at_file, open_shop, peek_shop


def test_a_new_book_is_made_in_a_folder_that_is_not_there_yet(tmp_path: Path, clock: Any) -> None:
    path = tmp_path / "shop" / "books" / "book.sqlite"
    close_book(open_shop(path, clock=clock, make=True))
    look_at_file(path)


def test_looking_at_a_file_that_is_no_book_leaves_it_as_it_was(tmp_path: Path) -> None:
    letter = tmp_path / "letter.txt"
    letter.write_text("Dear customer,", encoding="utf-8")
    with pytest.raises(BookRefused):
        look_at_file(letter)
    assert [(path.name, path.read_bytes()) for path in tmp_path.iterdir()] == [
        ("letter.txt", b"Dear customer,")
    ]


def test_a_book_that_a_window_holds_can_be_asked_beside_it(shop: Any) -> None:
    beside = peek_shop(shop.path, clock=shop.clock)
    add_staff(shop.book, shop.ine, "Nilo Trevane")
    assert "Nilo Trevane" in [person.name for person in staff_list(beside)]
    close_book(beside)


def test_a_closed_book_is_one_file_that_can_be_carried_away(shop: Any, tmp_path: Path) -> None:
    add_staff(shop.book, shop.ine, "Nilo Trevane")
    close_book(shop.book)
    carried = tmp_path / "stick" / "book.sqlite"
    carried.parent.mkdir()
    shutil.copyfile(shop.path, carried)
    book = open_shop(carried, clock=shop.clock)
    assert "Nilo Trevane" in [person.name for person in staff_list(book)]
    close_book(book)
