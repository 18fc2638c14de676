"""Pictures on a know-how card: only pictures, told apart by their captions, taken off without being lost."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from app.trade.bench.cards import CardEntry, CardSection
from app.trade.refusal import Refusal
from app.work.bench.cards import CardPicture, card_of, cards_beside, save_card
from app.work.bench.files import attach_picture, caption_picture, kept_file, take_picture_off


@pytest.fixture
def card(bench: Any) -> int:
    entry = CardEntry(
        title="Arm out",
        transport_type_id=bench.type,
        sections={CardSection.TAKING_APART: "= 1\nDisc out first."},
    )
    return int(save_card(bench.book, bench.tobbe, entry).value)


@pytest.fixture
def photo(tmp_path: Path) -> Path:
    path = tmp_path / "arm.jpg"
    exif = Image.Exif()
    exif[0x010E] = "at the customer's house"  # ImageDescription
    Image.new("RGB", (24, 16), "grey").save(path, exif=exif)
    return path


def pictures(bench: Any, card: int) -> tuple[CardPicture, ...]:
    return card_of(bench.book, card).pictures


def test_a_picture_stands_on_its_card_in_the_order_it_was_put_there(
    bench: Any, card: int, photo: Path
) -> None:
    first = attach_picture(bench.book, bench.tobbe, card, photo, note="Arm from above").value
    second = attach_picture(bench.book, bench.tobbe, card, photo).value
    assert pictures(bench, card) == (
        CardPicture(first, "arm.jpg", "Arm from above"),
        CardPicture(second, "arm.jpg", ""),
    )
    assert [one.words for one in pictures(bench, card)] == ["Arm from above", "arm.jpg"]
    assert b"customer" not in kept_file(bench.book, first).content
    with bench.book.ask() as session:
        assert len(cards_beside(session, bench.job)[0].pictures) == 2


def test_what_is_no_picture_is_refused(bench: Any, card: int, tmp_path: Path) -> None:
    capture = tmp_path / "capture.csv"
    capture.write_text("t;v\n0;1\n")
    with pytest.raises(Refusal) as refused:
        attach_picture(bench.book, bench.tobbe, card, capture)
    assert refused.value.sentence.key.startswith("Only a picture can stand on a card")
    assert pictures(bench, card) == ()


def test_a_caption_is_changed_and_a_picture_taken_off_once(bench: Any, card: int, photo: Path) -> None:
    key = attach_picture(bench.book, bench.tobbe, card, photo).value
    caption_picture(bench.book, bench.tobbe, key, " Arm  from above ")
    assert pictures(bench, card)[0].caption == "Arm from above"
    take_picture_off(bench.book, bench.tobbe, key)
    assert pictures(bench, card) == ()
    for deed in (
        lambda: take_picture_off(bench.book, bench.tobbe, key),
        lambda: caption_picture(bench.book, bench.tobbe, key, "again"),
    ):
        with pytest.raises(Refusal):
            deed()
