"""Our own line drawings, in the ink of the word beside them."""

from __future__ import annotations

import re

import pytest
from PySide6.QtGui import QColor

from app.screens.kit import icons
from app.screens.kit.icons import ICONS, icon, icon_pixmap
from app.screens.kit.palette import LIGHT

NAMES = sorted(path.stem for path in ICONS.glob("*.svg"))


def test_there_are_some() -> None:
    assert {"find", "print", "player", "transport"} <= set(NAMES)


@pytest.mark.parametrize("name", NAMES)
def test_it_has_the_box_and_stroke_of_all_the_others(name: str) -> None:
    drawing = (ICONS / f"{name}.svg").read_text("utf-8")
    assert 'viewBox="0 0 20 20"' in drawing
    assert 'stroke-width="1.5"' in drawing
    assert 'fill="none"' in drawing
    assert not re.search(r"#[0-9A-Fa-f]{3,8}", drawing)


@pytest.mark.parametrize("name", NAMES)
def test_it_is_drawn_in_the_ink_asked_for_and_sharp(name: str) -> None:
    pixmap = icon_pixmap(name, 20, "stop", 2.0)
    assert pixmap.width() == 40
    assert pixmap.devicePixelRatio() == 2
    image = pixmap.toImage()
    full = [c for x in range(40) for y in range(40) if (c := image.pixelColor(x, y)).alpha() == 255]
    assert full
    assert {c.name() for c in full} == {QColor(LIGHT.stop).name()}


def test_menus_get_several_scales() -> None:
    assert len(icon("print").availableSizes()) >= 2
    icons.forget()
