"""Several lines of words with the sentence of what cannot be right below them."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit.boxes import Column
from app.screens.kit.fields import Sentence, TextArea


class WordsArea(QWidget):
    """A `TextArea` that behaves as a field: ``set_error`` says under it why it cannot be kept."""

    changed = Signal()
    left = Signal()

    def __init__(self, name: str, *, hint: str = "", lines: int = 2, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.edit = TextArea(name, hint=hint, lines=lines)
        self._error = Sentence(self)
        self._error.hide()
        Column(self, gap=2).add(self.edit, self._error)
        self.setFocusProxy(self.edit)
        self.setAccessibleName(name)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        self.edit.changed.connect(self.changed)
        self.edit.left.connect(self.left)

    def text(self) -> str:
        """What stands in it, without space at the ends."""
        return self.edit.text()

    def set_text(self, text: str) -> None:
        """Put ``text`` in."""
        self.edit.set_text(text)

    def set_name(self, name: str) -> None:
        """What a screen reader calls it."""
        self.setAccessibleName(name)
        self.edit.setAccessibleName(name)

    def set_error(self, sentence: str) -> None:
        """Why it cannot be right, below it; empty for none."""
        self._error.setText(sentence)
        self._error.setVisible(bool(sentence))
        self.edit.setAccessibleDescription(sentence)
        self.edit.setProperty("wrong", bool(sentence))
        self.edit.update()

    def error(self) -> str:
        """The sentence below it."""
        return self._error.text()
