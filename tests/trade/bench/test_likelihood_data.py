"""The likelihoods as shipped, and what is refused in them."""

from collections.abc import Callable
from datetime import UTC
from fractions import Fraction
from typing import Any

import pytest

from app.trade.bench.changes import Grade
from app.trade.bench.likelihood_data import read_likelihoods
from app.trade.refusal import Refusal
from app.trade.wording import plain
from tests.trade.bench.ranked import CHANGES, LADDER, LIKELIHOODS, QUANTITIES, shipped

SAY = plain(UTC)


def test_what_ships_is_whole() -> None:
    assert len(LIKELIHOODS.readings) == 28
    assert len(LIKELIHOODS.symptoms) == 15
    assert list(LIKELIHOODS.grades) == list(Grade)
    assert LIKELIHOODS.ladder_worth == 20
    # Who comes in from outside the row: 0.01 each, at a product of 4 or more, at most four. Common practice, no source.
    entrants = LIKELIHOODS.entrants
    assert (entrants.weight, entrants.ratio, entrants.most) == (Fraction(1, 100), 4, 4)
    assert {r.id for r in LIKELIHOODS.readings.values() if r.minutes != 5} == {"tilt_lines", "arm_emf"}
    assert [(r.id, r.rung_itself) for r in LIKELIHOODS.readings.values() if r.rung_itself] == [
        ("seek_time", 11)
    ]
    assert LIKELIHOODS.readings["c1_outer"].unless_outside == "c1_inner"
    assert LIKELIHOODS.readings["tilt_lines"].quantities == ("tilt_rad", "tilt_tan")


def test_each_reading_is_of_quantities_that_fit_its_arrangement() -> None:
    for ratios in LIKELIHOODS.readings.values():
        for quantity in ratios.quantities:
            assert QUANTITIES[quantity].fits(ratios.arrangement)
            assert not QUANTITIES[quantity].worked_out


def test_every_suspect_but_other_can_be_moved_by_something() -> None:
    moved = {s for r in LIKELIHOODS.readings.values() for s in r.suspects}
    moved |= {s for w in LIKELIHOODS.symptoms.values() for s in w.said}
    moved |= {s for change in CHANGES.values() for s in change.addresses}
    assert set(LADDER.suspects) - moved == {"other"}


def reading(data: Any, **more: Any) -> None:
    data["readings"][0].update(more)


def symptom(data: Any, **more: Any) -> None:
    data["symptoms"][0].update(more)


@pytest.mark.parametrize(
    ("spoil", "said"),
    [
        (lambda d: reading(d, quantities=[]), "readings rail_dc: it names no quantity"),
        (lambda d: reading(d, quantities=["warp"]), "warp is no quantity"),
        (lambda d: reading(d, outside_high={"warp": "2"}), "outside_high: warp is no suspect here"),
        (lambda d: reading(d, outside_high={"other": "2"}), "other is no suspect here"),
        (lambda d: reading(d, outside_high={"belt": "11"}), "the ratio of belt is not from 0.1 to 10"),
        (lambda d: reading(d, outside_high={"belt": "0"}), "the ratio of belt is not from 0.1 to 10"),
        # 0.45 times 2.2 leaves 1 in 100 for within, where it is 47 in 100 by itself.
        (
            lambda d: reading(d, background_high="0.45", outside_high={"belt": "2.2"}, outside_low={}),
            "the ratio of belt is not from 0.1 to 10",
        ),
        (lambda d: reading(d, background_high="0"), "outside_high has ratios, but is said never to happen"),
        (lambda d: reading(d, background_low="0"), "outside_low has ratios, but is said never to happen"),
        (
            lambda d: reading(d, background_high="0", background_low="0", outside_high={}, outside_low={}),
            "how often it is outside by itself is not between 0 and 1",
        ),
        (
            lambda d: reading(d, background_high="0.6", background_low="0.4"),
            "how often it is outside by itself is not between 0 and 1",
        ),
        (lambda d: reading(d, background_high="1"), "background_high is no share of 1"),
        (lambda d: reading(d, background_high="-0.1"), "background_high is no share of 1"),
        (lambda d: reading(d, minutes=0), "minutes is no whole number from 1 to 600"),
        (lambda d: reading(d, rung_itself=13), "rung_itself is no whole number from 1 to 12"),
        (lambda d: reading(d, unless_outside="warp"), "warp is no reading here"),
        (lambda d: reading(d, misspelt=1), "nobody knows"),
        (lambda d: reading(d, id="jitter"), "the id jitter stands there twice"),
        (lambda d: symptom(d, id="cold"), "the id cold stands there twice"),
        (lambda d: symptom(d, background="0"), "how often it is said by itself is not between 0 and 1"),
        (lambda d: symptom(d, background="0.3", said={"belt": "4"}), "the ratio of belt is not from 0.1"),
        (lambda d: d["grades"]["A"].update(cured="0.5"), "grades, A: the chances are not above 0, or do not"),
        (
            lambda d: d["grades"]["A"].update(cured="0.8", no_difference="0"),
            "the chances are not above 0, or do not sum to 1",
        ),
        (
            lambda d: d["grades"]["A"].update(cured="0.79", no_difference="0.01"),
            "the ratio of cured is not from 0.1 to 10",
        ),
        (lambda d: d["grades"].update(D={}), "nobody knows"),
        (lambda d: d.update(ladder_worth=0), "ladder_worth is no whole number from 1 to 1000"),
        (
            lambda d: d["entrants"].update(ratio="0.5"),
            "likelihoods, entrants: ratio is no number from 1 to 1000",
        ),
        (lambda d: d["entrants"].update(most=21), "most is no whole number from 0 to 20"),
        (lambda d: d["entrants"].update(weight="0"), "who comes in takes nothing, or all that other has"),
        (lambda d: d["entrants"].update(most=5), "who comes in takes nothing, or all that other has"),
        (lambda d: d["entrants"].update(least=1), "nobody knows"),
        (lambda d: d.update(source=""), "source is no text"),
        (lambda d: d.update(more=1), "nobody knows"),
    ],
)
def test_data_that_cannot_be_right_are_refused(spoil: Callable[[Any], None], said: str) -> None:
    data = shipped("likelihoods")
    spoil(data)
    with pytest.raises(Refusal) as refused:
        read_likelihoods(data, LADDER.suspects, QUANTITIES)
    assert said in SAY(refused.value.sentence)
