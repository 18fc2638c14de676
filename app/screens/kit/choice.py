"""A choice of up to five, its words in a row; the chosen one is heavier over an accent bar."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import QPoint, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QButtonGroup, QRadioButton, QSizePolicy, QWidget

from app.screens.kit import measure
from app.screens.kit.boxes import Flow
from app.screens.kit.fields import Sentence
from app.screens.kit.measure import px
from app.screens.kit.palette import ink
from app.screens.kit.strokes import LEFT, box, words

BESIDE = 5  # kept free at both sides of a word, so that the frame of the focus stands around it


class _Word(QRadioButton):
    def __init__(self, text: str, parent: QWidget) -> None:
        super().__init__(text, parent)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    def refit(self) -> None:
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        # The room of the heavier word, so that choosing moves nothing.
        return QSize(measure.width(self.text(), measure.strong()) + 2 * px(BESIDE) + px(1), px(31))

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()

    def hitButton(self, pos: QPoint) -> bool:
        return self.rect().contains(pos)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and not self.isChecked():
            self.click()
            return
        super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        chosen = self.isChecked()
        font = measure.strong() if chosen else measure.body()
        role = "text" if chosen or self.underMouse() else "soft"
        side = px(BESIDE)
        room = self.rect().adjusted(side, 0, -side, -px(1))
        words(p, room, self.text(), font=font, of=role, align=LEFT, elide=False)
        if chosen:
            thick = px(3)
            p.fillRect(QRectF(side, self.height() - thick, room.width(), thick), ink("accent"))
        if self.hasFocus():
            box(p, self.rect(), border="accent", width=2)


class Choice(QWidget):
    """``options`` are pairs of key and word. Arrow keys move, a click or Space chooses. ``set_error`` says behind the
    words why nothing chosen cannot stand; choosing takes it away."""

    changed = Signal(object)

    def __init__(
        self,
        name: str,
        options: Sequence[tuple[Any, str]],
        chosen: Any = None,
        *,
        gap: float = 19,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self._flow = Flow(self, gap=max(gap - 2 * BESIDE, 2), line_gap=2)
        self._group = QButtonGroup(self)
        self._group.idToggled.connect(self._toggled)
        self._keys: list[Any] = []
        self._error: Sentence | None = None
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self.set_options(options, chosen)

    def set_options(self, options: Sequence[tuple[Any, str]], chosen: Any = None) -> None:
        """Offer other words, e.g. with new counts in them."""
        for button in self._group.buttons():
            self._group.removeButton(button)
            self._flow.removeWidget(button)
            button.hide()
            button.deleteLater()
        self.set_error("")
        self._keys = [key for key, _ in options]
        self._group.blockSignals(True)
        for i, (key, word) in enumerate(options):
            button = _Word(word, self)
            button.setAccessibleName(f"{self.accessibleName()}: {word}")
            self._group.addButton(button, i)
            self._flow.add(button)
            button.setChecked(key == chosen)
        self._group.blockSignals(False)
        if self._group.buttons():
            self.setFocusProxy(self._group.checkedButton() or self._group.buttons()[0])

    def set_error(self, sentence: str) -> None:
        """Why it cannot stand as it is, behind the words; empty for none."""
        if self._error is not None:
            self._flow.removeWidget(self._error)
            self._error.hide()
            self._error.deleteLater()
            self._error = None
        if sentence:
            self._error = Sentence(self)
            self._error.setWordWrap(False)
            self._error.setText(sentence)
            self._flow.add(self._error)
            self._error.show()
        for button in self._group.buttons():
            button.setAccessibleDescription(sentence)

    def error(self) -> str:
        """The sentence behind the words."""
        return self._error.text() if self._error is not None else ""

    def set_name(self, name: str) -> None:
        """What a screen reader calls it."""
        self.setAccessibleName(name)
        for button in self._group.buttons():
            button.setAccessibleName(f"{name}: {button.text()}")

    def value(self) -> Any:
        """The chosen key, or None."""
        chosen = self._group.checkedId()
        return self._keys[chosen] if chosen >= 0 else None

    def word(self) -> str:
        """The word of the chosen key, empty for none."""
        chosen = self._group.checkedButton()
        return chosen.text() if chosen is not None else ""

    def set_value(self, key: Any) -> None:
        """Choose ``key``; None takes the choice back."""
        if key is None:
            checked = self._group.checkedButton()
            if checked is not None:
                self._group.setExclusive(False)
                checked.setChecked(False)
                self._group.setExclusive(True)
        else:
            self._group.button(self._keys.index(key)).setChecked(True)

    def _toggled(self, index: int, on: bool) -> None:
        if on:
            self.setFocusProxy(self._group.button(index))
            self.set_error("")
            self.changed.emit(self._keys[index])
