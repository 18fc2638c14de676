"""What the shop's own jobs can be asked: the eight questions, each with a sentence."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from app.screens.desk import Desk
from app.screens.kit.boxes import Column
from app.screens.kit.buttons import Button
from app.screens.kit.heading import Heading
from app.screens.kit.label import Label
from app.screens.language import say
from app.screens.office.figures.figure_kinds import KINDS
from app.screens.page import Page


class FiguresPage(Page):
    """Registered as ``figures``. Each question is a link, its sentence below."""

    help_topic = "figures"

    def __init__(self, desk: Desk, key: Any = None, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.set_title(say("What can be asked"))
        self.heading.add(
            Heading(say("What can be asked"), below=say("Each answer is counted from the jobs of this book."))
        )
        self.sheet.set_margins((27, 18, 27, 18))
        self.links: list[Button] = []
        for kind in KINDS.values():
            link = Button(say(kind.title), partial(desk.open, "figure", kind.name), kind="quiet")
            link.setAccessibleDescription(say(kind.about))
            self.links.append(link)
            part = Column(gap=2)
            part.add(link, Label(say(kind.about), "soft", wrap=True))
            self.sheet.addLayout(part)

    def arrive(self) -> None:
        self.links[0].setFocus(Qt.FocusReason.OtherFocusReason)

    def commands(self) -> Mapping[str, Callable[[], object]]:
        return {"leave": self.desk.back}
