"""Care of the book: its copies, the check, taking everything out, and one person's data."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from app.screens.desk import Came, Desk
from app.screens.kit.boxes import set_shown
from app.screens.kit.choice import Choice
from app.screens.kit.heading import Heading
from app.screens.language import say
from app.screens.office.upkeep.check_part import CheckPart
from app.screens.office.upkeep.copies_part import CopiesPart
from app.screens.office.upkeep.export_part import ExportPart
from app.screens.office.upkeep.person_part import PersonPart
from app.screens.page import Page
from app.trade.sentence import Sentence

COPIES, CHECK, EXPORT, PERSON = "copies", "check", "export", "person"
PARTS = {
    COPIES: Sentence("Copies"),
    CHECK: Sentence("Check"),
    EXPORT: Sentence("Export"),
    PERSON: Sentence("One person's data"),
}


class UpkeepPage(Page):
    """Registered as ``upkeep``; its key is the part to show, or what came of a restore."""

    help_topic = "upkeep"

    def __init__(self, desk: Desk, key: Any = None, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.set_title(say("Care of the book"))
        self._came = key if isinstance(key, Came) else None
        first = key if key in PARTS else COPIES
        self.head = Heading(say("Care of the book"))
        self.choice = Choice(say("Part"), [(part, say(words)) for part, words in PARTS.items()], first)
        self.choice.changed.connect(self._turn)
        self.heading.add(self.head, 4, self.choice, 4)
        self.sheet.set_margins((18, 9, 18, 18))
        self.copies = CopiesPart(desk, self.trouble)
        self.check = CheckPart(desk, self.trouble)
        self.export = ExportPart(desk, self.trouble)
        self.person = PersonPart(desk, self.trouble)
        if self.scroller is not None:
            self.person.opened.connect(self.scroller.show_focus)  # with large text it begins below the edge
        self.parts: dict[str, QWidget] = {
            COPIES: self.copies,
            CHECK: self.check,
            EXPORT: self.export,
            PERSON: self.person,
        }
        self.sheet.add(*self.parts.values())
        self._show(first)

    def reload(self, changes: Any = None) -> None:
        """Read how the copies stand."""
        self.copies.reload()
        if self._came is not None:
            self.copies.tell_came(self._came)
            self._came = None

    def arrive(self) -> None:
        part: Any = self.parts[self.choice.value()]
        part.first().setFocus(Qt.FocusReason.OtherFocusReason)

    def put_away(self) -> None:
        for part in (self.copies, self.check, self.export, self.person):
            part.put_away()

    def commands(self) -> Mapping[str, Callable[[], object]]:
        return {"back_up": self._back_up, "leave": self._leave, "save": self.person.save}

    def _back_up(self) -> None:
        self.choice.set_value(COPIES)
        self.copies.back_up()

    def _leave(self) -> None:
        if not (self.copies.leave() or self.person.leave()):
            self.desk.back()

    def _turn(self, part: str) -> None:
        self._show(part)
        self.arrive()

    def _show(self, chosen: str) -> None:
        for part, widget in self.parts.items():
            set_shown(widget, part == chosen)
