"""Which changes part a run of readings in two, so that no line is laid across them (common practice, no source)."""

from __future__ import annotations

from app.trade.bench.modifications import Circuit

LASER = frozenset({"laser_current", "laser_label", "laser_rel", "optical_power"})
_LIGHT = LASER | {"s_curve", "hf_eye", "eye_opening", "jitter", "radial_error", "wobble_amp"}
_RADIAL = frozenset(
    {"radial_drive", "coil_current", "radial_offset", "seek_time", "home_time", "driver_temp"}
)
_FOCUS = frozenset({"focus_drive", "focus_offset", "s_curve", "driver_temp"})
_LOOPS = frozenset({"radial_drive", "focus_drive", "dropout_passed", "jitter", "seek_time"})
_RAILS = frozenset({"rail_dc", "rail_ripple", "unit_power", "driver_temp", "motor_v"})
_SHAPE = frozenset(
    {
        "tilt_rad",
        "tilt_tan",
        "tilt_angle",
        "spindle_height",
        "spindle_play",
        "disc_runout",
        "arm_start_current",
    }
)
_SHAPE |= {"load_time", "home_time", "seek_time", "sled_current", "jitter", "hf_eye", "c1_outer"}
_SIGNAL = frozenset({"hf_eye", "eye_opening", "jitter", "audio_level", "audio_balance"})
_ACTS_ON: dict[Circuit, frozenset[str]] = {
    Circuit.LASER_SUPPLY: _LIGHT,
    Circuit.RADIAL_COIL: _RADIAL,
    Circuit.FOCUS_COIL: _FOCUS,
    Circuit.SERVO_GAIN: _LOOPS,
    Circuit.SUPPLY_RAIL: _RAILS,
    Circuit.MECHANICS: _SHAPE,
    Circuit.SIGNAL: _SIGNAL,
}


def change_parts(quantity: str, circuit: Circuit) -> bool:
    """Whether a modification of this circuit, made or put back, moves the quantity by itself."""
    return quantity in _ACTS_ON.get(circuit, frozenset())


def renewal_parts(quantity: str, new_label: bool) -> bool:
    """Whether a renewed part of the transport begins the quantity anew. Laser current and light follow the diode,
    and a new diode brings a new label; everything else may hang on any part."""
    return new_label if quantity in LASER else True
