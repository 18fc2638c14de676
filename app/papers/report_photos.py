"""The photos that were chosen for a service report, small, each with its words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.papers.blocks import Beside, Block, Gap, Stack, Whole
from app.papers.pen import Pen
from app.papers.service_report_facts import Photo
from app.papers.text import FINE, set_text

PHOTO_HIGH, IN_A_ROW, PHOTOS_APART = 40.0, 3, 4.0


@dataclass(frozen=True)
class Picture(Whole):
    """One photo in the room it has, at its left; as high as it comes out."""

    data: str
    width: float
    height: float

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draws it."""
        pen.picture(self.data, x, top, self.width, self.height)


def photo_rows(photos: Sequence[Photo], width: float) -> list[Block]:
    """Photos three in a row, each with its words below; a picture stays with them."""
    room = (width - (IN_A_ROW - 1) * PHOTOS_APART) / IN_A_ROW
    blocks = [_photo(photo, room) for photo in photos]
    return [
        _Kept(
            Beside(
                tuple(
                    (i * (room + PHOTOS_APART), block) for i, block in enumerate(blocks[at : at + IN_A_ROW])
                )
            )
        )
        for at in range(0, len(blocks), IN_A_ROW)
    ]


@dataclass(frozen=True)
class _Kept(Whole):
    """Blocks that are never split."""

    inside: Beside

    @property
    def height(self) -> float:
        return self.inside.height

    def draw(self, pen: Pen, x: float, top: float) -> None:
        self.inside.draw(pen, x, top)


def _photo(photo: Photo, width: float) -> Stack:
    across, down = Pen.size_of(photo.picture)
    scale = min(width / across, PHOTO_HIGH / down)
    parts: list[Block] = [Picture(photo.picture, across * scale, down * scale)]
    if photo.caption:
        parts += [Gap(0.8), set_text(photo.caption, FINE, width)]
    return Stack(tuple(parts))
