"""What counts as a comeback."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from app.trade.bench.kinds import FaultGroup
from app.trade.bench.stages import Outcome
from app.trade.statistics.comebacks import By, Counted, Repair, Standing, count, label_of, standing

BACK = date(2026, 1, 10)
RADIAL = frozenset({FaultGroup.RADIAL, FaultGroup.LIGHT})
REPAIR = Repair(
    job=2131,
    unit_id=1,
    transport_id=7,
    transport_type="Velk A1",
    group=FaultGroup.RADIAL,
    handed_back=BACK,
    outcome=Outcome.MENDED,
    modified=False,
    observed_until=date(2026, 12, 31),
)


def back_after(days: int, groups: frozenset[FaultGroup] = RADIAL) -> Repair:
    return replace(REPAIR, next_in=BACK + timedelta(days=days), next_groups=groups)


@pytest.mark.parametrize(
    ("repair", "expected"),
    [
        (REPAIR, Standing.HELD),
        (back_after(0), Standing.CAME_BACK),
        (back_after(180), Standing.CAME_BACK),
        (back_after(181), Standing.HELD),
        (back_after(10, frozenset({FaultGroup.SOUND})), Standing.HELD),
        (back_after(10, frozenset()), Standing.HELD),
        (replace(back_after(10), group=None), Standing.HELD),
        (replace(back_after(10), outcome=Outcome.MENDED_MODIFIED), Standing.CAME_BACK),
        (replace(back_after(10), outcome=Outcome.DECLINED), Standing.NOT_MENDED),
        (replace(back_after(10), outcome=Outcome.NO_FAULT_SHOWN), Standing.NOT_MENDED),
        (replace(REPAIR, observed_until=BACK + timedelta(days=180)), Standing.HELD),
        (replace(REPAIR, observed_until=BACK + timedelta(days=179)), Standing.TOO_YOUNG),
        # Came back early, but was not watched for the whole window: counting it would raise every rate.
        (replace(back_after(10), observed_until=BACK + timedelta(days=20)), Standing.TOO_YOUNG),
        (back_after(-1), Standing.SET_ASIDE),
        (replace(REPAIR, observed_until=BACK - timedelta(days=1)), Standing.SET_ASIDE),
    ],
)
def test_each_repair_stands_where_the_definition_puts_it(repair: Repair, expected: Standing) -> None:
    assert standing(repair, 180) is expected


def test_any_fault_may_be_asked_for_instead_of_the_same_group() -> None:
    other = back_after(10, frozenset({FaultGroup.SOUND}))
    assert standing(other, 180, same_group=False) is Standing.CAME_BACK
    assert standing(replace(other, group=None), 180, same_group=False) is Standing.CAME_BACK


def test_a_repair_belongs_to_one_group_of_each_kind() -> None:
    assert label_of(REPAIR, By.TRANSPORT_TYPE) == "Velk A1"
    assert label_of(replace(REPAIR, transport_type=""), By.TRANSPORT_TYPE) == "not known"
    assert label_of(REPAIR, By.FAULT_GROUP) == "radial"
    assert label_of(replace(REPAIR, group=None), By.FAULT_GROUP) == "not known"
    assert label_of(REPAIR, By.MODIFICATION) == "without"
    assert label_of(replace(REPAIR, modified=True), By.MODIFICATION) == "with"
    with pytest.raises(ValueError):
        label_of(REPAIR, By.TECHNICIAN)


def test_every_repair_is_accounted_for() -> None:
    repairs = [
        REPAIR,
        back_after(10),
        replace(back_after(10), outcome=Outcome.REFUSED),
        replace(REPAIR, observed_until=BACK),
        back_after(-5),
        replace(REPAIR, transport_type="Murn A7"),
    ]
    assert count(repairs, By.TRANSPORT_TYPE, 180) == (
        Counted("Murn A7", 1, 0, 0, 0, 1, 0),
        Counted("Velk A1", 5, too_young=1, not_mended=1, set_aside=1, could=2, came_back=1),
    )
    assert count([], By.FAULT_GROUP, 30) == ()
