"""The sheet of a transport type: its readings in order, each with the stage at which it is asked for."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtWidgets import QWidget

from app.screens.kit.boxes import set_shown
from app.screens.kit.cells import Words
from app.screens.kit.combo import Combo
from app.screens.language import say
from app.screens.office.order_editor import OrderEditor
from app.trade.bench.sheet_order import SheetEntry, When, read_entry


class SheetEditor(OrderEditor):
    """``value()`` holds entries as the book keeps them: the quantity, and the stage where it is not every one."""

    beside_wide = 220

    def __init__(self, name: str, add_words: str, parent: QWidget | None = None) -> None:
        self._when: dict[str, When] = {}
        self.when = Combo(say("Asked for"), [(when, say(when.value)) for when in When], width=230)
        super().__init__(name, add_words, parent)
        self.buttons.add(self.when)
        self.when.changed.connect(self._time)
        self.table.marked.connect(self._marked)

    def value(self) -> list[str]:
        return [SheetEntry(key, self._when.get(key, When.ALWAYS)).text for key in self._keys]

    def set_value(self, keys: Sequence[str]) -> None:
        entries = [read_entry(str(key)) for key in keys]
        self._when = dict(entries)
        super().set_value([entry.quantity for entry in entries])

    def words_of(self, key: str) -> str:
        entry = read_entry(key)
        words = super().words_of(entry.quantity)
        if entry.when is When.ALWAYS:
            return words
        return say("{reading} {when}", reading=words, when=say(entry.when.value))

    def beside(self, key: str) -> tuple[Words, ...]:
        when = self._when.get(key, When.ALWAYS)
        return (Words("" if when is When.ALWAYS else say(when.value), soft=True),)

    def _show(self, mark: str | None = None) -> None:
        super()._show(mark)
        set_shown(self.when, bool(self._keys))
        self._marked(self.table.marked_key())

    def _marked(self, key: str | None) -> None:
        self.when.set_value(self._when.get(key, When.ALWAYS) if key is not None else When.ALWAYS)

    def _time(self, when: When | None) -> None:
        key = self.table.marked_key()
        if key is not None and when is not None and When(when) is not self._when.get(key, When.ALWAYS):
            self._when[key] = When(when)
            self._show(key)
            self.changed.emit()
