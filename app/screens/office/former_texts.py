"""The former texts of a record, newest first, each with who took it away and when; any can be brought back."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import Any

from PySide6.QtWidgets import QWidget

from app.screens.kit.boxes import Column, Row, clear_layout
from app.screens.kit.buttons import Button
from app.screens.kit.label import Label
from app.screens.kit.section import Section
from app.screens.language import say


class FormerTexts(Section):
    """``bring_back`` is called with the record whose text is to stand again."""

    def __init__(self, bring_back: Callable[[Any], object], parent: QWidget | None = None) -> None:
        super().__init__(say("Former texts"), opened=False, inset=9, parent=parent)
        self._bring_back = bring_back
        self._shown: Sequence[tuple[Any, str]] = ()
        self._box = QWidget()
        self._texts = Column(self._box, gap=11)
        self.buttons: list[Button] = []
        self.column.add(self._box)

    @property
    def words(self) -> str:
        """All of it as one text."""
        return "\n\n".join(text for _, text in self._shown)

    def set_texts(self, texts: Sequence[tuple[Any, str]]) -> None:
        """Records with the words that each of them had."""
        self.set_summary(say("1 former text") if len(texts) == 1 else say("{n} former texts", n=len(texts)))
        if texts == self._shown:
            return
        self._shown, self.buttons = tuple(texts), []
        clear_layout(self._texts)
        for record, text in texts:
            line = QWidget()
            button = Button(say("Bring this back"), partial(self._bring_back, record), kind="quiet")
            button.setAccessibleDescription(text.partition("\n")[0])
            row = Row(line, gap=11)
            row.add(Label(text, wrap=True), stretch=1)
            row.add(button)
            self._texts.add(line)
            self.setTabOrder(self.buttons[-1] if self.buttons else self.head, button)
            self.buttons.append(button)
