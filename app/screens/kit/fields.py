"""Fields: an entry with what was read beside it and what cannot be right below it."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QSize, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QCompleter, QFrame, QLineEdit, QPlainTextEdit, QSizePolicy, QWidget

from app.screens.kit import measure
from app.screens.kit.boxes import Column, Row
from app.screens.kit.label import Label
from app.screens.kit.measure import px
from app.screens.kit.palette import ink
from app.screens.kit.scrolling import ScrollBar


class Entry(QLineEdit):
    """The typing line itself: 32 high, 1 px edge, 2 px accent when focused."""

    stepped = Signal(int)  # Down is 1, Up is -1: marks in a list of matches
    taken = Signal()  # Enter
    left = Signal()  # focus went elsewhere

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("framed", True)
        self.setAccessibleName(name)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.refit()

    def refit(self) -> None:
        self.setTextMargins(px(6), 0, px(6), 0)
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        return QSize(px(180), px(32))

    def minimumSizeHint(self) -> QSize:
        return QSize(px(36), px(32))

    def set_wrong(self, wrong: bool) -> None:
        """Draw the border in the ink of a stop; the words below say why."""
        self.setProperty("wrong", wrong)
        self.update()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        plain = not event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        if plain and event.key() in (Qt.Key.Key_Down, Qt.Key.Key_Up):
            self.stepped.emit(1 if event.key() == Qt.Key.Key_Down else -1)
            return
        if plain and event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.taken.emit()
            event.ignore()  # the form moves on to the next field
            return
        super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.update()
        if event.reason() not in (Qt.FocusReason.PopupFocusReason, Qt.FocusReason.ActiveWindowFocusReason):
            self.left.emit()


class Field(QWidget):
    """An entry with its sentence: ``set_echo`` beside it in soft, ``set_error`` below it.

    ``width`` is in px for L = 18; without it the field takes the room there is. ``name`` is what a
    screen reader calls it; a form gives it the words of its label.
    """

    changed = Signal(str)
    entered = Signal()  # Enter was pressed
    left = Signal()

    def __init__(
        self,
        name: str,
        *,
        text: str = "",
        hint: str = "",
        width: float | None = None,
        seen: Sequence[str] = (),
        secret: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.edit = Entry(name, self)
        self.edit.setPlaceholderText(hint)
        self.edit.setText(text)
        if secret:
            self.edit.setEchoMode(QLineEdit.EchoMode.Password)
        self.setFocusProxy(self.edit)
        self.setAccessibleName(name)
        self._echo = Label("", "soft")
        self._echo.hide()
        self._error = Sentence(self)
        self._error.hide()
        line = Row(gap=9)
        line.add(self.edit, stretch=0 if width else 1)
        line.add(self._echo)
        if width:
            measure.fix(self.edit, width=width)
            line.addStretch(1)
        Column(self, gap=2).add(line, self._error)
        self.setSizePolicy(
            QSizePolicy.Policy.Preferred if width else QSizePolicy.Policy.Expanding,
            QSizePolicy.Policy.Fixed if not width else QSizePolicy.Policy.Preferred,
        )
        self.edit.textChanged.connect(self.changed)
        self.edit.taken.connect(self.entered)
        self.edit.left.connect(self.left)
        if seen:
            self.set_seen(seen)

    def text(self) -> str:
        """What stands in it, without space at the ends."""
        return self.edit.text().strip()

    def set_text(self, text: str) -> None:
        """Put ``text`` in; emits `changed` where it differs."""
        self.edit.setText(text)

    def set_name(self, name: str) -> None:
        """What a screen reader calls it."""
        self.setAccessibleName(name)
        self.edit.setAccessibleName(name)

    def set_echo(self, echo: str) -> None:
        """The value as read, in soft beside it, e.g. ``read as 4.7 kΩ``; empty for none."""
        self._echo.setText(echo)
        self._echo.setVisible(bool(echo))

    def set_error(self, sentence: str) -> None:
        """Why it cannot be right, below it; empty for none."""
        self.edit.set_wrong(bool(sentence))
        self._error.setText(sentence)
        self._error.setVisible(bool(sentence))
        self.edit.setAccessibleDescription(sentence)

    def error(self) -> str:
        """The sentence below it."""
        return self._error.text()

    def echo(self) -> str:
        """The words beside it."""
        return self._echo.text()

    def set_seen(self, words: Sequence[str]) -> None:
        """Everything seen before: completed in the line itself while typing, never in a pop-up."""
        completer = QCompleter(list(dict.fromkeys(words)), self.edit)
        completer.setCompletionMode(QCompleter.CompletionMode.InlineCompletion)
        completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        self.edit.setCompleter(completer)

    def set_fixed(self, fixed: bool) -> None:
        """Only to be read: dashed border."""
        self.edit.setReadOnly(fixed)
        self.edit.setProperty("fixed", fixed)
        self.edit.update()


class Sentence(Label):
    """The sentence under a field that cannot be right, in the ink of a stop."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("", wrap=True, parent=parent)

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        p.setPen(ink("stop"))
        p.setFont(self.font())
        p.drawText(self.rect(), int(Qt.AlignmentFlag.AlignLeft | Qt.TextFlag.TextWordWrap), self.text())


class TextArea(QPlainTextEdit):
    """Several lines of words; Tab leaves it. ``lines`` is its least height in lines."""

    changed = Signal()
    left = Signal()

    def __init__(
        self, name: str, *, text: str = "", hint: str = "", lines: int = 2, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._lines = lines
        self.setProperty("framed", True)
        self.setAccessibleName(name)
        self.setTabChangesFocus(True)
        self.setFrameShape(QFrame.Shape.StyledPanel)
        self.setVerticalScrollBar(ScrollBar(Qt.Orientation.Vertical, self))
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setPlaceholderText(hint)
        self.refit()
        self.setPlainText(text)
        self.textChanged.connect(self.changed)

    def refit(self) -> None:
        self.document().setDocumentMargin(px(8))
        self.updateGeometry()

    def text(self) -> str:
        """What stands in it, without space at the ends."""
        return self.toPlainText().strip()

    def set_text(self, text: str) -> None:
        """Put ``text`` in."""
        self.setPlainText(text)

    def set_name(self, name: str) -> None:
        """What a screen reader calls it."""
        self.setAccessibleName(name)

    def sizeHint(self) -> QSize:
        return QSize(px(200), self._lines * measure.line() + px(18))

    def minimumSizeHint(self) -> QSize:
        return QSize(px(80), self.sizeHint().height())

    def event(self, event: QEvent) -> bool:
        if event.type() in (QEvent.Type.FocusIn, QEvent.Type.FocusOut):
            self.update()
        return super().event(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.left.emit()
