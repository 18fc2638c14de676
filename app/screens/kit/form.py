"""Forms: section words at the left, soft labels right-aligned to one line, fields from there."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, Protocol

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QGridLayout, QTextEdit, QWidget

from app.screens.kit.boxes import set_shown
from app.screens.kit.fields import TextArea
from app.screens.kit.form_line import GAP, FormLine
from app.screens.kit.label import Label
from app.screens.kit.measure import px
from app.screens.kit.palette import ink
from app.screens.kit.strokes import hline

SECTION = 84
LABEL = 112
ROW_GAP = 7


class Named(Protocol):
    """A widget that can be given its accessible name."""

    def set_name(self, name: str) -> None: ...


class _Rule(QWidget):
    """A hairline between sections."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.refit()

    def refit(self) -> None:
        self.setFixedHeight(px(3))

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        hline(p, 0, self.width(), self.height() // 2, ink("line"))


class Form(QWidget):
    """``section`` begins a part, ``row`` adds a line of label and field, and further labels and fields.

    Enter goes to the next field (also into the next row); Ctrl+Enter emits `save_asked`, Esc `leave_asked`;
    `typed` is emitted whenever any field changes, for the draft.
    """

    save_asked = Signal()
    leave_asked = Signal()
    typed = Signal()

    def __init__(
        self, *, sections: bool = True, label_width: float = LABEL, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._sections = sections
        self._label_width = label_width
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setColumnStretch(2, 1)
        self._at = 0
        self._pending_section: Label | None = None
        self._fields: list[QWidget] = []
        self._labels: dict[QWidget, QWidget] = {}
        self.refit()

    def refit(self) -> None:
        self._grid.setHorizontalSpacing(px(GAP))
        self._grid.setVerticalSpacing(px(ROW_GAP))
        self._grid.setColumnMinimumWidth(0, px(SECTION) if self._sections else 0)
        self._grid.setColumnMinimumWidth(1, px(self._label_width))

    def section(self, word: str) -> None:
        """Begin a part with its word; a hairline parts it from the one before."""
        if self._at:
            self._grid.addWidget(_Rule(self), self._at, 0, 1, 3)
            self._at += 1
        self._pending_section = Label(word, "strong", parent=self)

    def row(self, label: str, *items: QWidget | str | float, stretch_last: bool = False) -> QWidget:
        """Add a line. ``items`` are fields, further soft labels as words, or space; returns the line.

        The first field is named by ``label``, each later field by the words before it.
        """
        line = QWidget(self)
        across = FormLine(line)
        name = label
        widths_given = any(isinstance(item, QWidget) and _grows(item) for item in items)
        for item in items:
            if isinstance(item, str):
                words = Label(item, "soft")
                self._as_tall_as_field(words)
                across.add_words(words)
                name = item or name
            elif isinstance(item, QWidget):
                self._take(item, name)
                last = stretch_last and not widths_given and item is items[-1]
                across.add_field(item, grows=last or _grows(item))
            else:
                across.add_space(item)
        if self._pending_section is not None:
            self._grid.addWidget(self._pending_section, self._at, 0, Qt.AlignmentFlag.AlignTop)
            self._as_tall_as_field(self._pending_section)
            self._pending_section = None
        if label:
            before = Label(label, "soft", parent=self)
            right = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop
            self._grid.addWidget(before, self._at, 1, right)
            self._as_tall_as_field(before)
            self._labels[line] = before
        self._grid.addWidget(line, self._at, 2)
        self._at += 1
        return line

    def show_rows(self, lines: Iterable[QWidget], shown: bool) -> None:
        """Show or hide lines that `row` gave back, with their labels."""
        for line in lines:
            set_shown(line, shown)
            if line in self._labels:
                set_shown(self._labels[line], shown)

    def wide(self, item: QWidget) -> None:
        """Add something across label and field columns, e.g. a table or a line of words."""
        self._grid.addWidget(item, self._at, 1, 1, 2)
        self._at += 1

    def fields(self) -> tuple[QWidget, ...]:
        """The fields in the order of the keyboard."""
        return tuple(self._fields)

    def first(self) -> None:
        """Put the focus into the first field."""
        for field in self._fields:
            takes = field
            while (inner := takes.focusProxy()) is not None:
                takes = inner
            can = takes.focusPolicy() != Qt.FocusPolicy.NoFocus
            if can and field.isVisibleTo(self) and field.isEnabled():
                field.setFocus(Qt.FocusReason.TabFocusReason)
                return

    def _as_tall_as_field(self, label: QWidget) -> None:
        from app.screens.kit.measure import fix

        fix(label, min_height=32)

    def _take(self, item: QWidget, name: str) -> None:
        if name and not item.accessibleName():
            namer: Any = item
            if hasattr(namer, "set_name"):
                namer.set_name(name)
            else:
                item.setAccessibleName(name)
        for watched in (item, item.focusProxy()):
            if watched is not None:
                watched.installEventFilter(self)
        for child in item.findChildren(QWidget):
            if child.focusPolicy() != Qt.FocusPolicy.NoFocus:
                child.installEventFilter(self)
        changed = getattr(item, "changed", None) or getattr(item, "toggled", None)
        if changed is not None:
            changed.connect(self._typed)
        self._fields.append(item)

    def _typed(self, *_: object) -> None:
        self.typed.emit()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() != QEvent.Type.KeyPress or not isinstance(event, QKeyEvent):
            return False
        enter = event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        mods = event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        if enter and mods == Qt.KeyboardModifier.ControlModifier:
            self.save_asked.emit()
            return True
        if event.key() == Qt.Key.Key_Escape and not mods:
            self.leave_asked.emit()
            return True
        if enter and not mods and not isinstance(watched, (TextArea, QTextEdit)):
            # The widget sees Enter first: an entry takes a marked match, a button is pressed.
            watched.event(event)
            if not event.isAccepted() or _moves_on(watched):
                self.focusNextChild()
            event.accept()  # else it goes on to the form around the field and moves on twice
            return True
        return False


def _grows(item: QWidget) -> bool:
    return bool(item.sizePolicy().expandingDirections() & Qt.Orientation.Horizontal)


def _moves_on(watched: QObject) -> bool:
    from PySide6.QtWidgets import QRadioButton

    return isinstance(watched, QRadioButton)
