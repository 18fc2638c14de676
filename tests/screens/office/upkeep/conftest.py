"""The window of the Office's tests, for the pages that care for the book."""

from __future__ import annotations

from tests.screens.office.conftest import office
from tests.work.conftest import cheap_pins, shop, shop_template
from tests.work.office.conftest import bench, worked

__all__ = ["bench", "cheap_pins", "office", "shop", "shop_template", "worked"]
