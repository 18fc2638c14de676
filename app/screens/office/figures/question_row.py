"""The row of the eight questions at the foot of each: the one that stands here is heavier, the others are links."""

from __future__ import annotations

from functools import partial

from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.desk import Desk
from app.screens.kit.boxes import Column, Flow
from app.screens.kit.buttons import Button
from app.screens.kit.heading import Rule
from app.screens.kit.label import Label
from app.screens.kit.tips import plain_tip
from app.screens.language import say
from app.screens.office.figures.figure_kinds import KINDS, FigureKind


class QuestionRow(QWidget):
    """Walks from question to question; the filters come along."""

    def __init__(self, desk: Desk, here: FigureKind, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(say("The questions"))
        line = QWidget()
        flow = Flow(line, gap=16, line_gap=3)
        self.links: list[Button] = []
        for kind in KINDS.values():
            item: QWidget
            if kind is here:
                item = Label(say(kind.short), "strong")
            else:
                item = Button(say(kind.short), partial(desk.open, "figure", kind.name), kind="quiet")
                item.setAccessibleDescription(say(kind.title))
                self.links.append(item)
            item.setToolTip(plain_tip(say(kind.title)))
            flow.add(item)
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        line.setSizePolicy(policy)
        self.setSizePolicy(policy)
        Column(self, gap=7, margins=(0, 0, 0, 9)).add(Rule("line"), line)
