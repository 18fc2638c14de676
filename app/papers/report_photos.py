"""The photos that were chosen for a service report: equally high beside each other, each with its words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from app.papers.blocks import Beside, Block, Gap, Stack, Whole
from app.papers.pen import Pen
from app.papers.service_report_facts import Photo
from app.papers.text import FINE, set_text

PHOTO_HIGH, PHOTOS_APART = 32.0, 4.0
LEAST_WORDS = 30.0  # the words below a narrow picture take so much at least


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
    """As many photos in a row as have room there; a picture stays with its words."""
    return [_Kept(Beside(tuple(row))) for row in _rows(photos, width)]


def _rows(photos: Sequence[Photo], width: float) -> Iterator[list[tuple[float, Block]]]:
    row: list[tuple[float, Block]] = []
    across = 0.0
    for photo in photos:
        room, block = _photo(photo, width)
        if row and across + room > width + 0.01:
            yield row
            row, across = [], 0.0
        row.append((across, block))
        across += room + PHOTOS_APART
    if row:
        yield row


@dataclass(frozen=True)
class _Kept(Whole):
    """Blocks that are never split."""

    inside: Beside

    @property
    def height(self) -> float:
        return self.inside.height

    def draw(self, pen: Pen, x: float, top: float) -> None:
        self.inside.draw(pen, x, top)


def _photo(photo: Photo, width: float) -> tuple[float, Stack]:
    """A photo with its words, and how much room it takes across."""
    across, down = Pen.size_of(photo.picture)
    scale = min(width / across, PHOTO_HIGH / down)
    picture = Picture(photo.picture, across * scale, down * scale)
    if not photo.caption:
        return picture.width, Stack((picture,))
    room = max(picture.width, LEAST_WORDS)
    return room, Stack((picture, Gap(0.8), set_text(photo.caption, FINE, room)))
