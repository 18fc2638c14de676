"""Help with the page in sight, in the margin: Markdown files from assets/help, no network."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt, QUrl, Signal
from PySide6.QtGui import (
    QKeyEvent,
    QPainter,
    QPaintEvent,
    QTextBlockFormat,
    QTextCharFormat,
    QTextCursor,
)
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

WIDTH = 384
QWIDGETSIZE_MAX = (1 << 24) - 1  # Qt's own, which PySide does not hand on
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
        self.setVerticalScrollBar(ScrollBar(Qt.Orientation.Vertical, self, ground="alternate"))
        self.viewport().setAutoFillBackground(False)
        self.setAccessibleName(say("Help"))

    def show_page(self, markdown: str) -> None:
        """Show a page in our two sizes: its name large, parts in the heavier weight."""
        self.setMarkdown(markdown)
        self.dress()
        self.moveCursor(QTextCursor.MoveOperation.Start)

    def dress(self) -> None:
        """Set it out anew for the size of the text."""
        page = self.document()
        page.setDocumentMargin(px(18))
        page.setIndentWidth(px(14))
        block = page.begin()
        while block.isValid():
            level = block.blockFormat().headingLevel()
            shape = QTextBlockFormat()
            shape.setTopMargin(px(14) if level > 1 else 0)
            shape.setBottomMargin(px(5))
            cursor = QTextCursor(block)
            cursor.mergeBlockFormat(shape)
            if level:
                look = QTextCharFormat()
                look.setFont(measure.large() if level == 1 else measure.strong())
                cursor.movePosition(QTextCursor.MoveOperation.EndOfBlock, QTextCursor.MoveMode.KeepAnchor)
                cursor.setCharFormat(look)
            block = block.next()

    def loadResource(self, kind: int, name: QUrl | str) -> object:
        return None  # a help text shows words only; nothing is fetched


class HelpMargin(QWidget):
    """Shown and hidden by F1; Esc closes it. Where there is no room beside the page it takes the page's place."""

    closed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.topic = ""
        self._whole = False
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Expanding)
        self._text = _Text(self)
        self._text.anchorClicked.connect(self._follow)
        top = Row(gap=9, margins=(23, 18, 18, 0))
        top.add(Label(say("Help with this page"), "soft"), stretch=1)
        top.add(Button(say("Close help"), self.close_help, kind="quiet", key="F1"))
        column = Column(self, margins=(4, 0, 0, 0))
        column.add(top)
        column.add(self._text, stretch=1)
        self.set_whole(False)
        self.hide()

    def set_whole(self, whole: bool) -> None:
        """Take all the room there is, or stand in the margin."""
        self._whole = whole
        if whole:
            self.setMinimumWidth(0)
            self.setMaximumWidth(QWIDGETSIZE_MAX)
        else:
            self.setFixedWidth(px(WIDTH))

    def show_topic(self, topic: str) -> None:
        """Show a topic and take the focus, so that it can be read and scrolled by keys."""
        code = language.current().language
        path = help_file(topic, code) or help_file("index", code)
        self.topic = topic
        self._text.show_page(path.read_text(encoding="utf-8") if path is not None else "")
        self.show()
        self._text.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def words(self) -> str:
        """The text in sight."""
        return self._text.toPlainText()

    def refit(self) -> None:
        self.set_whole(self._whole)
        self._text.dress()

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
