"""The job's number in the largest type of its paper, standing on a baseline."""

from __future__ import annotations

from app.papers.pen import POINT, Pen
from app.papers.text import ASCENT, Style, fitted

BEARING = 0.6  # white at the left of a large figure, mm at 46 points


def draw_job_number(pen: Pen, job: int, x: float, baseline: float, size: float, width: float) -> float:
    """Draws the number with its left edge at x, no wider than ``width``; returns its width in mm."""
    block = fitted(str(job), Style(size, size * 0.3, bold=True), width)
    shown = block.style.size
    block.draw(pen, x - BEARING * shown / 46, baseline - ASCENT * shown * POINT)
    return block.widest
