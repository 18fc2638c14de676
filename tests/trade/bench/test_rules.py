"""The rule book against the bench's own table of flags, row by row: level, number, who clears it, and what no setting
moves. Common practice, no source."""

from __future__ import annotations

from dataclasses import fields, replace
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from app.trade.bench.facts import AskedFact
from app.trade.bench.flag import Closing, Level
from app.trade.bench.flags import evaluate
from app.trade.bench.gates import gates_of
from app.trade.bench.modifications import Circuit, Kind, Origin
from app.trade.bench.rules import RULES
from app.trade.bench.stages import Mark
from app.trade.bench.thresholds import DEFAULTS, Thresholds, thresholds_refused
from tests.house.test_rule_table import gate_ids, levels

# id: levels of flags, and the word that says who or what clears it.
BOOK = {
    "coil_up": ("caution", "putting the change back"),
    "coil_up_big": ("caution", "owner"),
    "coil_hot": ("caution", "new reading below"),
    "laser_up": ("caution", "reading not above"),
    "laser_up_big": ("caution", "owner"),
    "trimmer_blind": ("caution note", "Nothing clears it"),
    "safety_part": ("stop", "competent person"),
    "fuse": ("stop", "right fuse fitted and the cause noted"),
    "mains_wiring": ("stop", "competent person"),
    "earth": ("stop", "competent person"),
    "interlock": ("stop", "refused and closed as refused"),
    "unknown_mod": ("caution", "named on the paper, or put back"),
    "stacked": ("caution", "technician's reason"),
    "part_warm": ("caution", "larger part"),
    "part_over": ("stop", "larger part"),
    "supply_changed": ("caution", "rail back"),
    "other_type": ("caution", "owner"),
    "cal_overdue": ("note", "calibration entered"),
    "final_outside": ("stop caution", "owner's reason"),
    "final_close": ("note", "report"),
    "safety_failed": ("stop", "competent person"),
    "comeback": ("caution", "owner decides"),
    "beyond_agreed": ("stop caution", "who said so, when"),
    "disc_inside": ("caution", "returned and ticked"),
    "transit_lock": ("caution note", "state noted"),
    "unpaid": ("note", "never holds"),
    "pile": ("caution", "owner"),
}
GATES = {"laser_no_power", "not_agreed", "told", "final_missing", "safety_missing", "disc_inside"}
NUMBERS = {
    "coil_up": "1.10",
    "coil_up_big": "1.50",
    "coil_hot": "40",
    "laser_up": "110",
    "laser_up_big": "120",
    "part_warm": "50",
    "supply_changed": "5",
    "supply_changed_big": "10",
    "beyond_agreed_from": "80",
    "pile": "3",
    "calibration_grace_days": "0",
}
# Numbers that a shop sets as it likes: the window of a comeback, days of grace, and the band of a close final.
FREE = {"comeback_days", "calibration_grace_days", "close_below"}


@pytest.mark.parametrize("rule", BOOK)
def test_a_rule_has_the_level_of_the_book_and_says_who_clears_it(rule: str) -> None:
    wanted, clears = BOOK[rule]
    assert sorted(levels()[rule]) == sorted(wanted.split())
    assert clears.casefold() in RULES[rule].clears.key.casefold()


def test_no_rule_and_no_gate_is_missing_or_made_up() -> None:
    assert set(RULES) == set(BOOK)
    assert gate_ids() >= GATES


def test_the_shipped_numbers_are_those_of_the_book() -> None:
    assert {name: str(getattr(DEFAULTS, name)) for name in NUMBERS} == NUMBERS


@pytest.mark.parametrize("name", [f.name for f in fields(Thresholds)])
def test_a_setting_moves_a_number_only_to_the_stricter_side_where_it_guards(name: str) -> None:
    looser = replace(DEFAULTS, **{name: getattr(DEFAULTS, name) + 1})
    assert (name in thresholds_refused(looser)) is (name not in FREE)


ANYTHING = st.builds(
    Thresholds,
    **{
        f.name: st.integers(-5, 10_000)
        if isinstance(getattr(DEFAULTS, f.name), int)
        else st.decimals(-5, 10_000, places=2)
        for f in fields(Thresholds)
    },
)


@settings(
    max_examples=25,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(thresholds=ANYTHING)
def test_interlock_fuse_mains_earth_and_protecting_parts_are_stops_whatever_is_set(
    thresholds: Thresholds, job: Any, unlawful: Any
) -> None:
    facts = job(
        asked=(AskedFact(1, "bridge the lid switch"),),
        modifications=(
            unlawful(Kind.INTERLOCK, Circuit.INTERLOCK, number=1, now="taped", origin=Origin.FOUND),
            unlawful(Kind.FUSE, Circuit.FUSE, number=2, was="T 1 A", now="foil", origin=Origin.FOUND),
            unlawful(Kind.WIRING, Circuit.MAINS, number=3, now="selector bridged", origin=Origin.FOUND),
            unlawful(Kind.WIRING, Circuit.EARTH, number=4, now="lifted", origin=Origin.FOUND),
            unlawful(
                Kind.OTHER_TYPE, Circuit.OTHER, number=5, was="X2", now="film", safety_part=True
            ),
            unlawful(
                Kind.REPLACED, Circuit.SERVO_GAIN, number=6, new_value=Decimal(10), power=Decimal("0.144"),
                rating=Decimal("0.125"),
            ),
        ),
    )  # fmt: skip
    stops = [f for f in evaluate(facts, thresholds) if f.level is Level.STOP]
    assert [f.rule for f in stops] == [
        "interlock", "interlock", "fuse", "mains_wiring", "earth", "safety_part", "part_over",
    ]  # fmt: skip
    assert all(f.closing is Closing.FACTS for f in stops)  # nobody's word clears one of them


def test_what_the_owner_sees_needs_the_owners_own_mark(job: Any, unlawful: Any, modification: Any) -> None:
    rail = unlawful(
        Kind.SUPPLY,
        Circuit.SUPPLY_RAIL,
        number=2,
        maker_value=Decimal(9),
        new_value=Decimal("10.2"),
        where="+9 V",
    )
    facts = job(modifications=(modification(new_value=Decimal(4), agreed="", named_on=""), rail))
    seen = {f.rule: f for f in evaluate(facts) if f.owner_sees}
    assert set(seen) == {"coil_up_big", "supply_changed"}
    assert {f.needs for f in seen.values()} == {Mark.OWNER}
    assert all("owner" in f.clears.key.casefold() for f in seen.values())
    assert {g.rule for g in gates_of(facts) if g.open} >= {"not_agreed", "told", "owner_sees"}
