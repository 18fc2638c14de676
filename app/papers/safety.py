"""The safety pair: what the person who uses the player must know, beside what the next technician must know."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from app.papers.blocks import Block, Stack
from app.papers.facts import Caution, Sign
from app.papers.flow import stack
from app.papers.line_breaks import Run
from app.papers.pen import INK, Pen
from app.papers.said import worded
from app.papers.signs import draw_sign
from app.papers.text import FINE, SECTION, TextBlock, set_text
from app.trade.wording import Wording

USER_WIDTHS = (70.0, 66.0, 62.0)  # as wide as may be; narrower where the other reader has more to read
BETWEEN = 5.0
BAR = 1.8
INSIDE = 4.5
SIGN = 11.0
HEAD = 15.6  # from the top of a box to its first note
FOOT = 3.0


@dataclass(frozen=True)
class SafetyBox:
    """One reader's box: title and signs at one height, then the notes."""

    title: TextBlock
    signs: tuple[Sign, ...]
    notes: Stack
    width: float
    least: float = 0.0

    @property
    def height(self) -> float:
        """Of the notes with head and foot, but at least as high as its neighbour."""
        return max(self.least, self._head + self.notes.height + FOOT)

    @property
    def _head(self) -> float:
        return HEAD + max(0.0, self.title.height - 2 * self.title.style.leading)

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Frame, bar, title, signs, notes."""
        pen.frame(x, top, self.width, self.height, 0.8)
        pen.block(x, top, BAR, self.height, INK)
        middle = top + 3.2 + SIGN / 2
        self.title.draw(pen, x + INSIDE, max(top + 2.4, middle - self.title.height / 2))
        across = x + self.width - 3.6 - len(self.signs) * (SIGN + 1) + 1
        for sign in self.signs:
            draw_sign(pen, sign, across, middle - SIGN / 2, SIGN)
            across += SIGN + 1
        self.notes.draw(pen, x + INSIDE, top + self._head)

    def split(self, room: float) -> tuple[Block, Block] | None:
        """Between notes, only where the box is higher than a page."""
        parts = self.notes.split(room - self._head - FOOT)
        if parts is None or not isinstance(parts[0], Stack) or not isinstance(parts[1], Stack):
            return None
        return replace(self, notes=parts[0], least=0.0), replace(self, notes=parts[1], least=0.0)


@dataclass(frozen=True)
class SafetyPair:
    """Both boxes, of equal height."""

    user: SafetyBox | None
    technician: SafetyBox | None

    @property
    def _boxes(self) -> list[SafetyBox]:
        return [box for box in (self.user, self.technician) if box]

    @property
    def title_lines(self) -> int:
        """Lines of the user's title: a narrower box is not bought with a broken one."""
        return len(self.user.title.lines) if self.user else 0

    @property
    def height(self) -> float:
        """Of both."""
        return max((box.height for box in self._boxes), default=0.0)

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Side by side."""
        for box in self._boxes:
            replace(box, least=self.height).draw(pen, x, top)
            x += box.width + BETWEEN

    def split(self, room: float) -> tuple[Block, Block] | None:
        """Only where a box alone is higher than a page: one box below the other, so that nothing is cut."""
        boxes = self._boxes
        tall = [box for box in boxes if box.height > room]
        if not tall:
            return None
        parts = tall[0].split(room)
        if parts is None:
            return None
        rest: list[Block] = [parts[1], *(box for box in boxes if box is not tall[0])]
        return parts[0], stack(rest, BETWEEN)


def safety_pair(
    user: Sequence[Caution], technician: Sequence[Caution], width: float, wording: Wording
) -> SafetyPair:
    """The pair across ``width``; without notes for one reader the other's box takes all of it."""
    best = _pair(user, technician, width, USER_WIDTHS[0], wording)
    for narrow in USER_WIDTHS[1:]:
        if best.user is None or best.technician is None or best.technician.height <= best.user.height:
            break
        pair = _pair(user, technician, width, narrow, wording)
        if pair.height >= best.height or pair.title_lines > best.title_lines:
            break
        best = pair
    return best


def _pair(
    user: Sequence[Caution], technician: Sequence[Caution], width: float, narrow: float, wording: Wording
) -> SafetyPair:
    wide = width - narrow - BETWEEN if user else width
    narrow = narrow if technician else width
    return SafetyPair(
        _box(wording("For you, who use it"), user, narrow, wording) if user else None,
        _box(wording("For the next technician"), technician, wide, wording) if technician else None,
    )


def _box(title: str, notes: Sequence[Caution], width: float, wording: Wording) -> SafetyBox:
    signs = tuple(dict.fromkeys(note.sign for note in notes if note.sign))
    inside = width - INSIDE - 3.6
    head = set_text(title, SECTION, inside - len(signs) * (SIGN + 1) - 1)
    return SafetyBox(head, signs, stack([note_text(note, inside, wording) for note in notes], 1.5), width)


def note_text(note: Caution, width: float, wording: Wording) -> TextBlock:
    """Title in Semibold, then the text, as one paragraph."""
    title = worded(note.title, wording)
    return set_text([Run(title, bold=True), Run(" " + worded(note.text, wording))], FINE, width)
