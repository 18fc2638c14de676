"""What counts as a comeback: a repair whose player came in again with the same fault group within the window."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from app.trade.bench.kinds import FaultGroup
from app.trade.bench.stages import Outcome
from app.trade.sentence import words

# These jobs were mended; the others could not come back as a repair that failed.
MENDED = frozenset({Outcome.MENDED, Outcome.MENDED_MODIFIED})


class By(StrEnum):
    """What repairs are grouped by."""

    TRANSPORT_TYPE = words("transport type")
    FAULT_GROUP = words("fault group")
    MODIFICATION = words("modification inside")
    ARRANGEMENT = words("arrangement")
    MAKER = words("maker")
    MODEL = words("model")
    CAUSE = words("cause found")
    CHANGE = words("kind of change")
    TECHNICIAN = words("technician")


WITH, WITHOUT, UNKNOWN = words("with"), words("without"), words("not known")


@dataclass(frozen=True, slots=True)
class Repair:
    """One job that was handed back.

    ``next_in`` is the first later day on which the unit (or the transport, if that is followed) was taken in
    with something that can count; ``next_groups`` what that visit's fault was, or may turn out to be.
    ``observed_until`` is the last day on which a return would have been seen.
    """

    job: int
    unit_id: int
    transport_id: int | None
    transport_type: str
    group: FaultGroup | None
    handed_back: date
    outcome: Outcome
    modified: bool  # a non-standard modification was left inside
    observed_until: date
    next_in: date | None = None
    next_groups: frozenset[FaultGroup] = frozenset()


class Standing(StrEnum):
    """What one repair says about comebacks."""

    CAME_BACK = words("came back")
    HELD = words("held")
    NOT_MENDED = words("not mended")
    TOO_YOUNG = words("watched too short")
    SET_ASIDE = words("set aside")  # its days cannot be right


def standing(repair: Repair, window: int, *, same_group: bool = True) -> Standing:
    """Where one repair stands under this definition; ``window`` in days, both ends counted.

    Only repairs watched for the whole window count, also those that came back sooner: counting early returns
    of young repairs, and not their silence, would make every rate too high.
    """
    return stands(
        repair.handed_back,
        repair.outcome,
        repair.group,
        repair.observed_until,
        repair.next_in,
        repair.next_groups,
        window,
        same_group,
    )


def stands(
    handed_back: date,
    outcome: Outcome,
    group: FaultGroup | None,
    observed_until: date,
    next_in: date | None,
    next_groups: frozenset[FaultGroup],
    window: int,
    same_group: bool = True,
    counted: frozenset[Outcome] = MENDED,
) -> Standing:
    """The same from plain values, for a hundred thousand of them. Only outcomes ``counted`` can come back."""
    if observed_until < handed_back or (next_in is not None and next_in < handed_back):
        return Standing.SET_ASIDE
    if outcome not in counted:
        return Standing.NOT_MENDED
    if (observed_until - handed_back).days < window:
        return Standing.TOO_YOUNG
    if next_in is None or (next_in - handed_back).days > window:
        return Standing.HELD
    if same_group and group not in next_groups:
        return Standing.HELD
    return Standing.CAME_BACK


def label_of(repair: Repair, by: By) -> str:
    """The group a repair belongs to: a transport type's name, a fault group, with or without. Raises ValueError for
    what stands on the job and not on the repair."""
    if by is By.TRANSPORT_TYPE:
        return repair.transport_type or UNKNOWN
    if by is By.FAULT_GROUP:
        return UNKNOWN if repair.group is None else repair.group.value
    if by is By.MODIFICATION:
        return WITH if repair.modified else WITHOUT
    raise ValueError(f"a repair does not say its {by}")


@dataclass(frozen=True, slots=True)
class Counted:
    """One group, counted: ``came_back`` of ``could`` repairs; what was handed back and does not count, and why."""

    label: str
    handed_back: int
    too_young: int
    not_mended: int
    set_aside: int
    could: int
    came_back: int


def count(repairs: Iterable[Repair], by: By, window: int, *, same_group: bool = True) -> tuple[Counted, ...]:
    """Every group that has a repair, in the order of its label."""
    tally: defaultdict[str, Counter[Standing]] = defaultdict(Counter)
    for repair in repairs:
        tally[label_of(repair, by)][standing(repair, window, same_group=same_group)] += 1
    return counted(tally)


def counted(tally: Mapping[str, Mapping[Standing, int]]) -> tuple[Counted, ...]:
    """Every group of a tally of standings, in the order of its label."""
    return tuple(
        Counted(
            label,
            handed_back=sum(seen.values()),
            too_young=seen.get(Standing.TOO_YOUNG, 0),
            not_mended=seen.get(Standing.NOT_MENDED, 0),
            set_aside=seen.get(Standing.SET_ASIDE, 0),
            could=seen.get(Standing.CAME_BACK, 0) + seen.get(Standing.HELD, 0),
            came_back=seen.get(Standing.CAME_BACK, 0),
        )
        for label, seen in sorted(tally.items())
    )
