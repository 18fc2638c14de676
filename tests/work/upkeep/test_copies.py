"""How safe the book is: copies made, when, and what went wrong."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from app.trade.refusal import Refusal
from app.work.counter.taking_in import receive_unit
from app.work.shop_book import open_shop
from app.work.upkeep.copies import back_up_now, close_with_copy, copies_of, copy_now_if_due, copy_standing
from app.work.upkeep.places import default_book
from app.work.upkeep.restore import examine_copy, restore_copy
from tests.work.counter.test_taking_in import LARCH


def test_a_new_shop_is_behind_until_its_first_copy(shop: Any) -> None:
    standing = copy_standing(shop.book)
    assert standing.behind
    assert (standing.last_good_at, standing.failure) == (None, None)
    copy = back_up_now(shop.book)
    standing = copy_standing(shop.book)
    assert not standing.behind
    assert (standing.last_good_at, standing.last_good) == (shop.clock(), copy.path)
    receive_unit(shop.book, shop.mirr, LARCH)
    assert copy_standing(shop.book).behind


def test_a_copy_goes_where_it_was_asked_for(shop: Any, tmp_path: Path) -> None:
    copy = back_up_now(shop.book, tmp_path / "stick")
    assert copy.path.parent == tmp_path / "stick"
    assert copies_of(shop.path) == ()
    assert copies_of(shop.path, tmp_path / "stick") == (copy,)


def test_a_copy_that_failed_stays_shown(shop: Any, tmp_path: Path) -> None:
    with pytest.raises(Refusal) as told:
        back_up_now(shop.book, tmp_path / "gone" / "stick")
    standing = copy_standing(shop.book)
    assert (standing.failure, standing.failed_at) == (told.value.sentence, shop.clock())
    assert standing.next_step == told.value.next_step
    assert copy_now_if_due(shop.book).failure is None


def test_closing_makes_a_copy_when_one_is_due_and_always_closes(shop: Any) -> None:
    number = receive_unit(shop.book, shop.mirr, LARCH).value.number
    state = close_with_copy(shop.book)
    assert state.last_good_at == shop.clock()
    (copy,) = copies_of(shop.path)
    assert (copy.jobs, examine_copy(copy.path)) == (1, copy)
    again = open_shop(shop.path, clock=shop.clock)  # it was closed
    assert close_with_copy(again) == state
    assert len(copies_of(shop.path)) == 1
    assert number == 1001


def test_yesterday_can_be_had_back(shop: Any) -> None:
    receive_unit(shop.book, shop.mirr, LARCH)
    copy = back_up_now(shop.book)
    shop.clock.advance(days=1)
    receive_unit(shop.book, shop.mirr, replace(LARCH, serial="0420 159"))
    shop.book.close()
    done = restore_copy(shop.path, copy.path, clock=shop.clock)
    assert done.jobs == 1
    assert done.saved is not None
    assert done.saved.jobs == 2
    assert [c.jobs for c in copies_of(shop.path)] == [2, 1]
    again = open_shop(shop.path, clock=shop.clock)
    assert copy_standing(again).behind is False
    again.close()


def test_the_shops_own_book_lies_in_the_persons_data_folder() -> None:
    assert default_book().name == "book.sqlite"
    assert default_book().parent.name == "Spindlebook"
    assert not default_book().exists()
