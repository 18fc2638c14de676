"""Help with the page in sight, in the margin: Markdown files from assets/help, no network."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt, QUrl, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QFrame, QSizePolicy, QTextBrowser, QWidget

from app.screens import language
from app.screens.kit import measure
from app.screens.kit.boxes import Column, Row
from app.screens.kit.buttons import Button
from app.screens.kit.label import Label
from app.screens.kit.measure import px
from app.screens.kit.palette import ink
from app.screens.kit.scrolling import ScrollBar
from app.screens.kit.strokes import vline
from app.screens.language import say

HELP = Path(__file__).resolve().parents[3] / "assets" / "help"


def help_file(topic: str, language_code: str) -> Path | None:
    """The file of a topic in a language, else in English; None where there is none or the name is foreign."""
    if not topic.replace("_", "").replace("-", "").isalnum():
        return None
    for code in (language_code, "en"):
        path = HELP / code / f"{topic}.md"
        if path.is_file():
            return path
    return None


class _Text(QTextBrowser):
    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setOpenLinks(False)
        self.setOpenExternalLinks(False)
        self.setVerticalScrollBar(ScrollBar(Qt.Orientation.Vertical, self))
        self.viewport().setAutoFillBackground(False)
        self.setAccessibleName(say("Help"))

    def loadResource(self, kind: int, name: QUrl | str) -> object:
        return None  # a help text shows words only; nothing is fetched


class HelpMargin(QWidget):
    """Shown and hidden by F1; Esc closes it."""

    closed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.topic = ""
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Expanding)
        measure.fix(self, width=384)
        self._text = _Text(self)
        self._text.anchorClicked.connect(self._follow)
        top = Row(gap=9, margins=(23, 18, 18, 0))
        top.add(Label(say("Help with this page"), "soft"), stretch=1)
        top.add(Button(say("Close help"), self.close_help, kind="quiet", key="F1"))
        column = Column(self, margins=(4, 0, 0, 0))
        column.add(top)
        column.add(self._text, stretch=1)
        self.hide()

    def show_topic(self, topic: str) -> None:
        """Show a topic and take the focus, so that it can be read and scrolled by keys."""
        code = language.current().language
        path = help_file(topic, code) or help_file("index", code)
        self.topic = topic
        self._text.document().setDocumentMargin(px(18))
        self._text.setMarkdown(path.read_text(encoding="utf-8") if path is not None else "")
        self.show()
        self._text.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def words(self) -> str:
        """The text in sight."""
        return self._text.toPlainText()

    def refit(self) -> None:
        if self.isVisible():
            self._text.document().setDocumentMargin(px(18))

    def close_help(self) -> None:
        """Hide it; the focus goes back to the page."""
        self.hide()
        self.closed.emit()

    def _follow(self, url: QUrl) -> None:
        name = url.toString().removesuffix(".md")
        if help_file(name, "en") is not None:
            self.show_topic(name)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.close_help()
            return
        super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        p.fillRect(self.rect(), ink("alternate"))
        vline(p, 0, 0, self.height(), "edge")
        vline(p, 3, 0, self.height(), "line")
