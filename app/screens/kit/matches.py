"""Matches while typing: a list in the margin, never over the form; Down marks, Enter takes."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QEvent, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QMouseEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit import measure
from app.screens.kit.boxes import Column
from app.screens.kit.fields import Entry, Field
from app.screens.kit.label import Label
from app.screens.kit.measure import px
from app.screens.kit.palette import ink
from app.screens.kit.strokes import LEFT, RIGHT, box, hline, words

ROW = 30
SHOWN = 8


@dataclass(frozen=True)
class Match:
    """One match: ``title`` with the part that was typed heavier, ``second`` beside it, ``third`` soft at the right."""

    title: str
    second: str = ""
    third: str = ""
    target: Any = None

    @property
    def plain(self) -> str:
        return " ".join(part for part in (self.title, self.second, self.third) if part)


class MatchRows(QWidget):
    """The rows themselves, in a box."""

    taken = Signal(object)
    stepped = Signal(int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.matches: tuple[Match, ...] = ()
        self.marked = -1
        self._typed = ""
        self.setMouseTracking(True)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_matches(self, matches: Sequence[Match], typed: str) -> None:
        self.matches, self._typed, self.marked = tuple(matches)[:SHOWN], typed, -1
        self.updateGeometry()
        self.update()

    def refit(self) -> None:
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        return QSize(px(300), len(self.matches) * px(ROW) + 2)

    def set_marked(self, at: int) -> None:
        self.marked = at
        self.setAccessibleDescription(self.matches[at].plain if at >= 0 else "")
        self.update()

    def _row_at(self, event: QMouseEvent) -> int:
        at = int(event.position().y() - 1) // px(ROW)
        return at if 0 <= at < len(self.matches) else -1

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        self.set_marked(self._row_at(event))

    def leaveEvent(self, event: QEvent) -> None:
        self.set_marked(-1)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        at = self._row_at(event)
        if at >= 0 and event.button() == Qt.MouseButton.LeftButton:
            self.taken.emit(self.matches[at])

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        box(p, self.rect(), fill="base", border="edge", radius=0)
        tall = px(ROW)
        for i, match in enumerate(self.matches):
            top = 1 + i * tall
            if i == self.marked:
                p.fillRect(QRectF(1, top, self.width() - 2, tall), ink("tint"))
                p.fillRect(QRectF(1, top, px(3), tall), ink("accent"))
            elif i and i - 1 != self.marked:
                hline(p, px(10), self.width() - px(10), top, "line")
            self._row(p, match, top, tall)

    def _row(self, p: QPainter, match: Match, top: float, tall: float) -> None:
        left, right = px(10), self.width() - px(11)
        third = min(measure.width(match.third), (right - left) // 2) if match.third else 0
        words(
            p,
            QRectF(right - third, top, third, tall),
            match.third,
            font=measure.body(),
            of="soft",
            align=RIGHT,
        )
        edge = right - third - px(10)
        second_at = left + max(px(100), self._title_width(match.title) + px(16))
        x = float(left)
        for part, strong in parts(match.title, self._typed):
            font = measure.strong() if strong else measure.body()
            x += words(p, QRectF(x, top, edge - x, tall), part, font=font, align=LEFT)
        if match.second:
            words(p, QRectF(second_at, top, edge - second_at, tall), match.second, font=measure.body())

    def _title_width(self, title: str) -> int:
        return measure.width(title, measure.strong())


def parts(title: str, typed: str) -> list[tuple[str, bool]]:
    """``title`` cut into the part that was typed (True) and the rest; spaces in numbers do not count."""
    wanted = typed.casefold().replace(" ", "")
    if not wanted:
        return [(title, False)]
    for start in range(len(title)):
        if title[start] == " ":
            continue
        got, end = "", start
        while end < len(title) and len(got) < len(wanted):
            if title[end] != " ":
                got += title[end].casefold()
            end += 1
        if got == wanted:
            cut = [(title[:start], False), (title[start:end], True), (title[end:], False)]
            return [(text, strong) for text, strong in cut if text]
    return [(title, False)]


class MatchesList(QWidget):
    """A soft title and the matches of the field that is being typed into. Empty, it hides.

    ``attach(field, take)`` lets Down and Up in the field mark and Enter take; the field keeps the focus. With
    nothing marked Enter goes on to the next field as always.
    """

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._title = Label("", "soft")
        self.rows = MatchRows()
        self.rows.taken.connect(self._take)
        self._takes: Callable[[Any], object] | None = None
        self._entry: Entry | None = None
        Column(self, gap=4).add(self._title, self.rows)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        self.hide()

    def attach(self, field: Field, take: Callable[[Any], object]) -> None:
        """Serve ``field``: ``take(target)`` is called when one of its matches is taken."""
        entry = field.edit
        entry.stepped.connect(lambda step: self._step(entry, step))
        entry.taken.connect(lambda: self._enter(entry))
        entry.left.connect(lambda: self._left(entry))
        entry.setProperty("takes", None)
        self._fields = {**getattr(self, "_fields", {}), entry: take}

    def show_matches(self, field: Field, title: str, matches: Sequence[Match]) -> None:
        """Show the matches of ``field``, if it still has the focus; none hides the list."""
        if not field.edit.hasFocus():
            return
        self._entry = field.edit
        self._takes = self._fields.get(field.edit)
        self._title.setText(title)
        self.rows.setAccessibleName(title)
        self.rows.show_matches(matches, field.text())
        self.setVisible(bool(matches))

    def clear(self) -> None:
        """Nothing matches any more."""
        self.rows.show_matches((), "")
        self.hide()

    def _step(self, entry: Entry, step: int) -> None:
        if entry is self._entry and self.rows.matches:
            self.rows.set_marked(max(-1, min(self.rows.marked + step, len(self.rows.matches) - 1)))

    def _enter(self, entry: Entry) -> None:
        if entry is self._entry and self.rows.marked >= 0:
            self._take(self.rows.matches[self.rows.marked])

    def _left(self, entry: Entry) -> None:
        if entry is self._entry:  # the rows take no focus, so a click on them is no leaving
            self.clear()

    def _take(self, match: Match) -> None:
        takes = self._takes
        self.clear()
        if takes is not None:
            takes(match.target)
