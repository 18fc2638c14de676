"""Papers of a job that later ones have taken the place of: each a link that shows it as it is filed."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit.boxes import Column, Flow, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.label import Label


class FormerPapers(QWidget):
    """A soft word and the numbers behind it; `wanted` brings the paper of the one that is pressed."""

    wanted = Signal(int)

    def __init__(self, words: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._papers: tuple[tuple[str, int], ...] = ()
        self._line = QWidget()
        self._flow = Flow(self._line, gap=14, line_gap=3)
        self._flow.add(Label(words, "soft"))
        self.buttons: list[Button] = []
        Column(self, margins=(9, 0, 9, 0)).add(self._line)
        for sized in (self._line, self):
            policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
            policy.setHeightForWidth(True)
            sized.setSizePolicy(policy)
        set_shown(self, False)

    def show_papers(self, papers: Sequence[tuple[str, int]]) -> None:
        """Show these: number and key of each paper; nothing where there are none."""
        set_shown(self, bool(papers))
        if tuple(papers) == self._papers:
            return
        self._papers = tuple(papers)
        for button in self.buttons:
            self._flow.removeWidget(button)
            button.hide()
            button.deleteLater()
        self.buttons = [
            Button(number, partial(self.wanted.emit, paper), kind="quiet") for number, paper in papers
        ]
        self._flow.add(*self.buttons)
        for button in self.buttons:
            button.show()
