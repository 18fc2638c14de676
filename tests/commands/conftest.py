"""The shop of app.work's tests, for the command line."""

from __future__ import annotations

from tests.work.conftest import cheap_pins, shop_template

__all__ = ["cheap_pins", "shop_template"]
