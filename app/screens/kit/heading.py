"""The heading of a page: a heavier number, its words large, a soft line below, buttons at the right."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QSizePolicy, QWidget

from app.screens.kit import measure
from app.screens.kit.boxes import Column, Flow, Row, clear_layout, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.label import Label
from app.screens.kit.measure import px
from app.screens.kit.shapes import stage_boxes, stage_width
from app.screens.kit.strokes import hline, words

LITTLE_ROOM = 0.5  # of the width, for the words beside the buttons
KEPT_ROOM = 0.4  # the same where words break rather than buttons leave


class Heading(QWidget):
    """``number`` heavier before ``title``; ``above`` is a small soft question over it, ``below`` a soft line. ``keeps``:
    the words break rather than let a button leave to the menu, as long as the buttons fit the width."""

    def __init__(
        self,
        title: str = "",
        *,
        number: str = "",
        above: str = "",
        below: str = "",
        keeps: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._keeps = keeps
        self._above = Label("", "soft", wrap=True)
        self._number = Label("", "large strong")
        self._title = Label("", "large", wrap=True)
        self._below = Label("", "soft", wrap=True)
        line = Row(gap=11)
        line.addWidget(self._number, 0, Qt.AlignmentFlag.AlignTop)
        line.add(self._title, stretch=1)
        text = Column(gap=0)
        text.add(self._above, line, self._below)
        self._buttons = Row(gap=9)
        self._plain: list[Button] = []
        self._row = Row(self, gap=18)
        self._row.addLayout(text, 1)
        self._row.addLayout(self._buttons)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        self.set_words(title, number=number, above=above, below=below)

    def set_words(self, title: str, *, number: str = "", above: str = "", below: str = "") -> None:
        """Say something else."""
        for label, text in ((self._above, above), (self._number, number), (self._below, below)):
            label.setText(text)
            set_shown(label, bool(text))
        self._title.setText(title)
        self.setAccessibleName(f"{number} {title}".strip())

    def set_below(self, below: str) -> None:
        """Another soft line below."""
        self._below.setText(below)
        set_shown(self._below, bool(below))

    def below(self) -> str:
        """The soft line below."""
        return self._below.text()

    def set_buttons(self, *buttons: QWidget) -> None:
        """Buttons at the right; the main one last."""
        self._plain = [b for b in buttons if isinstance(b, Button) and b.kind == "plain"]
        for button in buttons:
            self._buttons.addWidget(button, 0, Qt.AlignmentFlag.AlignVCenter)
        self.make_room()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.make_room()

    def set_gone(self, button: Button, gone: bool) -> None:
        """A plain button that has no place here now, however much room there is."""
        button.setProperty("gone", gone)
        self.make_room()

    def make_room(self) -> None:
        """Where the words would be cut, plain buttons leave to the menu; main and blocked ones stay, below the
        words where these would have little room. Call it after buttons got other words, were shown or hidden."""
        number = self._number.sizeHint().width() + px(11) if self._number.text() else 0
        title = number + measure.width(self._title.text(), measure.large())
        need = max(title, measure.width(self._below.text())) + px(18)
        items = [self._buttons.itemAt(i) for i in range(self._buttons.count())]
        kept = [w for item in items if item is not None and (w := item.widget()) is not None]
        here = [w for w in kept if w in self._plain or not w.isHidden()]
        room = self.width() - sum(_width(w) + px(9) for w in here)
        least = self.width() * (KEPT_ROOM if self._keeps else LITTLE_ROOM)
        lasting = [w for w in here if not w.property("gone")]
        fit = self._keeps and sum(_width(w) + px(9) for w in lasting) <= self.width()
        for button in self._plain:
            stays = not button.property("gone") and (button.blocked or fit or room >= need)
            if not stays:
                room += _width(button) + px(9)
            if button.isHidden() == stays:
                set_shown(button, stays)
        self._stand_below(room < min(need, least))

    def _stand_below(self, below: bool) -> None:
        way = QBoxLayout.Direction.TopToBottom if below else QBoxLayout.Direction.LeftToRight
        if self._row.direction() != way:
            self._row.setDirection(way)
            self._row.setAlignment(
                self._buttons, Qt.AlignmentFlag.AlignLeft if below else Qt.AlignmentFlag(0)
            )
            self._row.set_gap(5 if below else 18)


def _width(widget: QWidget) -> int:
    return max(widget.sizeHint().width(), widget.minimumWidth())


class StageWord(QWidget):
    """The five boxes of a job's stage with its word, and what it waits for in soft."""

    def __init__(
        self, stage: int = 0, word: str = "", second: str = "", parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.set_stage(stage, word, second)

    def set_stage(self, stage: int, word: str, second: str = "") -> None:
        """``stage`` 0 taken in to 4 handed back."""
        self._stage, self._word, self._second = stage, word, second
        self.setAccessibleName(f"{word} {second}".strip())
        self.updateGeometry()
        self.update()

    def refit(self) -> None:
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        behind = measure.width(self._second) + px(7) if self._second else 0
        return QSize(stage_width() + px(10) + measure.width(self._word) + behind + px(2), px(22))

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        stage_boxes(p, 0, self.height() / 2, self._stage)
        room = QRectF(self.rect()).adjusted(stage_width() + px(10), 0, 0, 0)
        taken = words(p, room, self._word, font=measure.body(), elide=False)
        if self._second:
            words(p, room.adjusted(taken + px(7), 0, 0, 0), self._second, of="soft", elide=False)


class FactLine(QWidget):
    """Facts beside each other, each a soft word and its value: ``Customer  Benedikt Arnsvik``."""

    def __init__(
        self, facts: Sequence[tuple[str, str | QWidget]] = (), parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._flow = Flow(self, gap=23, line_gap=2)
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self.set_facts(facts)

    def set_facts(self, facts: Sequence[tuple[str, str | QWidget]]) -> None:
        """Show these; a value may be a widget, e.g. a `StageWord` or a quiet button."""
        clear_layout(self._flow)
        for word, value in facts:
            if isinstance(value, str) and not value:
                continue
            pair = QWidget()
            row = Row(pair, gap=7)
            if word:
                row.add(Label(word, "soft"))
            shown = Label(value) if isinstance(value, str) else value
            if isinstance(value, str) and word:
                shown.setAccessibleName(f"{word}: {value}")
            row.add(shown)
            pair.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
            self._flow.add(pair)


class Rule(QWidget):
    """A full line across: ``edge`` under a heading or above a foot, ``line`` between parts."""

    def __init__(self, role: str = "edge", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._role = role
        self.setFixedHeight(1)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def paintEvent(self, event: QPaintEvent) -> None:
        hline(QPainter(self), 0, self.width(), 0, self._role)
