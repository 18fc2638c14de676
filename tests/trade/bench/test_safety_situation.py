"""What the safety notes of a job depend on: each thing has its own reason."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from app.trade.bench.facts import AskedFact, TrialFact, UnsafeReturn
from app.trade.bench.kinds import TransitLock
from app.trade.bench.modifications import Circuit, Kind, Law, Origin
from app.trade.bench.safety_situation import Situation, situation_of
from app.trade.money import Money


@pytest.fixture
def foil(unlawful: Any) -> Any:
    return unlawful(Kind.FUSE, Circuit.FUSE, where="F1", was="T 1 A", now="foil", origin=Origin.FOUND)


def test_the_situation_is_told_what_was_so(
    job: Any, modification: Any, reading: Any, opened: Any, at: Any
) -> None:
    facts = job(
        modifications=(modification(),),
        readings=(reading("laser_current", "51.2", "mA"), reading("driver_temp", "48", "°C")),
        trials=(TrialFact(number=1, change="pickup_renew", at=at(2)),),
        case_events=(opened(1),),
        transit_lock=TransitLock.RELEASED,
        asked=(AskedFact(1, "bridge the lid switch", refused=True),),
        by_post=True,
    )
    situation = situation_of(facts, swing_arm=True)
    assert situation.opened
    assert situation.laser_driven_open
    assert situation.pickup_handled
    assert situation.mains_inside
    assert situation.heat
    assert situation.swing_arm_opened
    assert situation.modified
    assert situation.adds_heat
    assert situation.refused
    assert situation.transit_lock
    assert situation.posted
    assert not situation.stop_open
    assert not situation.returned_unsafe
    assert not situation.wiring_work


def test_an_ordinary_closed_player_asks_for_no_bench_note_but_mains(job: Any) -> None:
    situation = situation_of(job(), swing_arm=True)
    assert situation == Situation(mains_inside=True)


def test_each_bench_note_needs_its_own_reason(
    job: Any, reading: Any, modification: Any, opened: Any, at: Any
) -> None:
    swap = TrialFact(number=1, change="transport_swap", at=at(2))
    closed_all_the_time = situation_of(
        job(readings=(reading("laser_current", "51.2", "mA"),), trials=(swap,)), swing_arm=True
    )
    assert closed_all_the_time == Situation(mains_inside=True)
    only_opened = situation_of(job(case_events=(opened(1),)), swing_arm=False)
    assert only_opened == Situation(opened=True, mains_inside=True)
    hot = situation_of(job(readings=(reading("driver_temp", "48", "°C"),)), swing_arm=False)
    assert hot == Situation(mains_inside=True, heat=True)
    joints = TrialFact(number=1, change="resolder", at=at(2))
    soldered = situation_of(job(trials=(joints,)), swing_arm=False)
    assert soldered == Situation(mains_inside=True, heat=True, soldered_or_cleaned=True)
    lens = TrialFact(number=1, change="clean_lens", at=at(2))
    cleaned = situation_of(job(trials=(lens,)), swing_arm=False)
    assert cleaned == Situation(mains_inside=True, soldered_or_cleaned=True)
    coil = (
        reading("radial_coil_r", "14.0", "Ω"),
        reading("radial_coil_r", "14.5", "Ω", 2, warm_minutes=30),
    )
    assert situation_of(job(readings=coil), swing_arm=False) == Situation(mains_inside=True, heat=True)
    gain = modification(circuit=Circuit.SERVO_GAIN, law=Law.GAIN, new_value=Decimal(10))
    assert not situation_of(job(modifications=(gain,)), swing_arm=False).adds_heat
    dear = job(agreed=Money(100, "EUR"), work_so_far=Money(200, "EUR"))  # a stop, but no danger
    assert not situation_of(dear, swing_arm=False).stop_open


def test_heat_comes_from_more_current_or_a_raised_rail_and_not_from_less(
    job: Any, modification: Any, unlawful: Any, foil: Any, at: Any
) -> None:
    less = modification(kind=Kind.SERIES, new_value=Decimal("1.5"))
    assert not situation_of(job(modifications=(less,)), swing_arm=False).adds_heat
    rail = unlawful(Kind.SUPPLY, Circuit.SUPPLY_RAIL, maker_value=Decimal(9), new_value=Decimal(10))
    assert situation_of(job(modifications=(rail,)), swing_arm=False).adds_heat
    lower = unlawful(Kind.SUPPLY, Circuit.SUPPLY_RAIL, maker_value=Decimal(9), new_value=Decimal(8))
    assert not situation_of(job(modifications=(lower,)), swing_arm=False).adds_heat
    way = UnsafeReturn("Ine", at(8), "declined", law_looked_at=True)
    unsafe = situation_of(job(modifications=(foil,), unsafe_return=way), swing_arm=False)
    assert unsafe.stop_open
    assert unsafe.returned_unsafe
