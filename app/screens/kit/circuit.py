"""A modification as a circuit: the part replaced, or one added beside or before the maker's part."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit import measure
from app.screens.kit.measure import px
from app.screens.kit.shapes import pen
from app.screens.kit.strokes import CENTRE, LEFT, box, path_of, words
from app.screens.language import say

PART_WIDE, PART_TALL = 80, 20


@dataclass(frozen=True)
class CircuitFacts:
    """``way`` is replaced, parallel, series or other; ``place`` the designator; ``old`` the maker's value and
    ``new`` ours, both worded with unit."""

    way: str
    place: str
    old: str
    new: str
    sentence: str = ""


class CircuitDrawing(QWidget):
    """The new part in accent, the maker's in text; a replaced one lifted out of the line and dashed."""

    def __init__(self, facts: CircuitFacts, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.set_facts(facts)

    def set_facts(self, facts: CircuitFacts) -> None:
        """Show another; while a value is typed."""
        self.facts = facts
        ways = {
            "replaced": say("replaced, {old} by {new}", old=facts.old, new=facts.new),
            "parallel": say("{new} beside {old}", old=facts.old, new=facts.new),
            "series": say("{new} in line with {old}", old=facts.old, new=facts.new),
        }
        self.setAccessibleName(facts.sentence or f"{facts.place}: {ways.get(facts.way, facts.new)}")
        self.updateGeometry()
        self.update()

    def refit(self) -> None:
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        return QSize(px(214), px(72))

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        p.setRenderHint(QPainter.RenderHint.Antialiasing)
        match self.facts.way:
            case "replaced":
                self._replaced(p)
            case "parallel":
                self._parallel(p)
            case "series":
                self._series(p)
            case _:
                self._only(p)

    def _part(self, p: QPainter, x: float, y: float, text: str, kind: str) -> QRectF:
        wide = max(px(PART_WIDE), measure.width(text) + px(14))
        rect = QRectF(x - wide / 2, y - px(PART_TALL) / 2, wide, px(PART_TALL))
        border = {"new": "accent", "old": "text", "out": "edge"}[kind]
        box(
            p,
            rect,
            fill="base",
            border=border,
            width=2 if kind == "new" else 1.5,
            radius=0,
            dashed=kind == "out",
        )
        words(p, rect, text, font=measure.body(), of="soft" if kind == "out" else "text", align=CENTRE)
        return rect

    def _wire(self, p: QPainter, *points: tuple[float, float]) -> None:
        p.setPen(pen("text", 1.5))
        p.setBrush(Qt.BrushStyle.NoBrush)
        p.drawPath(path_of(*points, closed=False))

    def _place_word(self, p: QPainter, y: float, lift: float) -> None:
        words(p, QRectF(px(1), y - lift, px(60), px(18)), self.facts.place, font=measure.body(), of="soft")

    def _replaced(self, p: QPainter) -> None:
        x, line = px(106), px(58)
        self._wire(p, (0, line), (px(212), line))
        self._part(p, x, line, self.facts.new, "new")
        out = self._part(p, x, px(13), self.facts.old, "out")
        p.setPen(pen("edge", 1.3))
        p.drawPath(path_of((x, px(46)), (x, px(27)), closed=False))
        p.drawPath(path_of((x - px(4), px(32)), (x, px(27)), (x + px(4), px(32)), closed=False))
        words(
            p, QRectF(out.right() + px(5), out.top(), px(60), out.height()), say("out"), of="soft", align=LEFT
        )
        self._place_word(p, line, px(25))

    def _parallel(self, p: QPainter) -> None:
        x, upper, lower = px(106), px(24), px(58)
        a, b = px(48), px(164)
        self._wire(p, (0, upper), (px(212), upper))
        self._wire(p, (a, upper), (a, lower), (b, lower), (b, upper))
        self._part(p, x, upper, self.facts.old, "old")
        self._part(p, x, lower, self.facts.new, "new")
        self._place_word(p, upper, px(25))

    def _series(self, p: QPainter) -> None:
        line = px(46)
        self._wire(p, (0, line), (px(212), line))
        self._part(p, px(58), line, self.facts.old, "old")
        self._part(p, px(154), line, self.facts.new, "new")
        self._place_word(p, line, px(32))

    def _only(self, p: QPainter) -> None:
        line = px(46)
        self._wire(p, (0, line), (px(212), line))
        self._part(p, px(106), line, self.facts.new, "new")
        self._place_word(p, line, px(25))
