"""Panels on the page: which stand beside each other, and that none is parted from its head."""

from __future__ import annotations

from datetime import UTC

from app.papers.blocks import Beside
from app.papers.plots.picture_blocks import Headed, panel_block, picture_blocks
from app.trade.wording import plain
from tests.papers.plots.panels import bars, course, curves, grid, pareto, picture, rates

WORDS = plain(UTC)


def shapes(*panels):
    return [type(block) for block in picture_blocks(picture(*panels), 175.0, WORDS)]


def test_bars_without_intervals_that_follow_each_other_share_a_line():
    assert shapes(bars(), pareto(), bars()) == [Beside, Headed]
    assert shapes(curves(), bars(), course(), pareto(), bars()) == [Headed, Headed, Headed, Beside]
    assert shapes(rates(), rates(), grid()) == [Headed, Headed, Headed]
    assert shapes() == []


def test_a_panel_is_never_split():
    for panel in (bars(), curves(), course(), grid()):
        assert panel_block(panel, 175.0, WORDS).split(20.0) is None


def test_two_beside_each_other_have_the_width_of_one():
    (pair,) = picture_blocks(picture(bars(), bars()), 175.0, WORDS)
    (first, _), (second, block) = pair.columns
    assert first == 0.0
    assert second + block.body.width == 175.0
