"""How large a change is against the maker's value, on a logarithmic rule: a section of the service report."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from app.papers.blocks import Beside, Block, Gap, Stack, Whole, section
from app.papers.flow import stack
from app.papers.line_breaks import Run
from app.papers.pen import HAIRLINE, INK, Pen
from app.papers.said import opening
from app.papers.service_report_facts import RatioRow
from app.papers.text import FINE, FINE_GREY, RIGHT, TABLE, TextBlock, natural, set_text
from app.trade.wording import Wording

RULE, RULE_LEFT = 100.0, 44.0


@dataclass(frozen=True)
class RatioRule(Whole):
    """A logarithmic rule from half to double with the shop's lines; an arrow head beyond its ends."""

    name: TextBlock
    figure: TextBlock
    row: RatioRow
    lines: tuple[tuple[float, TextBlock], ...]  # words over the shop's lines

    @property
    def height(self) -> float:
        """With the words above where there are any."""
        return max(self.name.height, 5.6) + (FINE.leading if self.lines else 0.0)

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Rule, lines, bar from the maker's value to the one now."""
        if self.lines:
            for at, words in self.lines:
                left = x + RULE_LEFT + at * RULE - words.width / 2
                words.draw(pen, left, top)
            top += FINE.leading
        self.name.draw(pen, x, top)
        y = top + 2.8
        left = x + RULE_LEFT
        pen.line(left, y, left + RULE, y, 0.5, HAIRLINE)
        for line in (self.row.caution, self.row.owner):
            if line is not None and 0 <= log_place(line) <= 1:
                at = left + log_place(line) * RULE
                pen.line(at, y - 2.6, at, y + 2.6, 0.5, INK, (0.5, 0.5))
        middle, now = left + RULE / 2, left + min(max(log_place(self.row.ratio), 0.0), 1.0) * RULE
        pen.line(middle, y - 1.9, middle, y + 1.9, 0.9, INK)
        pen.block(min(middle, now), y - 0.75, abs(now - middle), 1.5)
        if 0 <= log_place(self.row.ratio) <= 1:
            pen.disc(now, y, 1.15)
        else:
            way = 2.2 if now > middle else -2.2
            pen.shape([(now + way, y), (now, y - 1.5), (now, y + 1.5)])
        self.figure.draw(pen, x + RULE_LEFT + RULE + 4.0, top)


def log_place(ratio: Decimal) -> float:
    """Where a ratio stands on the rule: half at 0, the maker's value at 0.5, double at 1."""
    return 0.5 + math.log2(float(ratio)) / 2


def ratios_section(ratios: Sequence[RatioRow], width: float, wording: Wording) -> Stack:
    """Each ratio on its rule; the shop's lines are named once over the first that has them."""
    rules: list[Block] = []
    figure_room = width - RULE_LEFT - RULE - 4.0
    for number, row in enumerate(ratios):
        lines: list[tuple[float, TextBlock]] = []
        if not number:
            for word, ratio in ((wording("caution"), row.caution), (wording("owner"), row.owner)):
                if ratio is not None:
                    words = f"{word}\u00a0×\u00a0{wording.number(ratio)}"
                    block = set_text(words, FINE_GREY, natural(words, FINE_GREY) + 0.1)
                    lines.append((log_place(ratio), block))
        figure = Run(f"×\u00a0{wording.number(row.ratio)}", bold=True)
        rules.append(
            RatioRule(
                set_text(opening(row.name, wording), TABLE, RULE_LEFT - 2),
                set_text(figure, TABLE, figure_room, RIGHT),
                row,
                _apart(lines),
            )
        )
    ends = Beside(
        tuple(
            (RULE_LEFT + at * RULE - 6.0, set_text(word, FINE_GREY, 12.0, 0.5))
            for at, word in ((0.0, "×\u00a0½"), (0.5, "×\u00a01"), (1.0, "×\u00a02"))
        )
    )
    note = wording("against the maker’s value, scale from half to double")
    return section(wording("How large the change is"), width, stack(rules, 0.8), Gap(0.6), ends, note=note)


def _apart(lines: list[tuple[float, TextBlock]]) -> tuple[tuple[float, TextBlock], ...]:
    """Words that would touch are moved away from each other."""
    if len(lines) == 2:
        (first, left), (second, right) = lines
        short = (left.width + right.width) / 2 + 2.0 - (second - first) * RULE
        if short > 0:
            return ((first - short / 2 / RULE, left), (second + short / 2 / RULE, right))
    return tuple(lines)
