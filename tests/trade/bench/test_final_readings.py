"""Final readings: what is still owed, and when a reason stands for them."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from app.trade.bench.facts import TrialFact
from app.trade.bench.final_readings import FinalsStanding, finals_standing, worked_on
from app.trade.bench.modifications import Circuit, Kind, Law, Origin
from app.trade.bench.stages import Outcome
from app.trade.bench.thresholds import DEFAULTS
from app.trade.sentence import Sentence
from app.trade.wording import Wording

SEEK = (("seek_time", Sentence("seek time")),)


def standing(facts: Any) -> FinalsStanding:
    return finals_standing(facts, DEFAULTS)


def said(facts: Any, english: Wording) -> str:
    return english(standing(facts).words)


def test_the_shops_sheet_is_asked_for_and_the_start_up(job: Any, final: Any, english: Wording) -> None:
    facts = job(rung_final=None, finals_wanted=SEEK)
    assert standing(facts).owed
    assert standing(facts).needed
    assert said(facts, english) == "Final readings missing: start-up, seek time."
    taken = job(rung_final=12, finals_wanted=SEEK, readings=(final("seek_time", "1.3", "s"),))
    assert standing(taken) == FinalsStanding(True, False, Sentence("taken"))


def test_an_arrival_reading_is_no_final_one(job: Any, reading: Any) -> None:
    assert standing(job(finals_wanted=SEEK, readings=(reading("seek_time", "4.8", "s"),))).owed


def test_the_player_may_not_leave_worse_than_it_came(job: Any, english: Wording) -> None:
    assert said(job(rung_arrival=11, rung_final=9), english) == (
        "The player leaves worse than it came: rung 11 to rung 9."
    )
    assert standing(job(rung_arrival=11, rung_final=0)).owed
    assert standing(job(rung_arrival=11, rung_final=0)).needed
    assert not standing(job(rung_arrival=11, rung_final=11)).owed


def test_a_technicians_reason_stands_for_missing_readings_and_for_a_lower_rung(job: Any) -> None:
    reason = "no reference disc in the house until Monday"
    assert not standing(job(rung_final=None, finals_wanted=SEEK, finals_reason=reason)).owed
    assert not standing(job(rung_arrival=11, rung_final=9, finals_reason=reason)).owed


def test_raised_coil_current_asks_for_its_readings_and_takes_no_reason(
    job: Any, modification: Any, english: Wording
) -> None:
    facts = job(modifications=(modification(),), finals_reason="the customer is waiting")
    assert standing(facts).owed
    assert standing(facts).needed
    assert said(facts, english) == (
        "Coil current was raised, final readings missing: driver temperature, coil resistance cold, "
        "coil resistance after 30 min, dropout passed."
    )


def test_with_all_of_them_the_job_may_pass(job: Any, modification: Any, final: Any) -> None:
    # Job 1 of the demo story: driver 48 degrees, coil 14.0 to 14.5 ohm, dropout 0.75 mm.
    readings = (
        final("driver_temp", "48", "°C", warm_minutes=30),
        final("radial_coil_r", "14.0", "Ω"),
        final("radial_coil_r", "14.5", "Ω", warm_minutes=30),
        final("dropout_passed", "0.75", "mm"),
    )
    assert not standing(job(modifications=(modification(),), readings=readings)).owed
    for left_out in range(4):
        some = tuple(r for n, r in enumerate(readings) if n != left_out)
        assert standing(job(modifications=(modification(),), readings=some)).owed
    too_early = (*readings[:2], final("radial_coil_r", "14.3", "Ω", warm_minutes=29), readings[3])
    assert standing(job(modifications=(modification(),), readings=too_early)).owed


def test_a_coil_current_raised_in_an_earlier_job_asks_for_nothing_more(job: Any, modification: Any) -> None:
    earlier = modification(job=1206)
    found_now = modification(origin=Origin.FOUND)
    assert not standing(job(modifications=(earlier,))).owed
    assert standing(job(modifications=(found_now,))).owed


def test_a_small_rise_other_circuits_and_no_law_ask_for_nothing_more(job: Any, modification: Any) -> None:
    small = modification(new_value=Decimal("6.2"))  # k 1.0968
    gain = modification(number=2, circuit=Circuit.SERVO_GAIN, law=Law.GAIN, new_value=Decimal(10))
    lawless = modification(number=3, circuit=Circuit.FOCUS_COIL, law=Law.NEITHER)
    assert not standing(job(modifications=(small, gain, lawless))).owed


def test_exactly_ten_per_cent_more_asks_for_nothing_more(job: Any, modification: Any) -> None:
    at_line = modification(kind=Kind.PARALLEL, maker_value=Decimal(1), new_value=Decimal(10))
    assert not standing(job(modifications=(at_line,))).owed


def test_the_focus_coil_asks_for_its_own_resistance(job: Any, modification: Any, final: Any) -> None:
    focus = modification(circuit=Circuit.FOCUS_COIL)
    readings = (
        final("driver_temp", "48", "°C"),
        final("radial_coil_r", "14.0", "Ω"),
        final("focus_coil_r", "8.0", "Ω"),
        final("focus_coil_r", "8.2", "Ω", warm_minutes=35),
        final("dropout_passed", "0.75", "mm"),
    )
    assert not standing(job(modifications=(focus,), readings=readings)).owed


@pytest.mark.parametrize("outcome", [Outcome.DECLINED, Outcome.BEYOND_REPAIR, Outcome.REFUSED])
def test_a_declined_player_that_nobody_worked_on_owes_nothing(outcome: Outcome, job: Any, at: Any) -> None:
    untouched = job(outcome=outcome, rung_final=None)
    assert standing(untouched) == FinalsStanding(False, False, Sentence("nothing was changed in this job"))
    tried = job(
        outcome=outcome, rung_final=None, trials=(TrialFact(number=1, change="clean_lens", at=at(1)),)
    )
    assert standing(tried).owed


def test_no_fault_shown_still_owes_its_final_readings(job: Any) -> None:
    assert standing(job(outcome=Outcome.NO_FAULT_SHOWN, rung_final=None)).owed


@pytest.mark.parametrize("outcome", [Outcome.KEPT_AS_DONOR, Outcome.UNCOLLECTED])
def test_a_player_that_stays_here_owes_nothing(outcome: Outcome, job: Any, modification: Any) -> None:
    facts = job(outcome=outcome, rung_final=None, modifications=(modification(),))
    assert standing(facts) == FinalsStanding(False, False, Sentence("the player stays here"))


def test_what_counts_as_work(job: Any, modification: Any, unlawful: Any, put_back: Any, at: Any) -> None:
    assert not worked_on(job())
    assert worked_on(job(parts_fitted=1))
    assert worked_on(job(modifications=(modification(),)))
    assert not worked_on(job(modifications=(modification(origin=Origin.FOUND),)))
    assert not worked_on(job(modifications=(modification(job=1206),)))
    reversed_now = unlawful(Kind.FUSE, Circuit.FUSE, origin=Origin.FOUND, reversal=put_back(6))
    reversed_then = unlawful(Kind.FUSE, Circuit.FUSE, origin=Origin.FOUND, reversal=put_back(-100))
    assert worked_on(job(modifications=(reversed_now,)))
    assert not worked_on(job(modifications=(reversed_then,)))
