"""What was so in a job, as far as the safety notes depend on it."""

from __future__ import annotations

from dataclasses import dataclass

from app.trade.bench.case import MAINS_INSIDE, opened_in, safety_standing
from app.trade.bench.circuit_ratio import circuit_ratios
from app.trade.bench.facts import JobFacts, SafetyTestFact
from app.trade.bench.flags import evaluate
from app.trade.bench.flags_coil import COIL_READINGS, coil_warmings
from app.trade.bench.holds import UNSAFE_RULES, electrical_dangers
from app.trade.bench.kinds import TransitLock
from app.trade.bench.modifications import RESISTOR_KINDS, Circuit, Kind, Modification, live

# Changes of the catalogue during which something is soldered, or cleaned with alcohol (bench practice, no source).
SOLDERED = frozenset(
    {
        "resolder", "servo_caps", "supply_caps", "regulator", "mains_part", "laser_supply_fix", "flex_renew",
        "driver_renew", "servo_part", "decoder", "audio_fix", "logic_fix", "coil_current", "sled_motor",
        "load_motor",
    }
)  # fmt: skip
CLEANED = frozenset({"clean_lens", "clean_behind", "clean_clamp", "switch_clean", "arm_clean"})
PICKUP_HANDLED = frozenset({"pickup_renew", "transport_swap", "flex_renew", "reseat"})
_LASER_DRIVEN = frozenset({"laser_current", "laser_rel", "optical_power"})
_MAINS_SIDE = frozenset({Circuit.MAINS, Circuit.EARTH})
# A change here changes a current or heat, whether or not a factor is known.
_CURRENT_CIRCUITS = frozenset(
    {
        Circuit.RADIAL_COIL,
        Circuit.FOCUS_COIL,
        Circuit.LASER_SUPPLY,
        Circuit.MAINS,
        Circuit.SUPPLY_RAIL,
        Circuit.FUSE,
    }
)


@dataclass(frozen=True, kw_only=True)
class Situation:
    """One field for each thing that a note is printed for."""

    opened: bool = False
    laser_driven_open: bool = False
    pickup_handled: bool = False
    mains_inside: bool = False
    heat: bool = False  # a driver or coil temperature was read, a coil runs hot, or something was soldered
    soldered_or_cleaned: bool = False
    swing_arm_opened: bool = False
    modified: int = 0  # live modifications, whoever made them
    way_back_unknown: bool = False  # one of them is a trimmer that nobody read before it was turned
    adds_heat: bool = False  # a live modification does
    current_changed: bool = False  # a live modification sits in a circuit of current
    refused: bool = False  # something unsafe was asked for and refused
    stop_open: bool = False  # of safety
    danger: bool = False  # one of them by fire or electric shock
    returned_unsafe: bool = False
    tested: bool = False  # the safety test since the case was closed was passed
    wiring_work: bool = False  # on cord, plug or earth
    transit_lock: bool = False
    posted: bool = False


def situation_of(facts: JobFacts, *, swing_arm: bool) -> Situation:
    """The situation as the facts tell it."""
    opened = opened_in(facts.case_events, facts.number)
    changes = live(facts.modifications)
    quantities = {r.quantity for r in facts.readings}
    changed = {t.change for t in facts.trials}
    done_here = [m for m in facts.modifications if m.ours and m.job == facts.number]
    soldered = bool(changed & SOLDERED) or any(m.kind in RESISTOR_KINDS for m in done_here)
    warmed = any(coil_warmings(facts.readings, quantity) for quantity in COIL_READINGS.values())
    return Situation(
        opened=opened,
        laser_driven_open=opened and bool(quantities & _LASER_DRIVEN),
        pickup_handled=opened and bool(changed & PICKUP_HANDLED),
        mains_inside=facts.mains_class in MAINS_INSIDE,
        heat=soldered or warmed or "driver_temp" in quantities,
        soldered_or_cleaned=soldered or bool(changed & CLEANED),
        swing_arm_opened=opened and swing_arm,
        modified=len(changes),
        way_back_unknown=any(
            m.kind is Kind.TRIMMER and not m.reading_before and not m.way_back for m in changes
        ),
        adds_heat=any(
            r.of_current and r.k is not None and r.k > 1 for r in circuit_ratios(facts.modifications)
        )
        or any(_raised(m) for m in changes),
        current_changed=any(m.circuit in _CURRENT_CIRCUITS for m in changes),
        refused=any(asked.refused for asked in facts.asked),
        stop_open=any(f.rule in UNSAFE_RULES for f in evaluate(facts)),
        danger=bool(electrical_dangers(facts)),
        returned_unsafe=facts.unsafe_return is not None,
        tested=passed_test(facts) is not None,
        wiring_work=any(m.circuit in _MAINS_SIDE for m in facts.modifications),
        transit_lock=facts.transit_lock is not TransitLock.NONE,
        posted=facts.by_post,
    )


def passed_test(facts: JobFacts) -> SafetyTestFact | None:
    """The safety test that stands; "tested" is said of no other."""
    return safety_standing(facts.mains_class, facts.case_events, facts.safety_tests).test


def _raised(m: Modification) -> bool:
    """A rail above the maker's voltage, or one of which that is not known."""
    if m.kind is not Kind.SUPPLY:
        return False
    return m.maker_value is None or m.new_value is None or abs(m.new_value) > abs(m.maker_value)
