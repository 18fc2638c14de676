"""Know-how cards by keys alone: written, changed by two, put away; the former text stays to be read."""

from __future__ import annotations

from dataclasses import replace

from PIL import Image

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


def test_pictures_are_put_on_captioned_and_taken_off(office, tmp_path):
    key = kept(office)
    page = office.open("card", key)
    part = page.pictures
    path = tmp_path / "arm.png"
    Image.new("RGB", (24, 16), "grey").save(path)
    part.add([path])
    office.settle()
    ((picture, tile),) = part.tiles.items()
    assert tile.accessibleName().startswith("1: arm.png")
    assert part.head.accessibleName() == "Pictures 1 picture"
    part.mark(picture)
    office.settle()
    office.type_into(part.caption, "Arm from above")
    office.push(part.keep_button)
    assert card_of(office.book, key).pictures[0].caption == "Arm from above"
    assert part.tiles[picture].accessibleName().startswith("1: Arm from above")
    office.push(part.off_button)
    assert card_of(office.book, key).pictures == ()
    assert not part.large.isVisible()


def test_what_cannot_be_put_on_a_card_is_said(office, tmp_path):
    page = office.open("card", kept(office))
    capture = tmp_path / "capture.csv"
    capture.write_text("t;v")
    page.pictures.add([capture])
    office.settle()
    assert "Only a picture can stand on a card" in page.trouble.words
    office.desk.set_staff(None)
    page.pictures.add([capture])
    assert "who works here now" in page.trouble.words


def test_a_new_card_takes_pictures_once_it_is_saved(office):
    page = office.open("card", None)
    assert page.pictures.isHidden()
    assert "once the card is saved" in office.sees()
