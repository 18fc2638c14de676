"""Rules about the job itself."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from app.trade.bench.facts import ComebackFact, DiscFact, InstrumentFact
from app.trade.bench.flag import Closing, FlagRaised, Level, Subject
from app.trade.bench.flags_job import (
    beyond_agreed,
    cal_overdue,
    comeback,
    disc_inside,
    finals,
    latest_finals,
    transit_lock,
    unknown_mod,
    unpaid,
)
from app.trade.bench.kinds import TransitLock
from app.trade.bench.modifications import Origin
from app.trade.bench.stages import Mark, Stage
from app.trade.bench.thresholds import DEFAULTS
from app.trade.bench.verdict import VerdictWord
from app.trade.money import Money
from app.trade.sentence import Sentence
from app.trade.wording import Wording


def told(rule: Any, facts: Any, thresholds: Any = DEFAULTS) -> list[FlagRaised]:
    return list(rule(facts, thresholds))


def said(flag: FlagRaised, english: Wording) -> str:
    return english(flag.sentence).replace("\u00a0", " ")


def euro(minor: int) -> Money:
    return Money(minor, "EUR")


def test_a_change_that_is_not_ours_is_a_caution_until_assessed(
    job: Any, modification: Any, english: Wording
) -> None:
    found = modification(origin=Origin.FOUND, in_transport=True)
    (flag,) = told(unknown_mod, job(modifications=(found, modification(number=2))))
    assert said(flag, english) == (
        "Earlier change, maker unknown: R314 (radial coil drive): 5.6 Ω in place of the maker's 6.8 Ω."
    )
    assert flag.subject is Subject.TRANSPORT
    assert told(unknown_mod, job(modifications=(modification(origin=Origin.FOUND, assessed=True),))) == []


@pytest.mark.parametrize(("due", "grace", "raised"), [(24, 0, False), (23, 0, True), (23, 1, False)])
def test_an_instrument_past_its_date_is_noted(
    due: int, grace: int, raised: bool, job: Any, english: Wording
) -> None:
    meter = InstrumentFact("oscilloscope", date(2026, 11, due), 3)
    flags = told(cal_overdue, job(instruments=(meter,)), replace(DEFAULTS, calibration_grace_days=grace))
    assert bool(flags) is raised
    for flag in flags:
        assert flag.level is Level.NOTE
        assert said(flag, english) == "oscilloscope was due 23 Nov 2026: 3 verdicts rest on it."


def test_a_final_reading_outside_needs_the_owners_reason(job: Any, final: Any, english: Wording) -> None:
    slow = final("seek_time", "1.9", "s", verdict=VerdictWord.HIGH, high=Decimal("1.5"))
    (flag,) = told(finals, job(readings=(slow,)))
    assert (flag.rule, flag.level) == ("final_outside", Level.CAUTION)
    assert (flag.closing, flag.needs) == (Closing.REASON, Mark.OWNER)
    assert said(flag, english) == "Final seek_time 1.9 s, limit ≤ 1.5 s."


def test_where_a_limit_is_a_must_no_reason_helps(job: Any, final: Any) -> None:
    low = final("dropout_passed", "0.3", "mm", verdict=VerdictWord.LOW, low=Decimal("0.5"), must=True)
    (flag,) = told(finals, job(readings=(low,)))
    assert (flag.level, flag.closing, flag.needs) == (Level.STOP, Closing.FACTS, None)


def test_a_final_too_close_to_call_is_noted_with_its_probability(
    job: Any, final: Any, english: Wording
) -> None:
    # Job 9 of the demo story: S-curve 0.61 V, limit 0.60, p .720.
    close = final("s_curve", "0.61", "V", verdict=VerdictWord.CLOSE, within=Decimal("0.7204"))
    (flag,) = told(finals, job(readings=(close,)))
    assert (flag.rule, flag.level) == ("final_close", Level.NOTE)
    assert said(flag, english) == "Final s_curve 0.61 V: probability of conforming 0.720."
    assert told(finals, job(readings=(close,)), replace(DEFAULTS, close_below=Decimal("0.7"))) == []
    assert told(finals, job(readings=(close,)), replace(DEFAULTS, close_below=Decimal("0.7204"))) == []
    assert len(told(finals, job(readings=(close,)), replace(DEFAULTS, close_below=Decimal("0.73")))) == 1
    unknown = final("s_curve", "0.61", "V", verdict=VerdictWord.CLOSE)
    assert len(told(finals, job(readings=(unknown,)))) == 1


def test_a_new_final_reading_takes_the_place_of_the_old_one(job: Any, final: Any, reading: Any) -> None:
    slow = final("seek_time", "1.9", "s", verdict=VerdictWord.HIGH, high=Decimal("1.5"))
    quick = final("seek_time", "1.3", "s", hours=9, verdict=VerdictWord.WITHIN, high=Decimal("1.5"))
    arrival = reading("seek_time", "4.8", "s", verdict=VerdictWord.HIGH)
    assert told(finals, job(readings=(arrival, slow, quick))) == []
    assert latest_finals(job(readings=(arrival, slow, quick))) == (quick,)


def test_cold_and_warm_and_two_places_are_readings_of_their_own(job: Any, final: Any) -> None:
    high = {"verdict": VerdictWord.HIGH, "high": Decimal(14)}
    readings = (
        final("radial_coil_r", "14.5", "Ω", **high),
        final("radial_coil_r", "15.0", "Ω", warm_minutes=30, **high),
        final("rail_dc", "8.9", "V", place="+8 V", **high),
        final("rail_dc", "5.9", "V", place="+5 V", **high),
    )
    flags = told(finals, job(readings=readings))
    assert [f.detail for f in flags] == [
        "radial_coil_r",
        "radial_coil_r 30 min",
        "rail_dc +8 V",
        "rail_dc +5 V",
    ]


@pytest.mark.parametrize(
    ("limits", "words"),
    [
        ({"low": Decimal("0.5")}, "≥ 0.5 mm"),
        ({"high": Decimal("1.5")}, "≤ 1.5 mm"),
        ({"low": Decimal("0.8"), "high": Decimal("1.4")}, "0.8 mm to 1.4 mm"),
        ({}, "none"),
    ],
)
def test_a_limit_is_worded_in_signs(
    limits: dict[str, Decimal], words: str, reading: Any, english: Wording
) -> None:
    limited = reading("dropout_passed", "0.75", "mm", **limits)
    assert english(limited.limit).replace("\u00a0", " ") == words


def test_a_comeback_names_the_job_the_change_and_what_it_left(job: Any, english: Wording) -> None:
    with_change = ComebackFact(2131, 47, "R314 5.6 for 6.8 ohm", Sentence("R314 left inside"))
    (flag,) = told(comeback, job(comeback=with_change))
    assert said(flag, english) == (
        "Came back after 47 days: job 2131, R314 5.6 for 6.8 ohm, R314 left inside."
    )
    assert (flag.needs, flag.owner_sees) == (Mark.OWNER, False)
    (flag,) = told(comeback, job(comeback=ComebackFact(1206, 9, "belt renewed")))
    assert said(flag, english).endswith("belt renewed, no modification left inside.")
    assert told(comeback, job()) == []


@pytest.mark.parametrize(
    ("agreed", "now", "level"),
    [
        (22000, 17599, None),
        (22000, 17600, Level.CAUTION),  # 80 %
        (22000, 22000, Level.CAUTION),
        (22000, 22001, Level.STOP),
        (0, 0, None),
        (0, 1, Level.STOP),
    ],
)
def test_work_near_or_beyond_the_agreed_amount(agreed: int, now: int, level: Level | None, job: Any) -> None:
    flags = told(beyond_agreed, job(agreed=euro(agreed), work_so_far=euro(now)))
    assert [f.level for f in flags] == ([level] if level else [])


def test_without_an_agreed_amount_nothing_is_beyond_it(job: Any, english: Wording) -> None:
    assert told(beyond_agreed, job(work_so_far=euro(99900))) == []
    assert told(beyond_agreed, job(agreed=euro(22000))) == []
    (flag,) = told(beyond_agreed, job(agreed=euro(22000), work_so_far=euro(23850)))
    assert said(flag, english) == "Agreed 220.00 EUR, now 238.50 EUR."


def test_every_disc_that_is_still_here_is_a_caution(job: Any, english: Wording) -> None:
    discs = (DiscFact(1, "tray", returned=True), DiscFact(2, "tray"), DiscFact(3, "sleeve of the manual"))
    flags = told(disc_inside, job(discs=discs))
    assert [f.detail for f in flags] == ["disc 2", "disc 3"]
    assert said(flags[0], english) == "A disc of the customer's is in the tray."


@pytest.mark.parametrize(
    ("state", "stage", "powered", "by_post", "level"),
    [
        (TransitLock.NONE, Stage.READY, True, True, None),
        (TransitLock.NOT_LOOKED, Stage.TAKEN_IN, False, False, Level.NOTE),
        (TransitLock.NOT_LOOKED, Stage.ON_THE_BENCH, False, False, Level.CAUTION),
        (TransitLock.NOT_LOOKED, Stage.ON_THE_BENCH, True, False, Level.NOTE),
        (TransitLock.RELEASED, Stage.ON_THE_BENCH, False, False, None),
        (TransitLock.RELEASED, Stage.READY, True, False, None),
        (TransitLock.RELEASED, Stage.READY, True, True, Level.CAUTION),
        (TransitLock.RELEASED, Stage.ON_THE_BENCH, True, True, None),
        (TransitLock.SET, Stage.READY, True, True, None),
    ],
)
def test_the_transit_lock_is_noted_before_power_and_set_before_the_post(
    state: TransitLock, stage: Stage, powered: bool, by_post: bool, level: Level | None, job: Any
) -> None:
    facts = job(transit_lock=state, stage=stage, powered=powered, by_post=by_post)
    assert [f.level for f in told(transit_lock, facts)] == ([level] if level else [])


def test_the_transit_lock_says_its_state(job: Any, english: Wording) -> None:
    (flag,) = told(transit_lock, job(transit_lock=TransitLock.RELEASED, stage=Stage.READY, by_post=True))
    assert said(flag, english) == ("Transit lock released: release before power, set before transport.")
    assert flag.clears == Sentence("The lock set and noted.")


def test_an_open_balance_is_a_note_and_a_credit_is_none(job: Any, english: Wording) -> None:
    (flag,) = told(unpaid, job(balance=euro(5941)))
    assert flag.level is Level.NOTE
    assert said(flag, english) == "Not paid yet: 59.41 EUR."
    assert told(unpaid, job(balance=euro(0))) == []
    assert told(unpaid, job(balance=euro(-500))) == []
