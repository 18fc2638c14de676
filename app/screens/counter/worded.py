"""Puts the sentence of what cannot be right under a widget that has none of its own."""

from __future__ import annotations

from typing import Generic, TypeVar

from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit.boxes import Column
from app.screens.kit.fields import Sentence

W = TypeVar("W", bound=QWidget)


class Worded(QWidget, Generic[W]):
    """``inner`` with its sentence below; the focus goes to ``inner``."""

    def __init__(self, inner: W, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.inner = inner
        self._error = Sentence(self)
        self._error.hide()
        Column(self, gap=2).add(inner, self._error)
        self.setFocusProxy(inner)
        self.setAccessibleName(inner.accessibleName())
        self.setSizePolicy(
            inner.sizePolicy().horizontalPolicy(),
            QSizePolicy.Policy.Minimum,
        )

    def set_name(self, name: str) -> None:
        """What a screen reader calls it."""
        self.setAccessibleName(name)
        self.inner.setAccessibleName(name)

    def set_error(self, sentence: str) -> None:
        """Why it cannot be right, below it; empty for none."""
        self._error.setText(sentence)
        self._error.setVisible(bool(sentence))
        self.inner.setAccessibleDescription(sentence)
        self.inner.setProperty("wrong", bool(sentence))
        self.inner.update()

    def error(self) -> str:
        """The sentence below it."""
        return self._error.text()
