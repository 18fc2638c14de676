"""PINs: whose signature counts, and what guessing leads to."""

from __future__ import annotations

from datetime import date

import pytest

from app.book.tables import Staff
from app.trade.bench.stages import Mark
from app.trade.refusal import FieldRefusal, Refusal
from app.work.people.pins import check_pin, hash_of, marks_of, set_pin
from app.work.people.staff import add_staff, end_mark, leave_staff, staff_card


def test_the_right_pin_signs(shop):
    check_pin(shop.book, shop.mirr, shop.pin("mirr"))
    check_pin(shop.book, shop.ine, shop.pin("ine"), Mark.OWNER)
    check_pin(shop.book, shop.sanna, shop.pin("sanna"), Mark.COMPETENT)


def test_the_hash_is_argon2id_and_salted():
    assert hash_of("4709").startswith("$argon2id$")
    assert hash_of("4709") != hash_of("4709")


def test_a_wrong_pin_says_whose_it_is_not_and_how_many_tries_are_left(shop):
    with pytest.raises(Refusal) as refusal:
        check_pin(shop.book, shop.mirr, "0000")
    assert refusal.value.sentence.values["name"] == "Mirr Quistan"
    assert refusal.value.next_step is not None
    assert refusal.value.next_step.values["left"] == 4


def test_a_mark_is_asked_before_the_pin_is_looked_at(shop):
    with pytest.raises(Refusal, match="cannot sign"):
        check_pin(shop.book, shop.tobbe, "0000", Mark.COMPETENT)
    with shop.book.ask() as session:
        assert session.get_one(Staff, shop.tobbe).pin_failures == 0


def test_a_mark_past_its_end_signs_nothing(shop):
    shop.clock.advance(days=365 * 3)
    with pytest.raises(Refusal, match="cannot sign"):
        check_pin(shop.book, shop.sanna, shop.pin("sanna"), Mark.COMPETENT)


def test_guessing_is_slowed_down_and_the_count_lives_in_the_book(shop):
    for _ in range(5):
        with pytest.raises(Refusal, match="not the PIN"):
            check_pin(shop.book, shop.mirr, "0000")
    with pytest.raises(Refusal, match="in a row"):
        check_pin(shop.book, shop.mirr, shop.pin("mirr"))
    shop.clock.advance(seconds=31)
    with pytest.raises(Refusal, match="not the PIN") as refusal:
        check_pin(shop.book, shop.mirr, "0000")
    assert refusal.value.next_step is None
    shop.clock.advance(minutes=16)
    check_pin(shop.book, shop.mirr, shop.pin("mirr"))
    with shop.book.ask() as session:
        row = session.get_one(Staff, shop.mirr)
        assert (row.pin_failures, row.pin_failed_at) == (0, None)


def test_somebody_who_left_signs_nothing(shop):
    leave_staff(shop.book, shop.ine, shop.mirr, staff_card(shop.book, shop.mirr).version)
    with pytest.raises(Refusal, match="not work here"):
        check_pin(shop.book, shop.mirr, shop.pin("mirr"))


def test_without_a_pin_nobody_signs(shop):
    new = add_staff(shop.book, shop.ine, "Odile Varenne").value
    with pytest.raises(Refusal, match="has no PIN yet"):
        check_pin(shop.book, new, "1234")
    set_pin(shop.book, new, new, "9136")
    check_pin(shop.book, new, "9136")


def test_ones_own_pin_is_changed_by_the_present_one(shop):
    with pytest.raises(FieldRefusal) as refusal:
        set_pin(shop.book, shop.mirr, shop.mirr, "9136", present="0000")
    assert set(refusal.value.fields) == {"present"}
    set_pin(shop.book, shop.mirr, shop.mirr, "9136", present=shop.pin("mirr"))
    check_pin(shop.book, shop.mirr, "9136")


def test_the_owner_sets_a_forgotten_pin_with_her_own(shop):
    set_pin(shop.book, shop.ine, shop.mirr, "9136", present=shop.pin("ine"))
    check_pin(shop.book, shop.mirr, "9136")


def test_nobody_else_sets_a_pin(shop):
    with pytest.raises(Refusal, match="by its person or by the owner"):
        set_pin(shop.book, shop.tobbe, shop.mirr, "9136", present=shop.pin("tobbe"))


@pytest.mark.parametrize("pin", ["123", "1111", "4567", "  7319"])
def test_an_easy_pin_is_refused(shop, pin):
    with pytest.raises(FieldRefusal):
        set_pin(shop.book, shop.mirr, shop.mirr, pin, present=shop.pin("mirr"))


def test_all_marks_ever_given_are_told_to_the_rules(shop):
    (held,) = marks_of(shop.book, shop.sanna)
    assert (held.mark, held.ends) == (Mark.COMPETENT, date(2028, 3, 3))
    end_mark(shop.book, shop.ine, staff_card(shop.book, shop.sanna).proofs[0].id, date(2026, 3, 11))
    with pytest.raises(Refusal, match="cannot sign"):
        check_pin(shop.book, shop.sanna, shop.pin("sanna"), Mark.COMPETENT)


def test_a_pin_that_was_right_once_does_not_make_another_right(shop):
    check_pin(shop.book, shop.mirr, shop.pin("mirr"))
    check_pin(shop.book, shop.mirr, shop.pin("mirr"))
    with pytest.raises(Refusal, match="not the PIN"):
        check_pin(shop.book, shop.mirr, shop.pin("tobbe"))
    with pytest.raises(Refusal, match="not the PIN"):
        check_pin(shop.book, shop.tobbe, shop.pin("mirr"))


def test_a_new_pin_makes_the_old_one_wrong_at_once(shop):
    check_pin(shop.book, shop.mirr, shop.pin("mirr"))
    set_pin(shop.book, shop.mirr, shop.mirr, "7731", present=shop.pin("mirr"))
    with pytest.raises(Refusal, match="not the PIN"):
        check_pin(shop.book, shop.mirr, shop.pin("mirr"))
    check_pin(shop.book, shop.mirr, "7731")
