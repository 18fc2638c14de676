"""Know-how cards in the book: written once, changed without losing the former text, shown beside the right job."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from sqlalchemy.exc import NoResultFound

from app.trade.bench.cards import CardEntry, CardSection
from app.trade.refusal import FieldRefusal, StaleRow
from app.work.bench.cards import card_of, cards, cards_beside, former_texts, save_card

TEXT = {CardSection.TAKING_APART: "Disc out, then the four screws.", CardSection.CAUTIONS: "> Strong magnet."}


def on_type(bench: Any, title: str = "Arm out and in", **changes: Any) -> CardEntry:
    return CardEntry(
        title=title, transport_type_id=bench.sheet.transport_type_id, **{"sections": TEXT, **changes}
    )


def on_model(bench: Any, title: str = "Back cover") -> CardEntry:
    maker, model = bench.sheet.maker, bench.sheet.model
    return CardEntry(title=title, unit_maker=maker.upper(), unit_model=model, sections=TEXT)


def put_away(bench: Any, key: int, retired: bool = True) -> None:
    card = card_of(bench.book, key)
    save_card(
        bench.book, bench.tobbe, replace(card.entry, retired=retired), card_id=key, version=card.version
    )


def test_a_card_is_kept_as_written_with_who_and_when(bench: Any) -> None:
    key = save_card(bench.book, bench.tobbe, on_type(bench)).value
    card = card_of(bench.book, key)
    assert (card.entry.title, dict(card.entry.sections)) == ("Arm out and in", TEXT)
    assert (card.by, card.at, card.entry.retired) == ("Tobbe Ruskamp", bench.book.now(), False)
    assert card.concerns == card.transport_type == bench.sheet.transport
    with pytest.raises(NoResultFound):
        card_of(bench.book, key + 1)


def test_every_edit_keeps_the_former_text(bench: Any) -> None:
    key = save_card(bench.book, bench.tobbe, on_type(bench)).value
    first = card_of(bench.book, key)
    changed = on_type(bench, "Arm", sections={CardSection.TAKING_APART: "Disc out, then six screws."})
    save_card(bench.book, bench.tobbe, changed, card_id=key, version=first.version)
    assert [(text.section, text.text) for text in former_texts(bench.book, key)] == [
        (None, "Arm out and in"),
        (CardSection.CAUTIONS, "> Strong magnet."),
        (CardSection.TAKING_APART, "Disc out, then the four screws."),
    ]
    put_away(bench, key)
    assert len(former_texts(bench.book, key)) == 3
    assert former_texts(bench.book, key)[0].by == "Tobbe Ruskamp"


def test_the_second_saver_of_the_same_card_is_told(bench: Any) -> None:
    key = save_card(bench.book, bench.tobbe, on_type(bench)).value
    save_card(bench.book, bench.tobbe, on_type(bench, "Arm"), card_id=key, version=1)
    with pytest.raises(StaleRow):
        save_card(bench.book, bench.tobbe, on_type(bench, "Swing arm"), card_id=key, version=1)
    assert card_of(bench.book, key).entry.title == "Arm"


def test_a_card_that_says_nothing_is_refused(bench: Any) -> None:
    with pytest.raises(FieldRefusal):
        save_card(bench.book, bench.tobbe, on_type(bench, sections={}))
    assert cards(bench.book) == ()


def test_the_job_shows_the_cards_of_its_transport_type_and_of_its_model(bench: Any) -> None:
    save_card(bench.book, bench.tobbe, on_model(bench))
    save_card(bench.book, bench.tobbe, on_type(bench))
    other = CardEntry(title="Another model", unit_maker="Ostrind", unit_model="Osier 7", sections=TEXT)
    save_card(bench.book, bench.tobbe, other)
    gone = save_card(bench.book, bench.tobbe, on_type(bench, "Old")).value
    put_away(bench, gone)
    with bench.book.ask() as session:
        beside = cards_beside(session, bench.job)
    assert [card.entry.title for card in beside] == [
        "Arm out and in",
        "Back cover",
    ]


def test_cards_are_found_by_any_of_their_words(bench: Any) -> None:
    save_card(bench.book, bench.tobbe, on_type(bench))
    key = save_card(bench.book, bench.tobbe, on_model(bench)).value
    assert [card.entry.title for card in cards(bench.book)] == ["Arm out and in", "Back cover"]
    assert [card.entry.title for card in cards(bench.book, "COVER mag")] == ["Back cover"]
    assert cards(bench.book, "agnet") == ()
    put_away(bench, key)
    assert [card.entry.title for card in cards(bench.book)] == ["Arm out and in"]
    assert [card.entry.retired for card in cards(bench.book, retired=True)] == [False, True]
    put_away(bench, key, retired=False)
    assert len(cards(bench.book)) == 2
