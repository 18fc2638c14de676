"""Know-how cards: the shop's own notes on a transport type or a unit model, in sections of simple marked-up text."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum

from app.trade.sentence import Sentence, words
from app.trade.typed_words import check_typed

TITLE_ROOM, SECTION_ROOM = 80, 8000
BULLET, CAUTION, PICTURE = "- ", "> ", "= "


class CardSection(StrEnum):
    """The sections of a card, in their order."""

    CAUTIONS = words("cautions")
    TAKING_APART = words("taking apart")
    NOT_TO_TOUCH = words("what not to touch")
    ADJUSTMENTS = words("adjustments")
    TEST_POINTS = words("test points and what to expect there")
    DOCUMENT = words("service document, page")


class LineKind(StrEnum):
    """How a line of a card's text is shown."""

    PARAGRAPH = "paragraph"
    BULLET = "item of a list"
    CAUTION = "caution"
    PICTURE = "picture"


@dataclass(frozen=True, slots=True)
class CardLine:
    """One paragraph, item of a list, caution, or place of a picture, which ``text`` names; it is plain text,
    whatever it holds."""

    kind: LineKind
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CardEntry:
    """A card as typed. It concerns a transport type, a unit model, or both. ``sections``: text by section."""

    title: str
    transport_type_id: int | None = None
    unit_maker: str = ""
    unit_model: str = ""
    sections: Mapping[CardSection, str] = field(default_factory=dict)
    retired: bool = False

    def tidy(self) -> CardEntry:
        """Without spaces around, and without sections that say nothing."""
        return CardEntry(
            title=self.title.strip(),
            transport_type_id=self.transport_type_id,
            unit_maker=self.unit_maker.strip(),
            unit_model=self.unit_model.strip(),
            sections={s: self.sections[s].strip() for s in CardSection if self.sections.get(s, "").strip()},
            retired=self.retired,
        )


_MARKS = ((BULLET, LineKind.BULLET), (CAUTION, LineKind.CAUTION), (PICTURE, LineKind.PICTURE))


def picture_named(text: str, captions: Sequence[str]) -> int | None:
    """The place among a card's pictures of the one that a line names: by its number from 1, or by the beginning
    of its caption; None for one that is not there."""
    if text.isdecimal() and 1 <= int(text) <= len(captions):
        return int(text) - 1
    asked = text.casefold()
    return next(
        (at for at, caption in enumerate(captions) if asked and caption.casefold().startswith(asked)), None
    )


def check_card(entry: CardEntry) -> dict[str, Sentence]:
    """A sentence under each field that cannot be right; fields of sections are named by their words."""
    wrong: dict[str, Sentence] = {}
    tidy = entry.tidy()
    if not tidy.title:
        wrong["title"] = Sentence("Give the card a title.")
    elif (why := check_typed(tidy.title, TITLE_ROOM)) is not None:
        wrong["title"] = why
    if tidy.unit_model and not tidy.unit_maker:
        wrong["unit_maker"] = Sentence("Name the maker too.")
    if tidy.transport_type_id is None and not tidy.unit_model:
        wrong["transport_type"] = Sentence("Choose a transport type, or name a maker and model.")
    if not tidy.sections:
        wrong[CardSection.CAUTIONS.value] = Sentence("Write something in one of the sections.")
    for section, text in tidy.sections.items():
        if (why := check_typed(text, SECTION_ROOM, lines=True)) is not None:
            wrong[section.value] = why
    return wrong


def card_lines(text: str) -> tuple[CardLine, ...]:
    """The text of a section in lines to show. A line that begins with "- " is an item of a list, one with "> " a
    caution, one with "= " the place of a picture; others that follow each other are one paragraph, an empty line
    parts them."""
    lines: list[CardLine] = []
    paragraph: list[str] = []

    def finish() -> None:
        if paragraph:
            lines.append(CardLine(LineKind.PARAGRAPH, " ".join(paragraph)))
            paragraph.clear()

    for raw in text.splitlines():
        line = raw.strip()
        for mark, kind in _MARKS:
            if line.startswith(mark):
                finish()
                lines.append(CardLine(kind, line[len(mark) :].strip()))
                break
        else:
            if line:
                paragraph.append(line)
            else:
                finish()
    finish()
    return tuple(lines)
