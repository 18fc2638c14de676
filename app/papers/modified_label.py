"""The label inside the cover of a modified player, 70 x 36 mm in one colour."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.papers.blocks import Whole
from app.papers.codes import draw_qr, job_code, qr_side
from app.papers.facts import Sign
from app.papers.flow import Page
from app.papers.labels_facts import ModifiedLabelFacts
from app.papers.line_breaks import Run
from app.papers.pen import INK, Pen
from app.papers.said import worded
from app.papers.sheet import Format, made
from app.papers.signs import draw_sign
from app.papers.text import Style, TextBlock, cut, fitted, set_text
from app.trade.wording import Wording

SMALL_LABEL, SIDE = Format(70, 36), 3.0
QR_SMALL = 0.60
SMALL = Style(9.5, 4.6)


def modified_label(facts: ModifiedLabelFacts, wording: Wording) -> bytes:
    """The PDF of the label inside the cover, 70 x 36 mm."""
    page = Page()
    page.put(ModifiedLabel(facts, wording), 0, 0)
    return made([page], SMALL_LABEL, wording("Modified {job}", job=str(facts.job)), facts.sheet, wording)


@dataclass(frozen=True)
class ModifiedLabel(Whole):
    """70 x 36 mm, one colour: sign, word, job and date, code; what, factors, how to undo."""

    facts: ModifiedLabelFacts
    wording: Wording

    height: float = 36.0

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draws the label; its three lines become smaller, then wrap, before anything is left out."""
        facts, wording, left = self.facts, self.wording, SIDE
        width = SMALL_LABEL.width - 2 * SIDE
        code = job_code(facts.job)
        side = qr_side(code, QR_SMALL)
        draw_sign(pen, Sign.GENERAL, left, 3.2, 12.0, colour=False)
        draw_qr(pen, code, left + width - side, SIDE, QR_SMALL)
        room = width - 14.4 - side - 4 * QR_SMALL
        fitted(wording("Modified"), Style(17, 6, bold=True), room).draw(pen, left + 14.4, 2.6)
        about = wording("job {job} · {day}", job=str(facts.job), day=facts.day)
        fitted(about, SMALL, room).draw(pen, left + 14.4, 10.0)
        pen.rule(left, 18.9, width, 0.9, INK)
        what = [Run(worded(facts.what, wording), bold=True), Run(wording(", not the design:"))]
        factors = worded(facts.factors, wording)
        undo = worded(facts.undo, wording)
        texts = [what, [Run(factors)], [Run(wording("to undo: {way}", way=undo))] if undo else []]
        at = 19.9
        for block in _lines_of(texts, width):
            block.draw(pen, left, at)
            at += block.height


def _lines_of(texts: Sequence[Sequence[Run]], width: float) -> list[TextBlock]:
    """Three lines, else four smaller ones; what is longer ends in an ellipsis, its paper has it in full."""
    shown = [text for text in texts if any(run.text for run in text)]
    blocks = [set_text(text, SMALL, width) for text in shown]
    if sum(len(block.lines) for block in blocks) <= 3:
        return blocks
    small, free = Style(9, 3.6), 4 - len(shown)
    blocks = []
    for text in shown:
        blocks.append(cut(text, small, width, 1 + max(0, free)))
        free -= len(blocks[-1].lines) - 1
    return blocks
