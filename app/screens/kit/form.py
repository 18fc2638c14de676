"""Forms: section words at the left, soft labels right-aligned to one line, fields from there; in narrow ones the
labels stand above their fields."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, Protocol

import shiboken6
from PySide6.QtCore import QEvent, QObject, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QGridLayout, QTextEdit, QWidget

from app.screens.kit.boxes import set_shown
from app.screens.kit.fields import TextArea
from app.screens.kit.form_line import GAP, FormLine
from app.screens.kit.label import Label
from app.screens.kit.measure import fix, px
from app.screens.kit.palette import ink
from app.screens.kit.strokes import hline

SECTION = 84
ROOM = 180  # px that the fields want beside their labels
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


@dataclass(eq=False)
class _Line:
    """A field with what belongs to it; a ``wide`` one takes the room of the label too."""

    field: QWidget
    label: Label | None
    section: Label | None
    rule: QWidget | None
    wide: bool = False


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
        self._at = 0  # the next free row of the grid
        self._lines: list[_Line] = []
        self._above = False
        self._pending_section: Label | None = None
        self._pending_rule: QWidget | None = None
        self._fields: list[QWidget] = []
        self._labels: dict[QWidget, QWidget] = {}
        self.refit()

    def refit(self) -> None:
        self._grid.setHorizontalSpacing(px(GAP))
        self._grid.setVerticalSpacing(px(ROW_GAP))
        self._lay_lines()

    # how it lies

    @property
    def labels_above(self) -> bool:
        """Whether it is so narrow that labels stand above their fields."""
        return self._above

    def event(self, event: QEvent) -> bool:
        if event.type() in (QEvent.Type.Resize, QEvent.Type.LayoutRequest):
            above = self.width() < self._beside_width()
            if above != self._above:
                self._above = above
                self._lay_lines()
                self._grid.activate()  # at once: nothing is to be seen in its former place
        return super().event(event)

    def minimumSizeHint(self) -> QSize:
        fields = (max(one.field.minimumSizeHint().width(), one.field.minimumWidth()) for one in self._shown())
        labels = (one.label.sizeHint().width() for one in self._shown() if one.label is not None)
        return QSize(max([px(60), *fields, *labels]), self._grid.minimumSize().height())

    def _shown(self) -> Iterable[_Line]:
        return (line for line in self._lines if not line.field.isHidden())

    def _beside_width(self) -> int:
        """Px that section words, labels and fields take beside each other."""
        gap, labels, fields, wide = px(GAP), px(self._label_width), px(ROOM), 0
        sections = px(SECTION) if self._sections else 0
        for line in self._shown():
            need = line.field.minimumSizeHint().width()
            if line.wide:
                wide = max(wide, need)
                continue
            fields = max(fields, need)
            if line.label is not None:
                labels = max(labels, line.label.sizeHint().width())
            if line.section is not None:
                sections = max(sections, line.section.sizeHint().width())
        return sections + gap + max(labels + gap + fields, wide)

    def _lay_lines(self) -> None:
        """Put everything into its cell."""
        grid, above = self._grid, self._above
        grid.setColumnMinimumWidth(0, px(SECTION) if self._sections and not above else 0)
        grid.setColumnMinimumWidth(1, px(self._label_width) if not above else 0)
        while (taken := grid.takeAt(0)) is not None:
            # One that lives on keeps the height of its successor from being asked anew.
            shiboken6.delete(taken)
        self._at = 0
        for line in self._lines:
            self._lay(line)

    def _lay(self, line: _Line) -> None:
        if self._above:
            self._lay_above(line)
        else:
            self._lay_beside(line)

    def _lay_beside(self, line: _Line) -> None:
        if line.rule is not None:
            self._grid.addWidget(line.rule, self._at, 0, 1, 3)
            self._at += 1
        top = Qt.AlignmentFlag.AlignTop
        if line.section is not None:
            self._grid.addWidget(line.section, self._at, 0, top)
            _make_tall(line.section, 32)
        if line.label is not None:
            self._grid.addWidget(line.label, self._at, 1, Qt.AlignmentFlag.AlignRight | top)
            _make_tall(line.label, 32)
        self._grid.addWidget(line.field, self._at, 1 if line.wide else 2, 1, 2 if line.wide else 1)
        self._at += 1

    def _lay_above(self, line: _Line) -> None:
        for part in (line.rule, line.section, line.label, line.field):
            if part is None:
                continue
            self._grid.addWidget(part, self._at, 0, 1, 3)
            if isinstance(part, Label) and part is not line.field:
                _make_tall(part, 18)
            self._at += 1

    # what stands in it

    def section(self, word: str) -> None:
        """Begin a part with its word; a hairline parts it from the one before."""
        self._pending_rule = _Rule(self) if self._lines else None
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
                fix(words, min_height=32)
                across.add_words(words)
                name = item or name
            elif isinstance(item, QWidget):
                self._take(item, name)
                last = stretch_last and not widths_given and item is items[-1]
                across.add_field(item, grows=last or _grows(item))
            else:
                across.add_space(item)
        before = Label(label, "soft", parent=self) if label else None
        if before is not None:
            self._labels[line] = before
        self._put(line, before)
        return line

    def _put(self, field: QWidget, label: Label | None = None, *, wide: bool = False) -> None:
        self._lines.append(_Line(field, label, self._pending_section, self._pending_rule, wide))
        self._pending_section = self._pending_rule = None
        self._lay(self._lines[-1])

    def show_rows(self, lines: Iterable[QWidget], shown: bool) -> None:
        """Show or hide lines that `row` gave back, with their labels."""
        for line in lines:
            set_shown(line, shown)
            if line in self._labels:
                set_shown(self._labels[line], shown)

    def wide(self, item: QWidget) -> None:
        """Add something across label and field columns, e.g. a table or a line of words."""
        self._put(item, wide=True)

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


def _make_tall(label: Label, height: float) -> None:
    """Another least height, in px for L = 18."""
    fix(label, min_height=height)
    label.setIndent(label.indent())  # else Qt's label goes on asking for its former height


def _grows(item: QWidget) -> bool:
    return bool(item.sizePolicy().expandingDirections() & Qt.Orientation.Horizontal)


def _moves_on(watched: QObject) -> bool:
    from PySide6.QtWidgets import QRadioButton

    return isinstance(watched, QRadioButton)
