"""What each rule looks at and which flags it raises, so that only those are asked that a change could alter."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Set
from dataclasses import dataclass

from app.trade.bench import flags_coil, flags_job, flags_laser, flags_safety
from app.trade.bench.facts import JobFacts
from app.trade.bench.flag import FlagRaised
from app.trade.bench.thresholds import Thresholds

Ask = Callable[[JobFacts, Thresholds], Iterator[FlagRaised]]


@dataclass(frozen=True, slots=True)
class Reach:
    """``says``: ids of the flags that the rule may raise. ``looks_at``: fields of `JobFacts`."""

    says: frozenset[str]
    looks_at: frozenset[str]


def _reach(says: str, looks_at: str) -> Reach:
    return Reach(frozenset(says.split()), frozenset(looks_at.split()))


# `pile` is no rule of its own: it counts the cautions that the others raise.
REACH: dict[Ask, Reach] = {
    flags_safety.interlock: _reach("interlock", "modifications asked"),
    flags_safety.fuse: _reach("fuse", "modifications"),
    flags_safety.mains_wiring: _reach("mains_wiring", "modifications mains_class safety_tests"),
    flags_safety.earth: _reach("earth", "modifications mains_class safety_tests readings"),
    flags_safety.safety_part: _reach("safety_part", "modifications mains_class safety_tests"),
    flags_safety.safety_failed: _reach("safety_failed", "safety_tests"),
    flags_coil.part_load: _reach("part_over part_warm", "modifications"),
    flags_coil.coil_up: _reach("coil_up coil_up_big", "modifications"),
    flags_coil.coil_hot: _reach("coil_hot", "readings"),
    flags_coil.stacked: _reach("stacked", "modifications"),
    flags_coil.supply_changed: _reach("supply_changed", "modifications"),
    flags_laser.laser_up: _reach("laser_up laser_up_big", "modifications trials readings laser_label"),
    flags_laser.trimmer_blind: _reach("trimmer_blind", "modifications trials readings"),
    flags_laser.other_type: _reach("other_type", "modifications other_types"),
    flags_job.unknown_mod: _reach("unknown_mod", "modifications"),
    flags_job.finals: _reach("final_outside final_close", "readings"),
    flags_job.beyond_agreed: _reach("beyond_agreed", "agreed work_so_far"),
    flags_job.comeback: _reach("comeback", "comeback"),
    flags_job.disc_inside: _reach("disc_inside", "discs"),
    flags_job.transit_lock: _reach("transit_lock", "transit_lock by_post stage powered"),
    flags_job.cal_overdue: _reach("cal_overdue", "instruments today"),
    flags_job.unpaid: _reach("unpaid", "balance"),
}


def asked_about(fields: Set[str]) -> tuple[Ask, ...]:
    """The rules that look at any of these fields of the facts."""
    return tuple(ask for ask, reach in REACH.items() if reach.looks_at & fields)
