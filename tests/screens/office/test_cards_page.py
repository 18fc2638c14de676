"""Know-how cards by keys alone: written, changed by two, put away; the former text stays to be read."""

from __future__ import annotations

from dataclasses import replace

from app.trade.bench.cards import CardEntry, CardSection
from app.trade.bench.kinds import Arrangement
from app.work.bench.cards import card_of, cards, save_card
from app.work.office.shop_lists import TypeLine, save_transport_type
from tests.screens.office.conftest import lines

VELK = TypeLine(name="Velk A1", arrangement=Arrangement.SWING_ARM)


def kept(office, **changes):
    kind = save_transport_type(office.book, office.shop.ine, VELK).value
    entry = CardEntry(
        title="Arm out", transport_type_id=kind, sections={CardSection.TAKING_APART: "Disc out first."}
    )
    return save_card(office.book, office.shop.ine, replace(entry, **changes)).value


def test_a_card_is_written_by_keys_alone(office):
    office.open("cards")
    office.press("Return")
    page = office.page
    office.type("Back cover")
    page.maker.setFocus()
    office.type("Quellmar")
    page.model.setFocus()
    office.type("Larch 2")
    page.sections[CardSection.CAUTIONS].setFocus()
    office.type("> Sharp edges.")
    office.press("Ctrl+Return")
    (card,) = cards(office.book)
    assert (card.entry.title, card.concerns) == ("Back cover", "Quellmar Larch 2")
    assert dict(card.entry.sections) == {CardSection.CAUTIONS: "> Sharp edges."}
    assert lines(office.page.table)[0][:3] == ["Back cover", "Quellmar Larch 2", "cautions"]


def test_a_card_that_says_nothing_is_refused_and_stays_typed(office):
    page = office.open("card", None)
    office.type("Back cover")
    office.press("Ctrl+Return")
    assert office.page is page
    assert "Choose a transport type" in page.trouble.words
    assert page.card_title.text() == "Back cover"
    assert cards(office.book) == ()


def test_a_change_keeps_the_former_text_to_be_read(office):
    key = kept(office)
    page = office.open("card", key)
    assert page.former.isHidden()
    page.sections[CardSection.TAKING_APART].setPlainText("Disc and puck out first.")
    page.card_title.edit.setText("Arm out and in")
    office.press("Ctrl+Return")
    page = office.open("card", key)
    assert not page.former.isHidden()
    assert "Disc out first." in page.former_text.text()
    assert "taking apart" in page.former_text.text()
    assert "title" in page.former_text.text()


def test_of_two_who_change_one_card_the_second_sees_both(office):
    key = kept(office)
    page = office.open("card", key)
    page.card_title.setFocus()
    office.type(" now")
    card = card_of(office.book, key)
    save_card(
        office.book,
        office.shop.ine,
        replace(card.entry, title="Arm, theirs"),
        card_id=key,
        version=card.version,
    )
    office.press("Ctrl+Return")
    assert not page.stale.isHidden()
    assert card_of(office.book, key).entry.title == "Arm, theirs"


def test_a_card_put_away_shows_on_wish_only(office):
    key = kept(office)
    page = office.open("card", key)
    page.retired.setFocus()
    office.press("Space")
    office.press("Ctrl+Return")
    page = office.open("cards")
    assert lines(page.table) == []
    office.push(page.turn)
    assert lines(page.table)[0][0] == "Arm out put away"
