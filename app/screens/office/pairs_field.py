"""A list of pairs: something chosen, and a number, a word or a choice that belongs to it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit.boxes import Column, Flow, clear_layout, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.combo import Combo
from app.screens.kit.fields import Field, Sentence
from app.screens.kit.label import Label
from app.screens.kit.measure import fix
from app.screens.language import say

WHAT = (
    420  # of the choice: what belongs to it stands in one line from row to row, and below it on a narrow page
)


class _Pair(QWidget):
    """One row: the choice, what belongs to it, and a link that removes both."""

    def __init__(self, name: str, offers: Sequence[tuple[str, str]], second: Any, unit: str) -> None:
        super().__init__()
        self.what = Combo(name, offers, width=WHAT)
        self.second = second
        self.remove = Button(say("Remove"), kind="quiet")
        line = Flow(self, gap=9, line_gap=2)
        line.add(self.what, second)
        if unit:
            behind = Label(unit, "soft")
            fix(behind, min_height=32)
            line.add(behind)
        fix(self.remove, min_height=32)
        line.add(self.remove)
        tall = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        tall.setHeightForWidth(True)
        self.setSizePolicy(tall)

    def value(self) -> list[str]:
        """The key and what belongs to it; an empty key where nothing is chosen."""
        second = self.second.text() if isinstance(self.second, Field) else str(self.second.value() or "")
        return [self.what.value() or "", second]

    def name(self, name: str) -> None:
        """Say what it is for a screen reader, after something else was chosen."""
        chosen = self.what.currentText()
        self.second.set_name(f"{name}: {chosen}" if chosen else name)
        self.remove.setAccessibleName(say("Remove {what}", what=chosen) if chosen else say("Remove"))


class PairsField(QWidget):
    """``value()`` is a list of key and text. ``make`` makes what belongs to a choice, a Field or a Combo; ``unit``
    stands behind it. ``told`` says something of all of them beside the link that adds one, e.g. their sum."""

    changed = Signal()

    def __init__(
        self,
        add_words: str,
        make: Callable[[], Field | Combo],
        *,
        unit: str = "",
        told: Callable[[list[list[str]]], str] | None = None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._make, self._unit, self._told = make, unit, told
        self._offers: Sequence[tuple[str, str]] = ()
        self.pairs: list[_Pair] = []
        self._rows = Column(gap=4)
        self.add = Button(add_words, self._add, kind="quiet")
        self.sum = Label("", "strong")
        self._error = Sentence(self)
        set_shown(self._error, False)
        below = QWidget()
        Flow(below, gap=18, line_gap=4).add(self.add, self.sum)
        tall = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        tall.setHeightForWidth(True)
        below.setSizePolicy(tall)
        whole = Column(self, gap=4)
        whole.addLayout(self._rows)
        whole.add(below, self._error)
        self.setSizePolicy(tall)
        self.setFocusProxy(self.add)

    def set_offers(self, offers: Sequence[tuple[str, str]]) -> None:
        """What can be chosen, as pairs of key and words; what is chosen stays, where it is still offered."""
        value, self._offers = self.value(), offers
        self.set_value(value)

    def set_name(self, name: str) -> None:
        """What a screen reader calls it."""
        self.setAccessibleName(name)
        for pair in self.pairs:
            pair.name(name)

    def set_error(self, sentence: str) -> None:
        """Why it cannot be right; empty for none."""
        self._error.setText(sentence)
        set_shown(self._error, bool(sentence))

    def error(self) -> str:
        """The sentence below it."""
        return self._error.text()

    def value(self) -> list[list[str]]:
        """Key and text of every row in which something is chosen."""
        return [pair.value() for pair in self.pairs if pair.value()[0]]

    def set_value(self, value: Sequence[Sequence[str]]) -> None:
        """Show these; one that is not offered is left out."""
        clear_layout(self._rows)
        self.pairs = []
        known = {key for key, _ in self._offers}
        for key, text in value:
            if key in known:
                self._put(key, text)
        self._tell()

    def words_of(self, key: str) -> str:
        """The words of a choice."""
        return dict(self._offers).get(key, key)

    def _put(self, key: str, text: str) -> _Pair:
        pair = _Pair(self.accessibleName(), self._offers, self._make(), self._unit)
        if key:
            pair.what.set_value(key)
            if isinstance(pair.second, Field):
                pair.second.set_text(text)
            else:
                pair.second.set_value(text)
        pair.name(self.accessibleName())
        pair.what.changed.connect(partial(self._changed, pair))
        pair.second.changed.connect(partial(self._changed, pair))
        pair.remove.clicked.connect(partial(self._remove, pair))
        self.pairs.append(pair)
        self._rows.addWidget(pair)
        return pair

    def _add(self) -> None:
        pair = self._put("", "")
        pair.what.setFocus(Qt.FocusReason.OtherFocusReason)
        self.changed.emit()

    def _remove(self, pair: _Pair, *_: object) -> None:
        self.pairs.remove(pair)
        self._rows.removeWidget(pair)
        pair.hide()
        pair.deleteLater()
        self.add.setFocus(Qt.FocusReason.OtherFocusReason)
        self._tell()
        self.changed.emit()

    def _changed(self, pair: _Pair, *_: object) -> None:
        pair.name(self.accessibleName())
        self._tell()
        self.changed.emit()

    def _tell(self) -> None:
        self.sum.setText(self._told(self.value()) if self._told is not None else "")

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter in a row goes on, as in the form around it."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and not (
            event.modifiers() & Qt.KeyboardModifier.ControlModifier
        ):
            self.focusNextChild()
            return
        super().keyPressEvent(event)
