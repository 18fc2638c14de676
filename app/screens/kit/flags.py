"""Flags as lines: edge, shape, word, sentence with its numbers, what clears it, and what to do."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFontMetrics, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit import measure
from app.screens.kit.boxes import Column, clear_layout, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.measure import px
from app.screens.kit.palette import ink
from app.screens.kit.section import FoldHead
from app.screens.kit.shapes import LEVELS, flag_shape
from app.screens.kit.strokes import words
from app.screens.language import say

SHOWN_IN_MARGIN = 3


@dataclass(frozen=True)
class FlagFacts:
    """One flag, worded: ``level`` note, caution or stop; ``word`` short; ``sentence`` with its numbers.

    ``action`` are the words of a link at its end, ``target`` comes back when it is pressed; ``buttons`` are
    further plain actions as pairs of words and target.
    """

    level: str
    word: str
    sentence: str
    clears: str = ""
    action: str = ""
    target: Any = None
    buttons: tuple[tuple[str, Any], ...] = ()

    @property
    def whole(self) -> str:
        """The sentence and what clears it."""
        return f"{self.sentence} {self.clears}".strip()


def gravest_first(flags: Sequence[FlagFacts]) -> list[FlagFacts]:
    """Stops, then cautions, then notes; the order given within each."""
    return sorted(flags, key=lambda flag: LEVELS.index(str(flag.level)))


def paint_edge(p: QPainter, height: float, level: str) -> None:
    """The edge at the left: one 5 px bar, 2 + 1 px with a gap, or 1 px."""
    if level == "stop":
        p.fillRect(QRectF(0, 0, 5, height), ink("stop"))
    elif level == "caution":
        p.fillRect(QRectF(0, 0, 2, height), ink("caution"))
        p.fillRect(QRectF(4, 0, 1, height), ink("caution"))
    else:
        p.fillRect(QRectF(0, 0, 1, height), ink("note"))


class FlagLine(QWidget):
    """One flag. In the margin (``stacked``) its word stands above its sentence."""

    acted = Signal(object)

    def __init__(self, flag: FlagFacts, *, stacked: bool = False, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.flag = flag
        self._stacked = stacked
        # By width, until the text size changes: each layout around it asks several times.
        self._heights: dict[int, int] = {}
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        # The level's own word: "Note" alone is also what somebody writes down, another word elsewhere.
        level_words = {"stop": say("Stop."), "caution": say("Caution."), "note": say("Note.")}
        level_word = level_words[str(flag.level)].rstrip(".")
        self.setAccessibleName(f"{level_word}: {flag.word}. {flag.whole}")
        self._link: Button | None = None
        if flag.action:
            self._link = self._button(flag.action, flag.target, "quiet")
        kinds = ["plain"] + ["quiet"] * len(flag.buttons)
        self._buttons = [
            self._button(text, target, kinds[i]) for i, (text, target) in enumerate(flag.buttons)
        ]

    def _button(self, text: str, target: Any, kind: str) -> Button:
        return Button(text, lambda: self.acted.emit(target), kind=kind, parent=self)

    def refit(self) -> None:
        self._heights.clear()
        self.updateGeometry()
        self._place()

    def _text_left(self) -> int:
        if self._stacked:
            return px(39)
        # The word keeps a column of 92; a longer word pushes its sentence to the right.
        return px(39) + max(px(92) + px(17), measure.width(self.flag.word, measure.strong()) + px(18))

    def _text_room(self, width: int) -> int:
        link = self._link.sizeHint().width() + px(18) if self._link is not None and not self._stacked else 0
        return max(width - self._text_left() - link - px(4), px(80))

    def _text_height(self, width: int) -> int:
        bounds = QFontMetrics(measure.body()).boundingRect(
            0, 0, self._text_room(width), 1 << 16, int(Qt.TextFlag.TextWordWrap), self.flag.whole
        )
        return max(bounds.height(), measure.line())

    def heightForWidth(self, width: int) -> int:
        if (height := self._heights.get(width)) is None:
            top = measure.line() + px(1) if self._stacked else 0
            below = px(32) + px(6) if self._buttons else 0
            height = self._heights[width] = px(2) + top + self._text_height(width) + below + px(4)
        return height

    def hasHeightForWidth(self) -> bool:
        return True

    def sizeHint(self) -> QSize:
        return QSize(px(400), self.minimumSizeHint().height())

    def minimumSizeHint(self) -> QSize:
        return QSize(px(200), measure.line() + px(6))

    def resizeEvent(self, event: object) -> None:
        self._place()

    def _place(self) -> None:
        if self._link is not None:
            size = self._link.sizeHint()
            top = 0 if self._stacked else (measure.line() + px(4) - size.height()) // 2
            self._link.setGeometry(self.width() - size.width(), top, size.width(), size.height())
        x = self._text_left()
        for button in self._buttons:
            size = button.sizeHint()
            top = self.height() - px(4) - px(32) + (px(32) - size.height()) // 2
            button.setGeometry(x, top, size.width(), size.height())
            x += size.width() + px(9)

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        level = str(self.flag.level)
        paint_edge(p, self.height(), level)
        tall = measure.line() + px(2)
        flag_shape(p, QRectF(px(14), px(2) + (tall - px(14)) / 2, px(14), px(14)), level)
        left = self._text_left()
        room = left - px(48) if not self._stacked else self.width() - left - px(90)
        words(
            p, QRectF(px(39), px(1), max(room, px(92)), tall), self.flag.word, font=measure.strong(), of=level
        )
        top = px(2) + (measure.line() + px(1) if self._stacked else 0)
        p.setFont(measure.body())
        p.setPen(ink("text"))
        room_rect = QRectF(left, top, self._text_room(self.width()), self.height() - top)
        p.drawText(room_rect, int(Qt.AlignmentFlag.AlignLeft | Qt.TextFlag.TextWordWrap), self.flag.whole)


class FlagBar(QWidget):
    """All flags of a page, stops first. More than ``most`` (in the margin three) fold to one line; ``folds``
    folds every one of them (a narrow page). `acted` brings the target of a link that was pressed."""

    acted = Signal(object)

    def __init__(
        self,
        name: str = "",
        *,
        stacked: bool = False,
        folds: bool = False,
        most: int | None = None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._stacked = stacked
        self._folds = folds
        self._most = most if most is not None or not stacked else SHOWN_IN_MARGIN
        self._lines: list[FlagLine] = []
        self._column = Column(self, gap=12 if stacked else 7)
        self._more: FoldHead | None = None
        self.setAccessibleName(name or say("Flags"))
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)

    def set_flags(self, flags: Sequence[FlagFacts]) -> None:
        """Show these flags; none hides the bar."""
        clear_layout(self._column)
        self._lines, self._more = [], None
        ordered = gravest_first(flags)
        shown = 0 if self._folds else len(ordered) if self._most is None else self._most
        if len(ordered) == shown + 1 and not self._folds and not self._stacked:
            shown += 1  # a line that folds one flag away is as tall as the flag
        for i, flag in enumerate(ordered):
            line = FlagLine(flag, stacked=self._stacked)
            line.acted.connect(self.acted)
            if i == shown:
                self._column.addWidget(self._fold_line(ordered[shown:]))
            self._column.addWidget(line)
            line.setVisible(i < shown)
            self._lines.append(line)
        set_shown(self, bool(ordered))

    def lines(self) -> tuple[FlagLine, ...]:
        """The lines, gravest first."""
        return tuple(self._lines)

    def _fold_line(self, rest: Sequence[FlagFacts]) -> FoldHead:
        text = say("{count} more", count=len(rest)) if not self._folds else _counted(len(rest))
        head = FoldHead(text)
        head.set_opened(False)
        head.set_summary(rest[0].sentence, ((str(rest[0].level), rest[0].word),))
        hidden = len(rest)

        def turn() -> None:
            head.set_opened(not head.opened)
            for line in self._lines[-hidden:]:
                line.setVisible(head.opened)

        head.clicked.connect(turn)
        self._more = head
        return head


def _counted(count: int) -> str:
    return say("1 flag") if count == 1 else say("{count} flags", count=count)


def flag_bar(
    flags: Sequence[FlagFacts], acted: Callable[[Any], object] | None = None, *, stacked: bool = False
) -> FlagBar:
    """A bar already filled."""
    bar = FlagBar(stacked=stacked)
    bar.set_flags(flags)
    if acted is not None:
        bar.acted.connect(acted)
    return bar
