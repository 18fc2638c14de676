"""The job's number in the largest type of its paper, and with it its codes."""

from __future__ import annotations

from dataclasses import dataclass

from app.papers.blocks import Whole
from app.papers.codes import draw_bars, draw_qr, job_code, qr_side
from app.papers.pen import POINT, Pen
from app.papers.text import ASCENT, Style, fitted

QR_MODULE, BAR, BAR_HEIGHT = 0.72, 0.34, 7.2  # of the customer's half
BEARING = 0.6  # white at the left of a large figure, mm at 46 points


def draw_job_number(pen: Pen, job: int, x: float, baseline: float, size: float, width: float) -> float:
    """Draws the number with its left edge at x, no wider than ``width``; returns its width in mm."""
    block = fitted(str(job), Style(size, size * 0.3, bold=True), width)
    shown = block.style.size
    block.draw(pen, x - BEARING * shown / 46, baseline - ASCENT * shown * POINT)
    return block.widest


@dataclass(frozen=True)
class Codes(Whole):
    """Job number, QR at the right, Code 128 below the number."""

    job: int
    width: float

    height: float = 22.4

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Number and codes keep their quiet zones."""
        code = job_code(self.job)
        side = qr_side(code, QR_MODULE)
        draw_job_number(pen, self.job, x, top + 12.9, 46, self.width - side - 4 * QR_MODULE)
        draw_qr(pen, code, x + self.width - side, top, QR_MODULE)
        draw_bars(pen, code, x, top + 15.2, BAR, BAR_HEIGHT)
