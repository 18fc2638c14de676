"""A list that is put in order: chosen entries one below the other, moved up and down, taken out, added."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit.boxes import Column, Flow, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.cells import Column as TableColumn
from app.screens.kit.cells import Row as TableRow
from app.screens.kit.cells import Words
from app.screens.kit.combo import Combo
from app.screens.kit.fields import Sentence
from app.screens.kit.table import SmallTable
from app.screens.language import say


class OrderEditor(QWidget):
    """``value()`` is the list of keys in order. `changed` tells every change by hand."""

    changed = Signal()
    beside_wide = 0  # px for what stands behind an entry

    def __init__(self, name: str, add_words: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._words: dict[str, str] = {}
        self._keys: list[str] = []
        columns = [TableColumn("at", "", 40), TableColumn("what", "", 0, least=160)]
        if self.beside_wide:
            columns.append(TableColumn("beside", "", self.beside_wide))
        self.table = SmallTable(name, tuple(columns), header=False)
        self._error = Sentence(self)
        set_shown(self._error, False)
        self.offer = Combo(add_words)
        self.offer.setPlaceholderText(add_words)
        self.offer.changed.connect(self._add)
        self.up = Button(say("Up"), lambda: self._move(-1), kind="quiet")
        self.down = Button(say("Down"), lambda: self._move(1), kind="quiet")
        self.out = Button(say("Take out"), self._take_out, kind="quiet")
        row = QWidget()
        self.buttons = Flow(row, gap=14, line_gap=4)
        self.buttons.add(self.offer, self.up, self.down, self.out)
        tall = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        tall.setHeightForWidth(True)
        row.setSizePolicy(tall)
        Column(self, gap=7).add(self.table, row, self._error)
        self.setFocusProxy(self.offer)
        self.setSizePolicy(tall)
        self._show()

    def set_offers(self, offers: Sequence[tuple[str, str]]) -> None:
        """What can be chosen, as pairs of key and words."""
        self._words = dict(offers)
        self._show()

    def set_name(self, name: str) -> None:
        """What a screen reader calls it."""
        self.setAccessibleName(name)
        self.table.setAccessibleName(name)

    def set_error(self, sentence: str) -> None:
        """Why it cannot be right; empty for none."""
        self._error.setText(sentence)
        set_shown(self._error, bool(sentence))

    def words_of(self, key: str) -> str:
        """The words of an entry."""
        return self._words.get(key, key)

    def beside(self, key: str) -> tuple[Words, ...]:
        """What stands behind an entry; nothing here."""
        return ()

    def value(self) -> list[str]:
        """The keys in order."""
        return list(self._keys)

    def set_value(self, keys: Sequence[str]) -> None:
        """Show these in order."""
        self._keys = [str(key) for key in keys]
        self._show()

    def _show(self, mark: str | None = None) -> None:
        rows = [
            TableRow(key, (Words(str(at), soft=True), Words(self._words.get(key, key)), *self.beside(key)))
            for at, key in enumerate(self._keys, start=1)
        ]
        self.table.set_rows(rows)
        if mark is not None:
            self.table.mark(mark)
        set_shown(self.table, bool(rows))
        for button in (self.up, self.down, self.out):
            set_shown(button, bool(rows))
        left = [(key, words) for key, words in self._words.items() if key not in self._keys]
        self.offer.set_options(left)

    def _add(self, key: str | None) -> None:
        if key is not None:
            self._keys.append(key)
            self._show(key)
            self.changed.emit()

    def _move(self, step: int) -> None:
        key = self.table.marked_key()
        if key is None:
            return
        at = self._keys.index(key)
        to = at + step
        if 0 <= to < len(self._keys):
            self._keys[at], self._keys[to] = self._keys[to], self._keys[at]
            self._show(key)
            self.changed.emit()

    def _take_out(self) -> None:
        key = self.table.marked_key()
        if key is not None:
            at = self._keys.index(key)
            del self._keys[at]
            self._show(self._keys[min(at, len(self._keys) - 1)] if self._keys else None)
            if not self._keys:
                self.offer.setFocus(Qt.FocusReason.OtherFocusReason)
            self.changed.emit()
