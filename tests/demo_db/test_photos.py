"""Photos that are drawn for the demo shop."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest
from PIL import Image

from demo_db.photos import GOLD, RINGS, draw_resistor, rings_of


def test_a_resistor_wears_the_rings_of_its_value(tmp_path: Path) -> None:
    # IEC 60062, from memory: 6.8 ohm, 5 % is blue, grey, gold, gold; 5.6 ohm green, blue, gold, gold.
    assert rings_of(Decimal("6.8")) == (RINGS[6], RINGS[8], GOLD, GOLD)
    assert rings_of(Decimal("5.6")) == (RINGS[5], RINGS[6], GOLD, GOLD)
    draw_resistor(tmp_path / "r.jpg", "R314", Decimal("6.8"))
    with Image.open(tmp_path / "r.jpg") as picture:
        assert picture.format == "JPEG"
        red, _, blue = picture.convert("RGB").getpixel((367, 330))  # in the first ring
        assert blue > red + 60


@pytest.mark.parametrize("ohms", ["0.5", "10", "5.65"])
def test_other_values_have_no_such_rings(ohms: str) -> None:
    with pytest.raises(ValueError, match="two figures"):
        rings_of(Decimal(ohms))
