"""The rules' thresholds as the shop has set them."""

from __future__ import annotations

from typing import Any

from app.trade.bench.thresholds import Thresholds
from app.trade.settings.bench import THRESHOLD_SETTINGS
from app.trade.settings.shop_settings import ShopSettings
from app.trade.settings.terms import COMEBACK_WINDOW


def thresholds_of(settings: ShopSettings) -> Thresholds:
    """The thresholds that the rules are asked with."""
    numbers: dict[str, Any] = {name: settings[setting] for name, setting in THRESHOLD_SETTINGS.items()}
    return Thresholds(comeback_days=settings[COMEBACK_WINDOW], **numbers)
