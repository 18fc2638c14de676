"""Hands that work the window as a person does: keys into what has the focus, found by its accessible name."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QFileDialog, QLineEdit, QWidget

from app.screens.kit import palette
from app.screens.kit.pdf_view import page_images
from app.screens.window import MainWindow

# What a step of the tour waits for: True when it has come.
Until = Callable[[], bool]
Steps = Iterator[Until]

PAGE_SCALE = 100 / 72  # papers as pictures: 100 dots to the inch
LAYOUTS = 6  # a part that grew is laid out a moment later, and what holds it after that


class Missed(Exception):
    """Something that a step looked for in the window was not there."""


class Hands:
    """Types, presses and looks. ``folder`` takes the pictures; ``made`` lists what was saved, in order."""

    def __init__(self, window: MainWindow, folder: Path) -> None:
        self.window = window
        self.folder = folder
        self.made: list[Path] = []

    def find(self, name: str, inside: QWidget | None = None) -> QWidget:
        """The visible widget with this accessible name. Raises Missed."""
        for widget in (inside or self.window).findChildren(QWidget):
            if widget.accessibleName() == name and widget.isVisible():
                return widget
        raise Missed(f"no {name!r} in sight")

    def sees(self, name: str) -> bool:
        """Whether such a widget is visible."""
        return any(
            widget.accessibleName() == name and widget.isVisible()
            for widget in self.window.findChildren(QWidget)
        )

    def named(self, begins: str) -> str:
        """The whole name of the first thing in sight whose name begins so. Raises Missed."""
        for widget in self.window.findChildren(QWidget):
            if widget.accessibleName().startswith(begins) and widget.isVisible():
                return widget.accessibleName()
        raise Missed(f"nothing named {begins!r} in sight")

    def go_to(self, name: str) -> QWidget:
        """Give the focus to the widget with this accessible name."""
        widget = self.find(name)
        widget.setFocus(Qt.FocusReason.TabFocusReason)
        return widget

    def type_into(self, name: str, text: str) -> None:
        """Put the focus into a field, clear it and type."""
        self.go_to(name)
        self.press("Ctrl+A")
        self.type(text)

    def type(self, text: str) -> None:
        """Type into whatever has the focus."""
        QTest.keyClicks(self._focus(), text)

    def press(self, keys: str) -> None:
        """Press a key or chord, e.g. ``Ctrl+N`` or ``Return``, where the focus is."""
        QTest.keySequence(self._focus(), QKeySequence(keys))

    def text(self, name: str) -> str:
        """What stands in a field."""
        for line in self.window.findChildren(QLineEdit):
            if line.accessibleName() == name and line.isVisible():
                return line.text()
        raise Missed(f"no field {name!r} in sight")

    def choose(self, name: str) -> None:
        """Choose a word or tick a box: the focus there, then the space bar."""
        QTest.keyClick(self.go_to(name), Qt.Key.Key_Space)

    def pick(self, name: str, words: str) -> None:
        """Go down a combo box until these words stand in it. Raises Missed."""
        combo = self.go_to(name)
        assert isinstance(combo, QComboBox)
        QTest.keyClick(combo, Qt.Key.Key_Home)
        for _ in range(combo.count()):
            if combo.currentText().startswith(words):
                return
            QTest.keyClick(combo, Qt.Key.Key_Down)
        raise Missed(f"no {words!r} in {name!r}")

    def click(self, name: str) -> None:
        """Click on the widget with this accessible name."""
        widget = self.find(name)
        QTest.mouseClick(widget, Qt.MouseButton.LeftButton)

    def picture(self, name: str) -> None:
        """Save the window as it is, light and dark."""
        app = QApplication.instance()
        assert isinstance(app, QApplication)
        for scheme in ("light", "dark"):
            palette.apply(app, scheme)
            for _ in range(LAYOUTS):
                app.sendPostedEvents()
                app.processEvents()
            path = self.folder / f"{name}-{scheme}.png"
            self.window.grab().save(str(path))
            self.made.append(path)
        palette.apply(app, "light")

    def paper(self, name: str, pdf: bytes) -> None:
        """Save a paper, and each of its pages as a picture."""
        path = self.folder / f"{name}.pdf"
        path.write_bytes(pdf)
        self.made.append(path)
        for number, image in enumerate(page_images(pdf, PAGE_SCALE), 1):
            path = self.folder / f"{name}-{number}.png"
            image.save(str(path))
            self.made.append(path)

    def note(self, name: str, text: str) -> None:
        """Save a text."""
        path = self.folder / name
        path.write_text(text, encoding="utf-8")
        self.made.append(path)

    @contextmanager
    def naming_files(self) -> Iterator[None]:
        """While this holds, the platform's question where a file goes is answered with our folder: no hands of ours
        reach a window of the platform."""
        asked = QFileDialog.getSaveFileName

        def answered(parent: QWidget | None, title: str, name: str, kinds: str) -> tuple[str, str]:
            self.made.append(self.folder / name)
            return str(self.folder / name), kinds

        QFileDialog.getSaveFileName = answered  # type: ignore[assignment,method-assign]
        try:
            yield
        finally:
            QFileDialog.getSaveFileName = asked  # type: ignore[method-assign]

    def _focus(self) -> QWidget:
        return QApplication.focusWidget() or self.window
