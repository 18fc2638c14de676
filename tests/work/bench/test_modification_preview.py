"""What a modification would do and raise, before it is recorded."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

from app.trade.bench.flag import Level
from app.trade.bench.modifications import Circuit, Kind, Law
from app.work.bench.bench_lists import bench_lists
from app.work.bench.modification_preview import effect_of_line, preview
from app.work.bench.modifications import ModificationEntry, record_modification, reverse_modification
from app.work.bench.strike_out import strike_out

# Other values than the demo's: 4.7 ohm across 3.3 ohm gives k 1.7021 (issue 2, common practice, no source).
ACROSS = ModificationEntry(
    kind=Kind.PARALLEL,
    circuit=Circuit.RADIAL_COIL,
    where="R12",
    law=Law.CURRENT,
    maker_value=Decimal("3.3"),
    new_value=Decimal("4.7"),
)


def foreseen(bench: Any, entry: ModificationEntry) -> Any:
    thresholds = bench_lists(bench.book, bench.job).thresholds
    return preview(bench.sheet, entry, thresholds, bench.shop.clock())


def test_the_flag_is_foreseen_before_anything_is_written(bench: Any) -> None:
    found = foreseen(bench, ACROSS)
    assert [flag.rule for flag in found.flags] == ["coil_up_big"]
    assert round(found.circuit.k, 4) == Decimal("1.7021")
    assert bench.rules() == []


def test_what_stands_already_is_not_raised_again_and_the_whole_circuit_counts(bench: Any) -> None:
    record_modification(bench.book, bench.tobbe, bench.job, ACROSS)
    more = replace(ACROSS, where="R13", maker_value=Decimal(100), new_value=Decimal(10_000))
    found = foreseen(bench, more)
    # 1.7021 x 1.01, against the maker's values
    assert round(found.circuit.k, 4) == Decimal("1.7191")
    assert {flag.rule for flag in found.flags} == {"coil_up_big", "stacked"}


def test_what_was_put_back_or_struck_out_counts_no_more(bench: Any) -> None:
    first = record_modification(bench.book, bench.tobbe, bench.job, ACROSS).value.id
    reverse_modification(bench.book, bench.tobbe, first, bench.job)
    second = record_modification(bench.book, bench.tobbe, bench.job, ACROSS).value.id
    strike_out(bench.book, bench.tobbe, "modification", second, "wrong job")
    assert len(foreseen(bench, ACROSS).circuit.modifications) == 1


def test_a_bypassed_interlock_is_foreseen_as_a_stop(bench: Any) -> None:
    entry = ModificationEntry(
        kind=Kind.INTERLOCK, circuit=Circuit.INTERLOCK, where="lid switch", now="bridged", ours=False
    )
    found = foreseen(bench, entry)
    assert Level.STOP in {flag.level for flag in found.flags}


def test_a_recorded_effect_is_worked_out_anew_from_its_numbers(bench: Any) -> None:
    record_modification(bench.book, bench.tobbe, bench.job, ACROSS)
    effect = effect_of_line(bench.sheet.modifications[0])
    assert effect is not None
    assert effect.now == Decimal("1.93875")  # 3.3 x 4.7 / 8.0
    assert effect.ratio_spread is None


def test_a_change_without_a_formula_has_no_effect(bench: Any) -> None:
    entry = ModificationEntry(
        kind=Kind.MECHANICAL, circuit=Circuit.MECHANICS, where="clamp", now="felt ring 0.3 mm thicker"
    )
    record_modification(bench.book, bench.tobbe, bench.job, entry)
    (line,) = bench.sheet.modifications
    assert effect_of_line(line) is None
