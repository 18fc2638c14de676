"""What a change of the list usually leaves in the player, where it leaves a modification: the form begins there."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from app.trade.bench.modifications import Circuit, Kind


@dataclass(frozen=True)
class UsualModification:
    """Where the entry of a modification begins; the technician alters it."""

    kind: Kind
    circuit: Circuit


_TRIMMED = UsualModification(Kind.TRIMMER, Circuit.SERVO_GAIN)
_FITTED = UsualModification(Kind.OTHER_TYPE, Circuit.OTHER)
_MOVED = UsualModification(Kind.MECHANICAL, Circuit.MECHANICS)
_MECHANISM = UsualModification(Kind.OTHER_TYPE, Circuit.MECHANICS)

# By the changes as they ship; common practice, no source.
USUAL: Mapping[str, UsualModification] = {
    "coil_current": UsualModification(Kind.REPLACED, Circuit.RADIAL_COIL),
    "laser_set": UsualModification(Kind.TRIMMER, Circuit.LASER_SUPPLY),
    "laser_supply_fix": UsualModification(Kind.OTHER_TYPE, Circuit.LASER_SUPPLY),
    "focus_set": _TRIMMED,
    "radial_set": _TRIMMED,
    "grating_set": _MOVED,
    "tilt_set": _MOVED,
    "height_set": _MOVED,
    "belt": _MECHANISM,
    "foam": _MECHANISM,
    "gear_renew": _MECHANISM,
    "mains_part": UsualModification(Kind.OTHER_TYPE, Circuit.MAINS),
    "supply_caps": UsualModification(Kind.OTHER_TYPE, Circuit.SUPPLY_RAIL),
    "regulator": UsualModification(Kind.OTHER_TYPE, Circuit.SUPPLY_RAIL),
    "decoder": UsualModification(Kind.OTHER_TYPE, Circuit.SIGNAL),
    "audio_fix": UsualModification(Kind.OTHER_TYPE, Circuit.SIGNAL),
    **dict.fromkeys(
        (
            "driver_renew",
            "flex_renew",
            "load_motor",
            "logic_fix",
            "pickup_renew",
            "servo_caps",
            "servo_part",
            "sled_motor",
            "spindle_renew",
            "transport_swap",
        ),
        _FITTED,
    ),
}


def usual_of(change: str) -> UsualModification | None:
    """What this change usually leaves; None for one that leaves nothing, or one of the shop's own."""
    return USUAL.get(change)
