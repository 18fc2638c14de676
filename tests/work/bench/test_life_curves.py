"""Quantities through a transport's life, and what they foretell."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

from app.trade.bench.forecast import Pace
from app.trade.bench.modifications import Circuit, Kind
from app.trade.wording import plain
from app.work.bench.life_curves import LifeCurve, life_curves
from app.work.bench.modifications import ModificationEntry, record_modification, reverse_modification
from app.work.bench.transport_life import transport_life
from app.work.bench.transports import renew_part

TURNED = ModificationEntry(
    kind=Kind.OTHER,
    circuit=Circuit.LASER_SUPPLY,
    where="laser supply",
    now="current raised",
    in_transport=True,
)


def curves(bench: Any) -> tuple[LifeCurve, ...]:
    return life_curves(transport_life(bench.book, bench.transport), bench.book.zone)


def current(bench: Any) -> LifeCurve:
    return next(curve for curve in curves(bench) if curve.quantity == "laser_current")


def read_over_years(bench: Any, *values: str) -> None:
    for value in values:
        bench.read("laser_current", value)
        bench.later(days=300)


def test_the_most_often_read_stands_first(bench: Any) -> None:
    bench.read("seek_time", "1.2")
    bench.read("rail_dc", "7.96", detail="+8 V")
    read_over_years(bench, "50.1", "50.6")
    assert [curve.key for curve in curves(bench)] == [
        ("laser_current", ""),
        ("seek_time", ""),
        ("rail_dc", "+8 V"),
    ]
    assert plain(bench.book.zone)(curves(bench)[2].name) == "supply rail, +8 V"


def test_a_steady_rise_is_foretold_to_its_limit(bench: Any) -> None:
    read_over_years(bench, "50.1", "51.3", "52.2", "53.4", "54.5")
    curve = current(bench)
    assert (curve.high, curve.low, curve.unit, curve.parted_at) == (Decimal("57.6"), None, "mA", None)
    assert curve.limit_source == "service document, p. 12"
    assert curve.forecast.pace is Pace.REACHES
    assert curve.forecast.crosses is not None


def test_three_readings_are_too_few_to_say(bench: Any) -> None:
    read_over_years(bench, "50.1", "51.3", "52.2")
    assert current(bench).forecast.pace is Pace.TOO_FEW


def test_a_new_diode_begins_the_line_anew_and_a_new_motor_does_not(bench: Any) -> None:
    read_over_years(bench, "50.1", "51.3", "52.2", "53.4")
    renew_part(bench.book, bench.tobbe, bench.job, "spindle motor")
    assert current(bench).forecast.count == 4
    read_over_years(bench, "54.5")
    assert current(bench).forecast.count == 5
    renew_part(bench.book, bench.tobbe, bench.job, "pick-up", label_after=Decimal("0.0480"))
    assert current(bench).forecast.count == 5  # nothing has been read of the new one yet
    read_over_years(bench, "47.9")
    curve = current(bench)
    assert (curve.forecast.pace, curve.forecast.count) == (Pace.TOO_FEW, 1)
    assert curve.parted_by is not None
    assert plain(bench.book.zone)(curve.parted_by) == "renewed: pick-up"
    assert len(curve.readings) == 6  # all stay in sight


def test_a_change_of_the_laser_supply_parts_the_run_and_its_reversal_again(bench: Any) -> None:
    read_over_years(bench, "50.1", "51.3", "52.2", "53.4")
    made = record_modification(bench.book, bench.tobbe, bench.job, TURNED).value
    read_over_years(bench, "56.0", "56.2")
    assert current(bench).forecast.count == 2
    reverse_modification(bench.book, bench.tobbe, made.id, bench.job)
    read_over_years(bench, "54.4")
    curve = current(bench)
    assert curve.forecast.count == 1
    assert curve.parted_by is not None
    assert plain(bench.book.zone)(curve.parted_by).startswith("put back: ")


def test_a_change_of_another_circuit_leaves_the_line(bench: Any) -> None:
    read_over_years(bench, "50.1", "51.3")
    record_modification(
        bench.book, bench.tobbe, bench.job, replace(TURNED, circuit=Circuit.RADIAL_COIL, where="R314")
    )
    read_over_years(bench, "52.2", "53.4")
    assert current(bench).forecast.count == 4


def test_a_lower_bound_is_no_value_of_the_line(bench: Any) -> None:
    for _ in range(4):
        bench.read("insulation", "> 100")
        bench.later(days=300)
    curve = next(curve for curve in curves(bench) if curve.quantity == "insulation")
    assert (len(curve.readings), curve.forecast.count) == (4, 0)
