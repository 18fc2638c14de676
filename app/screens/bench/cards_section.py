"""What the shop knows of this player or its transport: the know-how cards, to read while working."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtWidgets import QWidget

from app.screens.bench.sheet_section import SheetSection, indented
from app.screens.kit.boxes import Column, clear_layout
from app.screens.kit.flags import FlagFacts, FlagLine
from app.screens.kit.label import Label
from app.screens.language import say
from app.trade.bench.cards import CardLine, LineKind, card_lines
from app.work.bench.cards import CardFacts
from app.work.bench.job_sheet import JobSheet

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage


class CardsSection(SheetSection):
    """Each card under its title, its sections under their words; a link opens it for changing."""

    key = "cards"
    opened_at_first = False

    def __init__(self, page: JobSheetPage) -> None:
        super().__init__(page, say("What we know of it"))
        self.write_link = self.link(say("Write a card"), lambda: self.desk.open("card", None))
        self.set_links(self.write_link)
        self._cards = Column(gap=11)
        self.column.addLayout(self._cards)

    def facts(self, sheet: JobSheet) -> Any:
        return self.page.lists.cards

    def draw(self, sheet: JobSheet) -> None:
        clear_layout(self._cards)
        found = self.page.lists.cards
        for card in found:
            self._cards.addWidget(self._drawn(card))
        titles = ", ".join(card.entry.title for card in found)
        self.set_summary(titles or say("no card on this player or its transport"))

    def _drawn(self, card: CardFacts) -> QWidget:
        inside = QWidget()
        column = Column(inside, gap=4)
        change = self.link(say("Change"), partial(self.desk.open, "card", card.id))
        column.add(
            indented(Label(card.entry.title, "strong"), Label(card.concerns, "soft"), change, stretch=True)
        )
        for section, text in card.entry.sections.items():
            word = say(section.value)
            column.add(indented(Label(f"{word[:1].upper()}{word[1:]}", "soft")))
            for line in card_lines(text):
                column.add(indented(_line(line)))
        return inside


def _line(line: CardLine) -> QWidget:
    if line.kind is LineKind.CAUTION:
        return FlagLine(FlagFacts("caution", say("Caution."), line.text))
    return Label(f"• {line.text}" if line.kind is LineKind.BULLET else line.text, wrap=True)
