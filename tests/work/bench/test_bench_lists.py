"""What the job sheet offers while something is entered."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

from app.book.bench.knowledge_data import shipped_knowledge
from app.screens.bench.reading_steps import steps_for
from app.trade.bench.changes import Leaves
from app.trade.bench.kinds import Arrangement
from app.trade.bench.stages import Moment
from app.work.bench.bench_lists import bench_lists, rung_words
from app.work.bench.strike_out import strike_out
from app.work.bench.transports import take_out
from app.work.office.shop_lists import (
    InstrumentLine,
    LimitLine,
    limits,
    save_instrument,
    save_limit,
    save_transport_type,
    transport_types,
)


def use_sheet(bench: Any, *sheet: str) -> None:
    line = next(line for line in transport_types(bench.book) if line.id == bench.type)
    save_transport_type(bench.book, bench.tobbe, replace(line, sheet=sheet))


def steps(bench: Any) -> list[tuple[str, str]]:
    return [(step.quantity.id, step.detail) for step in bench_lists(bench.book, bench.job).sheet]


def test_the_sheet_keeps_the_order_of_its_type(bench: Any) -> None:
    use_sheet(bench, "seek_time", "laser_current", "hf_eye")
    assert steps(bench) == [("seek_time", ""), ("laser_current", ""), ("hf_eye", "")]


def test_a_reading_is_asked_for_at_its_stage(bench: Any) -> None:
    use_sheet(bench, "seek_time: at the end", "hf_eye", "rail_dc: on arrival")
    lists = bench_lists(bench.book, bench.job)

    def asked(moment: Moment) -> list[str]:
        return [step.quantity.id for step in steps_for(bench.sheet, lists, moment, None)]

    assert asked(Moment.ARRIVAL) == ["hf_eye", "rail_dc"]
    assert asked(Moment.DURING) == ["hf_eye"]
    assert asked(Moment.FINAL) == ["seek_time", "hf_eye"]


def test_a_rail_comes_once_for_each_that_has_a_limit(bench: Any) -> None:
    save_limit(
        bench.book,
        bench.tobbe,
        LimitLine(
            quantity="rail_dc",
            transport_type_id=bench.type,
            detail="-8 V",
            low=Decimal("-8.4"),
            high=Decimal("-7.6"),
            source="service document, p. 3",
        ),
    )
    use_sheet(bench, "rail_dc")
    assert steps(bench) == [("rail_dc", "+8 V"), ("rail_dc", "-8 V")]


def test_without_limits_the_rail_read_last_is_offered_and_before_that_none(bench: Any) -> None:
    for line in limits(bench.book, transport_type_id=bench.type):
        if line.quantity == "rail_dc":
            save_limit(bench.book, bench.tobbe, replace(line, retired=True))
    use_sheet(bench, "rail_dc")
    assert steps(bench) == [("rail_dc", "")]
    bench.read("rail_dc", "5.02", detail="+5 V")
    assert steps(bench) == [("rail_dc", "+5 V")]


def test_what_is_worked_out_or_gone_from_the_catalogue_is_no_step(bench: Any) -> None:
    use_sheet(bench, "laser_rel", "hf_eye")
    assert steps(bench) == [("hf_eye", "")]
    from app.book.tables import QuantityKept
    from app.trade.sentence import Sentence

    with bench.book.change(bench.tobbe, Sentence("retired a quantity")) as change:
        change.add(QuantityKept(code="hf_eye", content={}, retired=True))
    assert steps(bench) == []


def test_only_what_exists_on_the_arrangement_is_offered_and_no_safety_reading(bench: Any) -> None:
    offered = {quantity.id for quantity in bench_lists(bench.book, bench.job).quantities}
    assert "arm_start_current" in offered
    assert not offered & {"sled_current", "insulation", "laser_rel"}


def test_a_player_without_a_transport_has_no_sheet_and_may_be_of_either_kind(bench: Any) -> None:
    take_out(bench.book, bench.tobbe, bench.job, shelf="S3")
    lists = bench_lists(bench.book, bench.job)
    assert lists.sheet == ()
    assert {"arm_start_current", "sled_current"} <= {q.id for q in lists.quantities}
    assert lists.rungs[2] == "arm or sled home"


def test_the_ladder_speaks_of_what_is_inside() -> None:
    ladder = shipped_knowledge().ladder
    assert rung_words(ladder, Arrangement.SWING_ARM)[2] == "arm home"
    assert rung_words(ladder, Arrangement.SLED)[2] == "sled home"
    assert len(rung_words(ladder, None)) == 12


def test_instruments_past_their_date_are_marked_and_retired_ones_left_out(bench: Any) -> None:
    save_instrument(bench.book, bench.tobbe, InstrumentLine(name="old scope", due_on=date(2026, 1, 1)))
    save_instrument(bench.book, bench.tobbe, InstrumentLine(name="sold meter", retired=True))
    save_instrument(bench.book, bench.tobbe, InstrumentLine(name="ruler"))
    offered = [(i.name, i.overdue) for i in bench_lists(bench.book, bench.job).instruments]
    assert offered == [("bench meter", False), ("old scope", True), ("ruler", False)]


def test_discs_and_errors_seen_before_are_offered_newest_first(bench: Any) -> None:
    bench.climb(3, disc="reference disc R2", error_shown="E 04")
    bench.climb(3, disc="own disc")
    wrong = bench.climb(3, disc="reference disc R2")
    strike_out(bench.book, bench.tobbe, "start-up", wrong, "twice")
    lists = bench_lists(bench.book, bench.job)
    assert lists.discs == ("reference disc R2", "own disc")
    assert lists.errors == ("E 04",)


def test_the_changes_say_what_they_leave_behind(bench: Any) -> None:
    by_id = {change.id: change for change in bench_lists(bench.book, bench.job).changes}
    assert by_id["coil_current"].leaves is Leaves.MODIFICATION
    assert by_id["clean_lens"].leaves is Leaves.NOTHING


def test_the_shop_s_own_thresholds_are_told(bench: Any) -> None:
    assert bench_lists(bench.book, bench.job).thresholds.coil_up == Decimal("1.10")
