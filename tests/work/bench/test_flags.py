"""Answers to flags, and flags that depend on the date."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import Moment
from app.trade.refusal import FieldRefusal, Refusal
from app.work.bench.flags import answer_flag, refresh_dated_flags
from app.work.bench.modifications import ModificationEntry, record_modification
from app.work.office.shop_lists import InstrumentLine, limits, save_instrument, save_limit


def flag(bench: Any, rule: str) -> Any:
    return next(flag for flag in bench.sheet.flags if flag.rule == rule)


@pytest.fixture
def raised(bench: Any) -> Any:
    """8.2 ohm with 22 and 39 ohm across it, found: k 1.583 (bench.md section 12, job 7)."""
    for ohms in (22, 39):
        record_modification(
            bench.book,
            bench.tobbe,
            bench.job,
            ModificationEntry(
                kind=Kind.PARALLEL,
                circuit=Circuit.RADIAL_COIL,
                law=Law.CURRENT,
                where="R210",
                ours=False,
                maker_value=Decimal("8.2"),
                new_value=Decimal(ohms),
            ),
        )
    return bench


def test_more_than_half_above_and_stacked_pile_up(raised: Any) -> None:
    rules = raised.rules()
    assert {"coil_up_big", "stacked", "pile"} <= set(rules)
    assert rules.count("unknown_mod") == 2
    assert "1.583" in str(flag(raised, "coil_up_big").sentence.values)


def test_the_owner_acknowledges_with_pin_and_reason_and_the_caution_stays(raised: Any) -> None:
    one = flag(raised, "coil_up_big")
    answer_flag(raised.book, raised.shop.ine, raised.shop.pin("ine"), one.id, "the customer wants it so")
    assert flag(raised, "coil_up_big").acknowledged == "Ine Varloes"


def test_nobody_else_acknowledges_for_the_owner(raised: Any) -> None:
    one = flag(raised, "coil_up_big")
    with pytest.raises(Refusal):
        answer_flag(raised.book, raised.tobbe, raised.shop.pin("tobbe"), one.id, "seems fine")
    with pytest.raises(Refusal):
        answer_flag(raised.book, raised.shop.ine, "1111", one.id, "seems fine")
    with pytest.raises(FieldRefusal):
        answer_flag(raised.book, raised.shop.ine, raised.shop.pin("ine"), one.id, " ")
    assert flag(raised, "coil_up_big").acknowledged == ""


def test_another_number_needs_another_acknowledgement(raised: Any) -> None:
    one = flag(raised, "coil_up_big")
    answer_flag(raised.book, raised.shop.ine, raised.shop.pin("ine"), one.id, "the customer wants it so")
    record_modification(
        raised.book,
        raised.tobbe,
        raised.job,
        ModificationEntry(
            kind=Kind.PARALLEL,
            circuit=Circuit.RADIAL_COIL,
            law=Law.CURRENT,
            where="R210",
            ours=False,
            maker_value=Decimal("8.2"),
            new_value=Decimal(100),
        ),
    )
    assert flag(raised, "coil_up_big").acknowledged == ""


def test_a_pile_is_cleared_by_the_owners_reason_and_does_not_come_back(raised: Any) -> None:
    pile = flag(raised, "pile")
    answer_flag(raised.book, raised.shop.ine, raised.shop.pin("ine"), pile.id, "all three looked at together")
    assert "pile" not in raised.rules()
    with pytest.raises(Refusal):
        answer_flag(raised.book, raised.shop.ine, raised.shop.pin("ine"), pile.id, "again")
    raised.climb(10)
    assert "pile" not in raised.rules()


def test_no_word_clears_what_the_facts_must_change(bench: Any) -> None:
    record_modification(
        bench.book,
        bench.tobbe,
        bench.job,
        ModificationEntry(
            kind=Kind.FUSE, circuit=Circuit.FUSE, where="F1", was="T 400 mA", now="foil", ours=False
        ),
    )
    with pytest.raises(Refusal) as refused:
        answer_flag(
            bench.book,
            bench.shop.ine,
            bench.shop.pin("ine"),
            flag(bench, "fuse").id,
            "it has run for years so",
        )
    assert refused.value.next_step is not None


def test_at_midnight_the_rules_that_speak_of_the_date_are_asked_anew(bench: Any) -> None:
    meter = save_instrument(
        bench.book, bench.tobbe, InstrumentLine(name="scope", due_on=date(2026, 3, 20))
    ).value
    bench.read("seek_time", "1.2", Moment.ARRIVAL, instrument_id=meter)
    assert "cal_overdue" not in bench.rules()
    bench.later(days=9)
    changes = refresh_dated_flags(bench.book)
    assert "flags" in changes.kinds
    assert bench.job in changes.jobs
    assert "cal_overdue" in bench.rules()
    assert not refresh_dated_flags(bench.book)


def test_a_later_job_without_such_a_reading_leaves_what_was_found(bench: Any) -> None:
    limit = next(line for line in limits(bench.book) if line.quantity == "laser_current")
    save_limit(bench.book, bench.tobbe, replace(limit, high=Decimal("1.1")))
    bench.read("laser_current", "56.0")  # 116.7 % of its label, beyond 110 % by more than its uncertainty
    assert {"laser_up", "laser_up_big"} & set(bench.rules())
    bench.read("laser_current", "56.0", Moment.FINAL)
    bench.make_safe()
    bench.close()
    bench.come_again(days=20)
    bench.climb(12)
    assert {"laser_up", "laser_up_big"} & set(bench.rules())
    bench.read("laser_current", "48.2")
    assert not {"laser_up", "laser_up_big"} & set(bench.rules())
