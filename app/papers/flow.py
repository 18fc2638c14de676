"""The flow: puts blocks on pages from top to bottom, keeps together what belongs together, loses nothing.

Nothing is drawn while it is placed, so when the first page is drawn the number of pages is known.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from app.papers.blocks import Block, Gap, Stack
from app.papers.pen import Pen
from app.papers.text import TextBlock


class Placed(NamedTuple):
    """A block with its place."""

    x: float
    top: float
    block: Block


@dataclass
class Page:
    """What stands on one page."""

    placed: list[Placed] = field(default_factory=list)

    def put(self, block: Block, x: float, top: float) -> None:
        """Puts a block at a place."""
        self.placed.append(Placed(x, top, block))

    def draw(self, pen: Pen) -> None:
        """Draws everything."""
        for x, top, block in self.placed:
            block.draw(pen, x, top)


class Flow:
    """Pages being filled. ``first`` and ``later`` are the tops of the type area, ``bottom`` its foot, in mm."""

    def __init__(self, left: float, width: float, first: float, later: float, bottom: float) -> None:
        self.left = left
        self.width = width
        self.later = later
        self.bottom = bottom
        self.top = first
        self.pages = [Page()]

    @property
    def room(self) -> float:
        """Height left on this page."""
        return self.bottom - self.top

    @property
    def whole(self) -> float:
        """Height of a whole later page."""
        return self.bottom - self.later

    @property
    def fresh(self) -> bool:
        """Whether nothing stands on this page yet."""
        return not self.pages[-1].placed

    def turn(self) -> None:
        """Begins a new page."""
        self.pages.append(Page())
        self.top = self.later

    def put(self, block: Block, above: float = 0.0) -> None:
        """Places a block whole, on the next page if it does not fit here; one higher than a page is split."""
        if not self.fresh:
            if above + block.height > self.room + 0.01 and block.height <= self.whole:
                self.turn()
            elif above + block.height <= self.room + 0.01 or block.split(self.room - above) is not None:
                self.top += above
            else:
                self.turn()
        self._pour(block)

    def run(self, block: Block, above: float = 0.0) -> None:
        """Places a block, split at the foot of the page where it does not fit: running text."""
        if not self.fresh and above + block.height > self.room + 0.01:
            parts = block.split(self.room - above)
            if parts is None or _stub(block, parts):
                self.turn()
                above = 0.0
        self.top += above if not self.fresh else 0.0
        self._pour(block)

    def _pour(self, block: Block) -> None:
        while block.height > self.room + 0.01:
            parts = block.split(self.room)
            if parts is None:
                if self.fresh:
                    break  # one line is higher than the page: it stands where it is
                self.turn()
                continue
            self._place(parts[0])
            self.turn()
            block = parts[1]
        self._place(block)

    def _place(self, block: Block) -> None:
        self.pages[-1].put(block, self.left, self.top)
        self.top += block.height


def _stub(block: Block, parts: tuple[Block, Block]) -> bool:
    """Whether a split would leave a single line of a paragraph on either side."""
    return isinstance(block, TextBlock) and any(
        isinstance(part, TextBlock) and len(part.lines) < 2 for part in parts
    )


def stack(parts: Sequence[Block], between: float = 0.0) -> Stack:
    """Blocks one below the other with the same gap between."""
    out: list[Block] = []
    for part in parts:
        if out and between:
            out.append(Gap(between))
        out.append(part)
    return Stack(tuple(out))
