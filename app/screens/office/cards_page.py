"""Know-how cards: what the shop knows of a transport type or a player, and every former text of it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import Any

from PySide6.QtWidgets import QWidget

from app.screens.bench.failures import tell
from app.screens.desk import Desk
from app.screens.kit.boxes import set_shown
from app.screens.kit.cells import Column, Group, Leave, Row, Words
from app.screens.kit.combo import Combo
from app.screens.kit.fields import Field, TextArea
from app.screens.kit.label import Label
from app.screens.kit.section import Section
from app.screens.kit.tick import Tick
from app.screens.language import moment, say
from app.screens.office.card_pictures import CardPictures
from app.screens.office.list_page import ListPage
from app.screens.office.record_page import RecordPage
from app.trade.bench.cards import CardEntry, CardSection
from app.trade.sentence import Sentence
from app.work.bench.cards import CardFacts, FormerText, card_of, cards, former_texts, save_card
from app.work.office.shop_lists import transport_types

NO_TYPE = 0


class CardsPage(ListPage):
    """Registered as ``cards``."""

    help_topic = "cards"
    record = "card"
    words = Sentence("Know-how cards")
    add_words = Sentence("Write a card")
    empty_words = (
        Sentence("What the shop knows of its players stands here"),
        Sentence("How a type comes apart, what not to touch, what to expect at its test points."),
    )
    leaving = (Leave("written"), Leave("sections"))
    kinds = frozenset({"cards", "transport_types"})

    def columns(self) -> tuple[Column, ...]:
        return (
            Column("title", say("Card"), 0, least=180),
            Column("concerns", say("Concerns"), 260),
            Column("sections", say("Tells of"), 260),
            Column("written", say("Written last"), 200),
        )

    def fetch(self) -> Any:
        return cards(self.desk.book, retired=self.former)

    def rows(self, found: Any) -> list[Row | Group]:
        return [_row(card) for card in found]


def _row(card: CardFacts) -> Row:
    tells = ", ".join(say(section.value) for section in card.entry.sections)
    written = say("{when}, {name}", when=moment(card.at, "d MMM y"), name=card.by)
    away = card.entry.retired
    return Row(
        card.id,
        (
            Words(card.entry.title, say("put away") if away else "", strong=not away, tip=card.entry.title),
            Words(card.concerns, tip=card.concerns),
            Words(tells, soft=True, tip=tells),
            Words(written, soft=True),
        ),
    )


class CardPage(RecordPage):
    """Registered as ``card``; its key is the id."""

    help_topic = "cards"
    kind = "know-how card"
    new_words = Sentence("A new know-how card")
    save_words = Sentence("Save the card")

    def __init__(self, desk: Desk, key: Any, parent: QWidget | None = None) -> None:
        super().__init__(desk, key, parent)
        self.form.section(say("Card"))
        self.card_title = self.add("title", Field("", width=400))
        self.form.row(say("Title"), self.card_title)
        self._types: dict[int, str] = {}
        self.type = self.add("transport_type", Combo("", [(NO_TYPE, say("none"))], width=260))
        self.form.row(say("Transport type"), self.type)
        self.maker = self.add("unit_maker", Field("", width=200))
        self.model = self.add("unit_model", Field("", width=200))
        self.form.row(say("Or a player's maker"), self.maker)
        self.form.row(say("And model"), self.model)
        self.form.section(say("What is known"))
        told = say(
            "A line that begins with “- ” is an item of a list, one with “> ” a caution. "
            "Pictures are added once the card is saved."
        )
        self.form.row("", Label(told, "soft", wrap=True), stretch_last=True)
        self.sections = {section: self.add(section.value, TextArea("", lines=3)) for section in CardSection}
        for section, area in self.sections.items():
            word = say(section.value)
            self.form.row(f"{word[:1].upper()}{word[1:]}", area)
        self.retired = self.add("retired", Tick(say("put away")))
        self.form.row("", self.retired)
        self.pictures = CardPictures(desk, key or 0)
        self.pictures.done.connect(self.reload)
        self.pictures.failed.connect(self._picture_failed)
        self.sheet.add(self.pictures)
        set_shown(self.pictures, key is not None)
        self.former = Section(say("Former texts"), opened=False, inset=9)
        self.former_text = Label("", wrap=True)
        self.former.column.add(self.former_text)
        self.sheet.add(self.former)
        set_shown(self.former, False)

    def fetch(self) -> Any:
        book = self.desk.book
        card = card_of(book, self.key) if self.key is not None else None
        former = former_texts(book, self.key) if self.key is not None else ()
        return card, former, transport_types(book, retired=True)

    def show_found(self, found: Any) -> Any:
        card, former, types = found
        used = card.entry.transport_type_id if card is not None else None
        offered = [(t.id, t.name) for t in types if not t.retired or t.id == used]
        chosen = self.type.value()
        self._types = {NO_TYPE: say("none"), **dict(offered)}
        self.type.set_options(list(self._types.items()), chosen)
        self.former_text.setText("\n\n".join(_former(text) for text in former))
        self.former.set_summary(
            say("1 former text") if len(former) == 1 else say("{n} former texts", n=len(former))
        )
        set_shown(self.former, bool(former))
        if card is not None:
            self.pictures.set_pictures(card.pictures)
        return card

    def _picture_failed(self, error: Exception | None, again: Callable[[], object] | None) -> None:
        if error is None:
            self.trouble.show_trouble(say("Say first who works here now, with Ctrl+U."))
        else:
            tell(self.trouble, error, again)

    def named_title(self, line: CardFacts) -> str:
        return line.entry.title

    def put(self, line: CardFacts) -> None:
        self.card_title.set_text(line.entry.title)
        self.type.set_value(line.entry.transport_type_id or NO_TYPE)
        self.maker.set_text(line.entry.unit_maker)
        self.model.set_text(line.entry.unit_model)
        for section, area in self.sections.items():
            area.set_text(line.entry.sections.get(section, ""))
        self.retired.setChecked(line.entry.retired)

    def entry(self) -> CardEntry:
        return CardEntry(
            title=self.card_title.text(),
            transport_type_id=self.type.value() or None,
            unit_maker=self.maker.text(),
            unit_model=self.model.text(),
            sections={section: area.text() for section, area in self.sections.items()},
            retired=self.retired.isChecked(),
        )

    def deed(self, who: int, entry: CardEntry) -> Callable[[], Any]:
        return partial(save_card, self.desk.book, who, entry, card_id=self.key, version=self.version)

    def facts(self, line: Any) -> Sequence[tuple[str, str]]:
        entry: CardEntry = line if isinstance(line, CardEntry) else line.entry
        return (
            (say("Title"), entry.title),
            (say("Transport type"), self._types.get(entry.transport_type_id or NO_TYPE, "")),
            (say("Or a player's maker"), entry.unit_maker),
            (say("And model"), entry.unit_model),
            *((say(section.value), entry.sections.get(section, "")) for section in CardSection),
            (say("put away"), say("yes") if entry.retired else say("no")),
        )


def _former(text: FormerText) -> str:
    what = say("title") if text.section is None else say(text.section.value)
    return say(
        "{what}, until {when}, {name}:\n{text}", what=what, when=moment(text.at), name=text.by, text=text.text
    )
