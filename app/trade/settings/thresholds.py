"""The rules' thresholds as the shop has set them."""

from __future__ import annotations

from app.trade.bench.thresholds import Thresholds
from app.trade.settings.bench import (
    CALIBRATION_GRACE,
    FLAG_AGREED_SHARE,
    FLAG_COIL_HOT,
    FLAG_COIL_UP,
    FLAG_COIL_UP_BIG,
    FLAG_LASER_UP,
    FLAG_LASER_UP_BIG,
    FLAG_PART_WARM,
    FLAG_PILE,
    FLAG_SUPPLY,
    FLAG_SUPPLY_BIG,
)
from app.trade.settings.shop_settings import ShopSettings
from app.trade.settings.terms import COMEBACK_WINDOW


def thresholds_of(settings: ShopSettings) -> Thresholds:
    """The thresholds that the rules are asked with."""
    return Thresholds(
        coil_up=settings[FLAG_COIL_UP],
        coil_up_big=settings[FLAG_COIL_UP_BIG],
        coil_hot=settings[FLAG_COIL_HOT],
        laser_up=settings[FLAG_LASER_UP],
        laser_up_big=settings[FLAG_LASER_UP_BIG],
        part_warm=settings[FLAG_PART_WARM],
        supply_changed=settings[FLAG_SUPPLY],
        supply_changed_big=settings[FLAG_SUPPLY_BIG],
        beyond_agreed_from=settings[FLAG_AGREED_SHARE],
        pile=settings[FLAG_PILE],
        comeback_days=settings[COMEBACK_WINDOW],
        calibration_grace_days=settings[CALIBRATION_GRACE],
    )
