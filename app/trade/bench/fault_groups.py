"""Fault groups: what each of the thirteen words means, and which one a stopped start-up proposes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from app.trade.bench.data_record import Record
from app.trade.bench.kinds import FaultGroup
from app.trade.bench.quantities import HIGHEST_RUNG
from app.trade.sentence import Sentence


@dataclass(frozen=True)
class DefaultGroup:
    """The group proposed when a rung is the first not reached; ``no_time`` where the running time did not
    run, for the rung at which that tells sound from signal."""

    group: FaultGroup
    no_time: FaultGroup


@dataclass(frozen=True)
class FaultGroups:
    """``meaning``: what belongs to each group. ``defaults``: by rung, 1 to 12."""

    meaning: Mapping[FaultGroup, str]
    defaults: Mapping[int, DefaultGroup]

    def proposed(self, first_not_reached: int | None, time_runs: bool = True) -> FaultGroup:
        """The group proposed from the first rung not reached; a player that plays to the end gives none of
        the parts, hence ``other``. The technician corrects it."""
        if first_not_reached is None:
            return FaultGroup.OTHER
        default = self.defaults[first_not_reached]
        return default.group if time_runs else default.no_time


def read_fault_groups(data: object) -> FaultGroups:
    """The lists from parsed JSON (assets/bench/lists.json). Refusal where a group or a rung is missing, twice,
    or not known."""
    whole = Record(data, "lists")
    meaning = {_group(record, "id"): record.text("words") for record in whole.records("fault_groups")}
    if list(meaning) != list(FaultGroup) or len(whole.list_of("fault_groups")) != len(FaultGroup):
        whole.refuse(Sentence("the fault groups are not the thirteen in their order"))
    defaults = {
        record.whole("rung", 1, HIGHEST_RUNG): DefaultGroup(
            group := _group(record, "group"), _group(record, "no_time") if record.has("no_time") else group
        )
        for record in whole.records("default_groups", "rung")
    }
    if list(defaults) != list(range(1, HIGHEST_RUNG + 1)):
        whole.refuse(Sentence("the rungs are not 1 to 12 in their order"))
    whole.done()
    return FaultGroups(meaning, defaults)


def _group(record: Record, key: str) -> FaultGroup:
    group = record.text(key)
    if group not in list(FaultGroup):
        record.refuse(Sentence("{group} is no fault group", {"group": group}))
    return FaultGroup(group)
