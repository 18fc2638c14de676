"""The panels of a picture as blocks under their heads, two narrow ones beside each other where they go together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.papers.blocks import Beside, Block, Whole, section_head
from app.papers.pen import Pen
from app.papers.plots.bars_panel import bars_panel
from app.papers.plots.course_panel import course_panel
from app.papers.plots.curves_panel import curves_panel
from app.papers.plots.grid_panel import grid_panel
from app.trade.statistics.picture import Bars, Course, Curves, Grid, Panel, Picture
from app.trade.wording import Wording

BETWEEN = 7.0  # mm between two beside each other


@dataclass(frozen=True)
class Headed(Whole):
    """A panel under its head, never parted."""

    head: Block
    body: Block

    @property
    def height(self) -> float:
        """Of both."""
        return self.head.height + self.body.height

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Head, then panel."""
        self.head.draw(pen, x, top)
        self.body.draw(pen, x, top + self.head.height)


def panel_block(panel: Panel, width: float, wording: Wording, shrink: float = 1.0) -> Block:
    """One panel under its head; ``shrink`` is what share of its usual height a plot takes."""
    body: Block
    match panel:
        case Bars():
            body = bars_panel(panel, width, wording, shrink)
        case Curves():
            body = curves_panel(panel, width, wording, shrink)
        case Course():
            body = course_panel(panel, width, wording, shrink)
        case Grid():
            body = grid_panel(panel, width, wording)
    return Headed(section_head(wording(panel.title), width, text_from=8.0), body)


def picture_blocks(picture: Picture, width: float, wording: Wording, shrink: float = 1.0) -> list[Block]:
    """Every panel in its order; of bars without intervals that follow each other, two share a line."""
    blocks: list[Block] = []
    for pair in _pairs(picture.panels):
        if len(pair) == 1:
            blocks.append(panel_block(pair[0], width, wording, shrink))
            continue
        half = (width - BETWEEN) / 2
        first, second = (panel_block(panel, half, wording, shrink) for panel in pair)
        blocks.append(Beside(((0.0, first), (half + BETWEEN, second))))
    return blocks


def _pairs(panels: Sequence[Panel]) -> list[tuple[Panel, ...]]:
    pairs: list[tuple[Panel, ...]] = []
    waiting: tuple[Panel, ...] = ()
    for panel in panels:
        if isinstance(panel, Bars) and all(bar.low is None for bar in panel.bars):
            waiting = (*waiting, panel)
            if len(waiting) < 2:
                continue
            pairs.append(waiting)
        else:
            pairs += [waiting, (panel,)] if waiting else [(panel,)]
        waiting = ()
    return [*pairs, waiting] if waiting else pairs
