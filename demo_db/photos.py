"""Photos for the demo shop, drawn here: a corner of a board with one resistor, its value in coloured rings."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from app.work.bench.files import attach_file

WIDE, HIGH = 960, 640
BOARD, TRACK, PRINT, JOINT = (38, 74, 52), (52, 96, 68), (222, 224, 206), (186, 190, 192)
BODY, SHADE, LIGHT = (214, 190, 150), (150, 128, 96), (238, 222, 192)
# Colours of the figures 0 to 9, and gold for a tenth and for 5 % (IEC 60062).
RINGS = (
    (24, 22, 20), (104, 62, 34), (186, 34, 30), (222, 108, 24), (228, 196, 40),
    (52, 128, 62), (42, 78, 160), (118, 66, 140), (122, 122, 120), (236, 234, 228),
)  # fmt: skip
GOLD = (176, 136, 52)


def rings_of(ohms: Decimal) -> tuple[tuple[int, int, int], ...]:
    """The rings of a resistor from 1 to below 10 ohm, two figures, 5 %: figures, times a tenth, tolerance."""
    figures = int(ohms * 10)
    if figures != ohms * 10 or not 10 <= figures <= 99:
        raise ValueError(f"no two figures below 10 ohm: {ohms}")
    return RINGS[figures // 10], RINGS[figures % 10], GOLD, GOLD


def draw_resistor(path: Path, part: str, ohms: Decimal) -> None:
    """Draw the photo into a JPEG file."""
    from PIL import Image, ImageDraw, ImageFilter

    picture = Image.new("RGB", (WIDE, HIGH), BOARD)
    pen = ImageDraw.Draw(picture)
    for step in range(9):
        y = 40 + 70 * step
        pen.line(
            [(0, y), (220 + 20 * (step % 3), y), (300 + 20 * (step % 3), y + 46), (WIDE, y + 46)], TRACK, 14
        )
    for x in (170, 790):
        pen.ellipse([x - 34, 300, x + 34, 368], JOINT)
        pen.ellipse([x - 13, 321, x + 13, 347], SHADE)
    pen.line([(170, 334), (790, 334)], JOINT, 12)
    pen.rounded_rectangle([302, 282, 678, 402], 54, SHADE)
    pen.rounded_rectangle([300, 268, 676, 388], 54, BODY)
    pen.rounded_rectangle([330, 278, 646, 296], 9, LIGHT)
    for x, ring in zip((352, 418, 484, 596), rings_of(ohms), strict=True):
        pen.rectangle([x, 268, x + 30, 388], ring)
    picture = picture.filter(ImageFilter.GaussianBlur(1.6))  # a little out of focus, as photos of boards are
    ImageDraw.Draw(picture).text((410, 428), part, PRINT, _print())
    picture.save(path, "JPEG", quality=82)


def _print() -> Any:
    from PIL import ImageFont

    font = Path(__file__).parents[1] / "assets" / "fonts" / "DejaVuSans.ttf"
    return ImageFont.truetype(font, 58)


def photo(shop: Any, job: int, part: str, ohms: str, note: str, *, who: str = "tobbe") -> None:
    """Put such a photo to a job."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / f"{part} {ohms} ohm.jpg"
        draw_resistor(path, part, Decimal(ohms))
        attach_file(shop.book, shop.people[who], job, path, note=note)
