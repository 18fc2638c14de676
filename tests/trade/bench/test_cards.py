"""Know-how cards: what a card must say, and how its marked-up text is read."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.bench.cards import (
    SECTION_ROOM,
    TITLE_ROOM,
    CardEntry,
    CardLine,
    CardSection,
    LineKind,
    card_lines,
    check_card,
    picture_named,
)


def entry(**changes: object) -> CardEntry:
    usual: dict[str, object] = {
        "title": "Velk A1: arm out and in",
        "transport_type_id": 3,
        "sections": {CardSection.TAKING_APART: "Disc out first."},
    }
    return CardEntry(**{**usual, **changes})  # type: ignore[arg-type]


def test_a_card_on_a_transport_type_or_on_a_model_is_right() -> None:
    assert check_card(entry()) == {}
    assert check_card(entry(transport_type_id=None, unit_maker="Quellmar", unit_model="Larch 2")) == {}


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"title": "  "}, "title"),
        ({"title": "x" * (TITLE_ROOM + 1)}, "title"),
        ({"transport_type_id": None}, "transport_type"),
        ({"transport_type_id": None, "unit_maker": "Quellmar"}, "transport_type"),
        ({"unit_model": "Larch 2"}, "unit_maker"),
        ({"sections": {}}, "cautions"),
        ({"sections": {CardSection.DOCUMENT: " \n "}}, "cautions"),
        ({"sections": {CardSection.DOCUMENT: "x" * (SECTION_ROOM + 1)}}, "service document, page"),
        ({"sections": {CardSection.DOCUMENT: "a\x00b"}}, "service document, page"),
    ],
)
def test_what_cannot_be_right_is_said_at_its_field(changes: dict[str, object], field: str) -> None:
    assert list(check_card(entry(**changes))) == [field]


def test_what_is_kept_has_no_spaces_around_and_no_empty_sections() -> None:
    tidy = entry(
        title=" Velk A1 ", sections={CardSection.DOCUMENT: " page 7\n", CardSection.CAUTIONS: "  "}
    ).tidy()
    assert tidy.title == "Velk A1"
    assert tidy.sections == {CardSection.DOCUMENT: "page 7"}


def test_lines_are_paragraphs_items_and_cautions() -> None:
    text = "Turn the screw\na quarter.\n\n- left\n- right\n> Never under power.\nThen test."
    assert card_lines(text) == (
        CardLine(LineKind.PARAGRAPH, "Turn the screw a quarter."),
        CardLine(LineKind.BULLET, "left"),
        CardLine(LineKind.BULLET, "right"),
        CardLine(LineKind.CAUTION, "Never under power."),
        CardLine(LineKind.PARAGRAPH, "Then test."),
    )


def test_a_mark_inside_a_line_is_text_and_markup_of_others_stays_as_typed() -> None:
    assert card_lines("5 - 7 mm! <b>x</b> # y") == (CardLine(LineKind.PARAGRAPH, "5 - 7 mm! <b>x</b> # y"),)


@given(st.text(max_size=300))
def test_no_word_of_a_text_is_lost(text: str) -> None:
    said = " ".join(line.text for line in card_lines(text)).split()
    marks = {"-", ">", "="}
    assert [word for word in said if word not in marks] == [w for w in text.split() if w not in marks]


def test_a_line_names_the_place_of_a_picture() -> None:
    assert card_lines("= 1") == (CardLine(LineKind.PICTURE, "1"),)
    captions = ("Arm from above", "Flex at the fold")
    assert [picture_named(text, captions) for text in ("1", "2", "flex AT", "0", "3", "lens", "")] == [
        0,
        1,
        1,
        None,
        None,
        None,
        None,
    ]
