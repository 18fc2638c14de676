"""Staff: who works here, who carries which mark, and that an owner always stays."""

from __future__ import annotations

from datetime import date

import pytest

from app.trade.bench.stages import Mark
from app.trade.refusal import FieldRefusal, Refusal, StaleRow
from app.work.people.staff import (
    add_staff,
    end_mark,
    give_mark,
    leave_staff,
    rename_staff,
    return_staff,
    staff_card,
    staff_list,
    who_may,
)


def test_everybody_is_listed_by_name_with_the_marks_that_count_today(shop):
    people = {card.name: card for card in staff_list(shop.book)}
    assert list(people) == ["Ine Varloes", "Mirr Quistan", "Sanna Wickerel", "Tobbe Ruskamp"]
    assert people["Ine Varloes"].marks == {Mark.OWNER}
    assert people["Tobbe Ruskamp"].marks == frozenset()
    assert all(card.has_pin for card in people.values())
    assert [card.name for card in who_may(shop.book, Mark.COMPETENT)] == ["Sanna Wickerel"]


def test_a_mark_past_its_end_is_told_and_does_not_count(shop):
    shop.clock.advance(days=365 * 3)
    sanna = staff_card(shop.book, shop.sanna)
    assert sanna.marks == frozenset()
    assert [proof.counts for proof in sanna.proofs] == [False]
    assert who_may(shop.book, Mark.COMPETENT) == ()


@pytest.mark.parametrize(
    ("name", "word"), [("  ", "Write the name"), ("ine VARLOES", "already"), ("x" * 81, "At most")]
)
def test_a_name_is_needed_once(shop, name, word):
    with pytest.raises(FieldRefusal, match=word):
        add_staff(shop.book, shop.ine, name)


def test_a_name_is_written_anew_but_not_over_somebody_elses(shop):
    rename_staff(shop.book, shop.ine, shop.mirr, staff_card(shop.book, shop.mirr).version, " Mirr  Quist ")
    card = staff_card(shop.book, shop.mirr)
    assert card.name == "Mirr Quist"
    with pytest.raises(FieldRefusal):
        rename_staff(shop.book, shop.ine, shop.mirr, card.version, "Ine Varloes")
    with pytest.raises(StaleRow):
        rename_staff(shop.book, shop.ine, shop.mirr, card.version - 1, "Mirr")


def test_who_left_is_not_listed_but_kept_and_can_come_back(shop):
    leave_staff(shop.book, shop.ine, shop.tobbe, staff_card(shop.book, shop.tobbe).version)
    assert "Tobbe Ruskamp" not in [card.name for card in staff_list(shop.book)]
    assert "Tobbe Ruskamp" in [card.name for card in staff_list(shop.book, former=True)]
    return_staff(shop.book, shop.ine, shop.tobbe, staff_card(shop.book, shop.tobbe).version)
    assert staff_card(shop.book, shop.tobbe).active


def test_the_last_owner_neither_leaves_nor_loses_the_mark(shop):
    ine = staff_card(shop.book, shop.ine)
    with pytest.raises(Refusal, match="last owner cannot leave"):
        leave_staff(shop.book, shop.ine, shop.ine, ine.version)
    with pytest.raises(Refusal, match="cannot end"):
        end_mark(shop.book, shop.ine, ine.proofs[0].id, date(2026, 3, 11))
    give_mark(shop.book, shop.ine, shop.mirr, Mark.OWNER, proof="took the shop over", dated=date(2026, 3, 1))
    end_mark(shop.book, shop.ine, ine.proofs[0].id, date(2026, 3, 11))
    assert [card.name for card in who_may(shop.book, Mark.OWNER)] == ["Mirr Quistan"]


def test_only_the_owner_gives_and_ends_marks(shop):
    with pytest.raises(Refusal, match="Only the owner"):
        give_mark(shop.book, shop.tobbe, shop.tobbe, Mark.OWNER, proof="said so", dated=date(2026, 3, 1))
    with pytest.raises(Refusal, match="Only the owner"):
        end_mark(shop.book, shop.sanna, staff_card(shop.book, shop.sanna).proofs[0].id, date(2026, 3, 1))


def test_a_mark_needs_its_proof_and_days_that_can_be(shop):
    with pytest.raises(FieldRefusal) as refusal:
        give_mark(
            shop.book,
            shop.ine,
            shop.tobbe,
            Mark.COMPETENT,
            proof=" ",
            proof_from="x" * 201,
            dated=date(2027, 1, 1),
            ends=date(2026, 1, 1),
        )
    assert set(refusal.value.fields) == {"proof", "proof_from", "dated", "ends"}


def test_a_mark_does_not_end_before_it_began(shop):
    mark = staff_card(shop.book, shop.sanna).proofs[0]
    with pytest.raises(FieldRefusal, match="is before"):
        end_mark(shop.book, shop.ine, mark.id, date(2024, 1, 1))
