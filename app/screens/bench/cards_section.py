"""What the shop knows of this player or its transport: the know-how cards, to read while working."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtGui import QImage
from PySide6.QtWidgets import QWidget

from app.screens.bench.pictures import LARGE, PictureView, read_picture
from app.screens.bench.sheet_section import SheetSection, indented
from app.screens.kit.boxes import Column, clear_layout
from app.screens.kit.flags import FlagFacts, FlagLine
from app.screens.kit.label import Label
from app.screens.language import say
from app.trade.bench.cards import CardLine, LineKind, card_lines, picture_named
from app.work.bench.cards import CardFacts, CardPicture
from app.work.bench.job_sheet import JobSheet

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage

TALL = 260


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
        self._waiting: list[tuple[CardPicture, PictureView]] = []
        self.views: list[PictureView] = []
        self.folded.connect(lambda _: self._read_pictures())

    def facts(self, sheet: JobSheet) -> Any:
        return self.page.lists.cards

    def draw(self, sheet: JobSheet) -> None:
        clear_layout(self._cards)
        self._waiting = []
        found = self.page.lists.cards
        for card in found:
            self._cards.addWidget(self._drawn(card))
        self.views = [view for _, view in self._waiting]
        self._read_pictures()
        titles = ", ".join(card.entry.title for card in found)
        self.set_summary(titles or say("no card on this player or its transport"))

    def _drawn(self, card: CardFacts) -> QWidget:
        inside = QWidget()
        column = Column(inside, gap=4)
        change = self.link(say("Change"), partial(self.desk.open, "card", card.id))
        column.add(
            indented(Label(card.entry.title, "strong"), Label(card.concerns, "soft"), change, stretch=True)
        )
        left = list(card.pictures)
        captions = [picture.words for picture in card.pictures]
        for section, text in card.entry.sections.items():
            word = say(section.value)
            column.add(indented(Label(f"{word[:1].upper()}{word[1:]}", "soft")))
            for line in card_lines(text):
                at = picture_named(line.text, captions) if line.kind is LineKind.PICTURE else None
                if at is None:
                    column.add(indented(_line(line)))
                else:
                    column.add(self._picture(card.pictures[at]))
                    left = [picture for picture in left if picture.id != card.pictures[at].id]
        for picture in left:
            column.add(self._picture(picture))
        return inside

    def _picture(self, picture: CardPicture) -> QWidget:
        """The picture over its caption; it is read once the section is open."""
        view = PictureView(TALL)
        self._waiting.append((picture, view))
        both = QWidget()
        Column(both, gap=4).add(view, Label(picture.words, "soft", wrap=True))
        return indented(both)

    def _read_pictures(self) -> None:
        if not self.is_open:
            return
        waiting, self._waiting = self._waiting, []
        for picture, view in waiting:
            self.desk.doors.look_up(
                self,
                partial(read_picture, self.desk.book, picture.id, LARGE),
                partial(self._show, picture, view),
                lambda error: self.page.tell_failure(error, None),
            )

    def _show(self, picture: CardPicture, view: PictureView, image: QImage | None) -> None:
        if view in self.views:
            view.set_image(image, say("Picture: {name}", name=picture.words))


def _line(line: CardLine) -> QWidget:
    if line.kind is LineKind.CAUTION:
        return FlagLine(FlagFacts("caution", say("Caution."), line.text))
    return Label(f"• {line.text}" if line.kind is LineKind.BULLET else line.text, wrap=True)
