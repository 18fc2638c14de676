"""The tag for the plug of an unsafe player: cut out, folded round the cord, tied. No name stands on it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.papers.blocks import Whole
from app.papers.codes import draw_qr, job_code, qr_side
from app.papers.facts import FlagLevel
from app.papers.line_breaks import Run
from app.papers.pen import HAIRLINE, INK, LABEL, Pen
from app.papers.said import serial, worded
from app.papers.signs import draw_level
from app.papers.text import FINE, Style, Text, TextBlock, cut, fitted, held, set_text
from app.papers.unsafe_return_facts import UnsafeReturnFacts
from app.trade.wording import Wording

WIDTH, HEIGHT = 178.0, 40.0
SIGN = 20.0
HOLE = 2.4  # radius
QR_MODULE = 0.6


@dataclass(frozen=True)
class PlugTag(Whole):
    """Face 1: sign and words. Face 2: job, code, player, when it may come off."""

    facts: UnsafeReturnFacts
    wording: Wording

    height: float = HEIGHT

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Cut line, fold, holes, both faces."""
        middle = x + WIDTH / 2
        pen.frame(x, top, WIDTH, HEIGHT, 0.8, INK, dash=(1.06, 0.7))
        pen.line(middle, top, middle, top + HEIGHT, 0.6, HAIRLINE, (0.3, 0.7))
        for across in (middle - 6, middle + 6):
            pen.ring(across, top + HEIGHT / 2, HOLE, 0.5, LABEL)
        self._face_one(pen, x + 4, top)
        self._face_two(pen, middle + 12, top)

    def _face_one(self, pen: Pen, x: float, top: float) -> None:
        facts, wording = self.facts, self.wording
        draw_level(pen, FlagLevel.STOP, x, top + 4.6, SIGN)
        beside, room = x + SIGN + 4, WIDTH / 2 - 10 - SIGN - 8
        fitted(wording("Do not use"), Style(22, 8, bold=True), room).draw(pen, beside, top + 5.0)
        fitted(wording("Do not plug in"), Style(14, 5.6, bold=True), room).draw(pen, beside, top + 15.4)
        words = [
            Run(worded(facts.tag_hazard, wording), bold=True),
            Run(" " + worded(facts.tag_risk, wording)),
        ]
        block = _within(words, (Style(10.5, 4.7), FINE, Style(9, 3.6)), WIDTH / 2 - 16, HEIGHT - 28.0)
        block.draw(pen, x, top + 26.6)

    def _face_two(self, pen: Pen, x: float, top: float) -> None:
        facts, wording = self.facts, self.wording
        code = job_code(facts.job)
        side = qr_side(code, QR_MODULE)
        right = x + WIDTH / 2 - 12 - 4
        draw_qr(pen, code, right - side, top + 4, QR_MODULE)
        room = right - side - 4 * QR_MODULE - x
        fitted(wording("Job {job}", job=str(facts.job)), Style(14, 5.8, bold=True), room).draw(
            pen, x, top + 3.0
        )
        held(facts.player.name, FINE, room).draw(pen, x, top + 9.4)
        held(serial(facts.player, wording), FINE, room).draw(pen, x, top + 13.6)
        words = wording(
            "Unrepaired. Only a competent person may make it safe. Take this tag off only after the repair and a "
            "passed safety test."
        )
        block = _within(words, (FINE, Style(9, 3.8)), right - x, HEIGHT - 21.0)
        block.draw(pen, x, top + 19.6)


def _within(words: Text, styles: Sequence[Style], width: float, height: float) -> TextBlock:
    """``words`` in the first style that keeps them within ``height``; in the last one cut, the sheet has them whole."""
    for style in styles:
        block = set_text(words, style, width)
        if block.height <= height:
            return block
    return cut(words, styles[-1], width, int(height / styles[-1].leading))
