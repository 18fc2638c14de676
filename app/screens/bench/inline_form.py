"""A form that opens in the sheet itself, under the heading of what it adds to."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from itertools import pairwise
from typing import Any

from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QShowEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.desk import Desk
from app.screens.kit.boxes import Column, Flow
from app.screens.kit.buttons import Button
from app.screens.kit.fields import Sentence
from app.screens.kit.form import Form
from app.screens.kit.label import Label
from app.screens.kit.measure import fix, px
from app.screens.kit.palette import ink
from app.screens.kit.strokes import hline
from app.screens.language import clock_time, say
from app.trade.refusal import FieldRefusal

Deed = Callable[[], Any]


class InlineForm(QWidget):
    """Enter goes on, Ctrl+Enter saves, Esc leaves and keeps what was typed.

    A form makes its fields in ``__init__`` with ``add`` and says in ``deed(who)`` what saving does. Values go to
    the drafts under ``key`` while they are typed. `saved` brings what the deed gave back; `failed` an error
    that belongs to no field, with the call that tries again; `left` that it was left.
    """

    saved = Signal(object)
    failed = Signal(object, object)
    left = Signal()

    def __init__(
        self, desk: Desk, key: str, save: str, *, label_width: float = 112, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.desk = desk
        self.key = key
        self.named: dict[str, Any] = {}
        self.hidden_values: dict[str, Any] = {}  # ids and the like that belong to the draft
        self.busy = False
        self._filling = False
        self._in_order = False
        self.form = Form(sections=False, label_width=label_width)
        self.wrong = Sentence()
        self.wrong.hide()
        self._hint = Label("", "soft")
        self.save_button = Button(save, self.save, key="Ctrl+Return")
        self.leave_button = Button(say("Leave"), self.leave, kind="quiet", key="Esc")
        self.empty_button = Button(say("Empty it"), self.throw_away, kind="quiet")
        self.buttons = Flow(gap=14)
        self.buttons.add(self.save_button, self.leave_button, self.empty_button, self._hint)
        self._column = Column(self, gap=9, margins=(9, 11, 9, 11))
        self._column.add(self.form, self.wrong)
        self._column.addLayout(self.buttons)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        self.form.typed.connect(self._typed)
        self.form.save_asked.connect(self.save)
        self.form.leave_asked.connect(self.leave)
        desk.drafts.kept.connect(self._kept)

    # for forms to override

    def deed(self, who: int) -> Deed:
        """What saving does, run away from the window. Raises FieldRefusal for what cannot be right."""
        raise NotImplementedError

    def changed(self) -> None:
        """Something was typed: show what follows from it at once."""

    def first_field(self) -> QWidget | None:
        """Where the focus begins; the first field unless a form knows better."""
        return None

    # fields and values

    def add(self, name: str, field: Any) -> Any:
        """Name a field for drafts and refusals; put it into a row of ``self.form`` as well."""
        self.named[name] = field
        return field

    def values(self) -> dict[str, Any]:
        """What stands in the form, as JSON can hold it."""
        return {**self.hidden_values, **{name: value_of(field) for name, field in self.named.items()}}

    def fill(self, values: Mapping[str, Any]) -> None:
        """Put a draft's values into the fields."""
        self._filling = True
        try:
            for name, value in values.items():
                if name in self.hidden_values:
                    self.hidden_values[name] = value
                elif name in self.named:
                    put_value(self.named[name], value)
        finally:
            self._filling = False
        self.changed()

    def take_draft(self) -> bool:
        """Fill from the draft that was kept; False when there is none."""
        draft = self.desk.drafts.read(self.key)
        if not draft:
            return False
        self.fill(draft)
        self._hint.setText(say("Taken from the draft that was kept."))
        return True

    def focus_first(self) -> None:
        """Put the focus where typing begins."""
        field = self.first_field()
        if field is not None:
            field.setFocus(Qt.FocusReason.TabFocusReason)
        else:
            self.form.first()

    def showEvent(self, event: QShowEvent) -> None:
        """By Tab the buttons follow the last field, though they were made before the fields."""
        super().showEvent(event)
        if not self._in_order:
            self._in_order = True
            takers = [taker for field in self.form.fields() if (taker := _takes_focus(field)) is not None]
            places = (self.save_button, self.leave_button, self.empty_button)
            for before, after in pairwise((*takers[-1:], *places)):
                QWidget.setTabOrder(before, after)

    # saving and leaving

    def save(self) -> None:
        """Check what can be checked here, then hand the deed to the book."""
        if self.busy:
            return
        staff = self.desk.staff
        if staff is None:
            self.say_wrong(say("Say first who works here now, with Ctrl+U."))
            return
        self.clear_errors()
        try:
            deed = self.deed(staff.id)
        except FieldRefusal as refusal:
            self.refuse(refusal)
            return
        self.keep_draft()
        self.busy = True
        self.desk.change(self, deed, self._done, self._failed)

    def leave(self) -> None:
        """Go, and keep what was typed."""
        self.left.emit()

    def throw_away(self) -> None:
        """Forget what was typed, and go."""
        self.desk.drafts.drop(self.key)
        self.left.emit()

    def keep_draft(self) -> None:
        """Hand what stands in the form to the drafts."""
        self.desk.drafts.keep(self.key, self.values())

    def _done(self, result: Any) -> None:
        self.busy = False
        self.desk.drafts.drop(self.key)
        self.saved.emit(result)

    def _failed(self, error: Exception) -> None:
        self.busy = False
        if isinstance(error, FieldRefusal):
            self.refuse(error)
        else:
            self.failed.emit(error, self.save)

    def refuse(self, refusal: FieldRefusal) -> None:
        """Put each sentence under its field and the focus into the first of them."""
        first: Any = None
        rest: list[str] = []
        for name, sentence in refusal.fields.items():
            field = self.named.get(name)
            if field is not None and hasattr(field, "set_error") and not field.isHidden():
                field.set_error(say(sentence))
                first = first or field
            else:
                rest.append(say(sentence))
        self.say_wrong(" ".join(rest))
        if first is not None:
            first.setFocus(Qt.FocusReason.OtherFocusReason)

    def say_wrong(self, words: str) -> None:
        """A sentence of trouble under the form; empty for none."""
        self.wrong.setText(words)
        self.wrong.setVisible(bool(words))
        self.wrong.setAccessibleName(words)

    def clear_errors(self) -> None:
        """Take all sentences of trouble away."""
        self.say_wrong("")
        for field in self.named.values():
            if hasattr(field, "set_error"):
                field.set_error("")

    def _typed(self) -> None:
        if self._filling:
            return
        self.keep_draft()
        self.changed()

    def _kept(self, key: str) -> None:
        if key == self.key and self.isVisible():
            self._hint.setText(say("Draft kept, {time}.", time=clock_time(self.desk.now())))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Lies in the sheet between two hairlines, with the bar of what is marked at its left."""
        p = QPainter(self)
        p.fillRect(self.rect(), ink("alternate"))
        hline(p, 0, self.width(), 0, "line")
        hline(p, 0, self.width(), self.height() - 1, "line")
        p.fillRect(QRectF(0, 0, px(3), self.height()), ink("accent"))


def told(kind: str = "soft") -> Label:
    """Words in a form that take the room there is, as tall as a field when they are one line."""
    label = Label("", kind, wrap=True)
    policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
    policy.setHeightForWidth(True)
    label.setSizePolicy(policy)
    return label


def beside(kind: str = "soft") -> Label:
    """Words behind a field in its line."""
    label = Label("", kind)
    fix(label, min_height=32)
    return label


def _takes_focus(field: QWidget) -> QWidget | None:
    """What takes the keys of a field that is made of parts; None where nothing does."""
    taker = field
    while (inner := taker.focusProxy()) is not None:
        taker = inner
    return taker if taker.focusPolicy() != Qt.FocusPolicy.NoFocus else None


def value_of(field: Any) -> Any:
    """What stands in a field, as JSON can hold it."""
    if hasattr(field, "isChecked"):
        return field.isChecked()
    value = field.value() if hasattr(field, "value") else field.text()
    return str(value) if isinstance(value, str) else value


def put_value(field: Any, value: Any) -> None:
    """Put a value of a draft back into its field; one that is no longer offered leaves it as it is."""
    if hasattr(field, "isChecked"):
        field.setChecked(bool(value))
    elif hasattr(field, "set_value"):
        try:
            field.set_value(value)
        except (ValueError, IndexError):
            return
    else:
        field.set_text(str(value or ""))
