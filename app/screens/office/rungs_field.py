"""Twelve boxes for the rungs of the ladder that cannot be seen on a transport type."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit.boxes import Column, Flow, set_shown
from app.screens.kit.fields import Sentence
from app.screens.kit.tick import Tick


class RungsField(QWidget):
    """``names`` are the rungs in order, from 1. ``value()`` is the list of those ticked."""

    changed = Signal()

    def __init__(self, names: Sequence[str], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._name = ""
        box = QWidget()
        self.ticks = [Tick(f"{n} {name}") for n, name in enumerate(names, start=1)]
        Flow(box, gap=14, line_gap=0).add(*self.ticks)
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        box.setSizePolicy(policy)
        self._error = Sentence(self)
        set_shown(self._error, False)
        Column(self, gap=2).add(box, self._error)
        self.setSizePolicy(policy)
        self.setFocusProxy(self.ticks[0])
        for tick in self.ticks:
            tick.toggled.connect(lambda _: self.changed.emit())

    def set_name(self, name: str) -> None:
        """What a screen reader calls it."""
        self._name = name
        self.setAccessibleName(name)
        for tick in self.ticks:
            tick.setAccessibleName(f"{name}: {tick.text()}")

    def set_error(self, sentence: str) -> None:
        """Why it cannot be right; empty for none."""
        self._error.setText(sentence)
        set_shown(self._error, bool(sentence))

    def set_names(self, names: Sequence[str]) -> None:
        """Call the rungs otherwise; there are as many as before."""
        for n, (tick, name) in enumerate(zip(self.ticks, names, strict=True), start=1):
            tick.setText(f"{n} {name}")
        self.set_name(self._name)

    def value(self) -> list[int]:
        """The numbers of the rungs ticked."""
        return [n for n, tick in enumerate(self.ticks, start=1) if tick.isChecked()]

    def set_value(self, rungs: Sequence[int]) -> None:
        """Tick these."""
        for n, tick in enumerate(self.ticks, start=1):
            tick.setChecked(n in rungs)
