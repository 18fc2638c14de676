"""Draws the cells of tables: first words, soft second words, figures on their decimal mark, boxes, flags."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter

from app.screens.kit import measure
from app.screens.kit.cells import Cell, Drawing, Figure, Flags, Gate, Link, Stage, Two, Words
from app.screens.kit.measure import px
from app.screens.kit.shapes import flag_shape, open_box, stage_boxes, stage_width, ticked_box
from app.screens.kit.strokes import LEFT, RIGHT, hline, underline, words

SECOND_GAP = 7
MARKS = ".,"


@dataclass
class Fonts:
    """The two weights, made once for a painting."""

    body: QFont
    strong: QFont

    @classmethod
    def now(cls) -> Fonts:
        return cls(measure.body(), measure.strong())


def split_at_mark(text: str) -> tuple[str, str]:
    """A worded number as the part before its decimal mark and the part from it on."""
    for i in range(len(text) - 1, -1, -1):
        if text[i] in MARKS and text[i + 1 : i + 2].isdigit():
            return text[:i], text[i:]
    return text, ""


def fraction_width(text: str) -> int:
    """Px that the part right of the decimal mark takes, in the heavier weight."""
    return measure.width(split_at_mark(text)[1], measure.strong())


def _role(cell: Words | Figure | Two, struck: bool) -> str:
    if struck:
        return "soft"
    ink = getattr(cell, "ink", "")
    return ink or ("soft" if cell.soft else "text")


def draw(
    p: QPainter,
    rect: QRectF,
    cell: Cell,
    fonts: Fonts,
    *,
    mark_room: float = 0,
    struck: bool = False,
    second: bool = True,
    word: bool = True,
) -> None:
    """Draw ``cell`` in ``rect`` (without its padding); ``mark_room`` is kept right of the decimal mark."""
    match cell:
        case Words():
            _words(p, rect, cell, fonts, struck, second)
        case Figure():
            _figure(p, rect, cell, fonts, mark_room, struck)
        case Link():
            _link(p, rect, cell, fonts)
        case Stage():
            _stage(p, rect, cell, fonts, second, word)
        case Flags():
            _flags(p, rect, cell, fonts)
        case Gate():
            side = px(12)
            box = QRectF(rect.left(), rect.center().y() - side / 2, side, side)
            (ticked_box if cell.done else open_box)(p, box)
            words(p, rect.adjusted(px(20), 0, 0, 0), cell.word, font=fonts.body)
        case Two():
            _two(p, rect, cell, fonts)
        case Drawing():
            p.save()
            cell.paint(p, rect)
            p.restore()
        case None:
            pass


def _strike(p: QPainter, x: float, width: float, rect: QRectF) -> None:
    hline(p, x - px(2), x + width + px(2), rect.center().y(), "soft", 1.3)


def _words(p: QPainter, rect: QRectF, cell: Words, fonts: Fonts, struck: bool, second: bool) -> None:
    room = QRectF(rect)
    if cell.before:
        side = px(14)
        flag_shape(p, QRectF(room.left(), room.center().y() - side / 2, side, side), cell.before)
        room.setLeft(room.left() + px(20))
    role = _role(cell, struck)
    font = fonts.strong if cell.strong and not struck else fonts.body
    align = RIGHT if cell.right else LEFT
    taken = words(p, room, cell.text, font=font, of=role, align=align)
    if struck and cell.text:
        _strike(p, room.right() - taken if cell.right else room.left(), taken, room)
    if cell.second and second and not cell.right:
        rest = room.adjusted(taken + (px(SECOND_GAP) if cell.text else 0), 0, 0, 0)
        if rest.width() > px(14):
            words(p, rest, cell.second, font=fonts.body, of="soft")


def _figure(p: QPainter, rect: QRectF, cell: Figure, fonts: Fonts, mark_room: float, struck: bool) -> None:
    font = fonts.strong if cell.strong and not struck else fonts.body
    whole, fraction = split_at_mark(cell.text)
    mark = rect.right() - mark_room
    if cell.unit:
        mark -= measure.width(cell.unit) + px(5)
    role = _role(cell, struck)
    p.setFont(font)
    left = words(
        p,
        QRectF(rect.left(), rect.top(), mark - rect.left(), rect.height()),
        whole,
        font=font,
        of=role,
        align=RIGHT,
        elide=False,
    )
    right = words(
        p, QRectF(mark, rect.top(), mark_room + 200, rect.height()), fraction, font=font, of=role, elide=False
    )
    if cell.unit:
        unit_at = rect.right() - measure.width(cell.unit)
        words(
            p,
            QRectF(unit_at, rect.top(), 200, rect.height()),
            cell.unit,
            font=fonts.body,
            of="soft",
            elide=False,
        )
    if struck:
        _strike(p, mark - left, left + right, rect)


def _link(p: QPainter, rect: QRectF, cell: Link, fonts: Fonts) -> None:
    taken = words(p, rect, cell.text, font=fonts.body, of="accent")
    metrics = QFontMetricsF(fonts.body)
    underline(p, rect.left(), taken, rect.center().y() + (metrics.ascent() - metrics.descent()) / 2)
    if cell.second:
        words(p, rect.adjusted(taken + px(SECOND_GAP), 0, 0, 0), cell.second, font=fonts.body, of="soft")


def _stage(p: QPainter, rect: QRectF, cell: Stage, fonts: Fonts, second: bool, word: bool) -> None:
    stage_boxes(p, rect.left(), rect.center().y(), cell.index)
    room = rect.adjusted(stage_width() + px(10), 0, 0, 0)
    if not word:
        return
    taken = words(p, room, cell.word, font=fonts.body)
    if cell.second and second:
        words(p, room.adjusted(taken + px(SECOND_GAP), 0, 0, 0), cell.second, font=fonts.body, of="soft")


def _flags(p: QPainter, rect: QRectF, cell: Flags, fonts: Fonts) -> None:
    side = px(14)
    x = rect.left()
    for i, (level, word) in enumerate(cell.flags):
        flag_shape(p, QRectF(x, rect.center().y() - side / 2, side, side), level)
        x += px(20)
        if i == 0:
            others = (len(cell.flags) - 1) * px(18)
            font = fonts.strong if level == "stop" else fonts.body
            room = QRectF(x, rect.top(), rect.right() - x - others, rect.height())
            x += words(p, room, word, font=font) + px(8)


def _two(p: QPainter, rect: QRectF, cell: Two, fonts: Fonts) -> None:
    align = Qt.AlignmentFlag.AlignRight if cell.right else Qt.AlignmentFlag.AlignLeft
    tall = measure.line()
    top = QRectF(rect.left(), rect.center().y() - tall - px(0.5), rect.width(), tall)
    below = top.translated(0, tall + px(1))
    role = "soft" if cell.soft else "text"
    both = align | Qt.AlignmentFlag.AlignVCenter
    words(p, top, cell.first, font=fonts.strong if cell.strong else fonts.body, of=role, align=both)
    words(p, below, cell.second, font=fonts.body, of="soft", align=both)


def natural_width(cell: Cell) -> int:
    """Px that a cell takes when nothing is elided; 0 for drawings, which take what their column gives."""
    match cell:
        case Words():
            first = measure.width(cell.text, measure.strong() if cell.strong else None)
            behind = measure.width(cell.second) + px(SECOND_GAP) if cell.second else 0
            return first + behind + (px(20) if cell.before else 0)
        case Figure():
            return measure.width(cell.text, measure.strong()) + (
                measure.width(cell.unit) + px(5) if cell.unit else 0
            )
        case Link():
            return measure.width(cell.text) + (
                measure.width(cell.second) + px(SECOND_GAP) if cell.second else 0
            )
        case Stage():
            words_wide = measure.width(cell.word) + (
                measure.width(cell.second) + px(SECOND_GAP) if cell.second else 0
            )
            return stage_width() + px(10) + words_wide
        case Flags():
            word = cell.flags[0][1] if cell.flags else ""
            strong = bool(cell.flags) and cell.flags[0][0] == "stop"
            more = max(len(cell.flags) - 1, 0) * px(18) + (px(8) if len(cell.flags) > 1 else 0)
            return px(20) + measure.width(word, measure.strong() if strong else None) + more
        case Gate():
            return px(20) + measure.width(cell.word)
        case Two():
            first = measure.width(cell.first, measure.strong() if cell.strong else None)
            return max(first, measure.width(cell.second))
        case _:
            return 0
