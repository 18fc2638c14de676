"""Answers on paper and as pictures in files."""

from __future__ import annotations

from datetime import UTC

import pytest

from app.trade.refusal import Refusal
from app.trade.settings import PAGE_SIZE, SHOP_NAME
from app.trade.statistics.picture import ENDINGS
from app.trade.wording import plain
from app.work.office.settings import change_settings
from app.work.papers.answers import print_answer, save_picture
from app.work.statistics.comeback_rate import comeback_rates
from app.work.statistics.pictures import picture_of
from app.work.statistics.question import Question
from tests.papers.reading import sizes, whole
from tests.work.past import Past

WORDS = plain(UTC)
ASKED = ("handed back at any time", "Player: <b>Quellmar</b>")


@pytest.fixture
def past(shop):
    past = Past(shop)
    with past.at_once():
        for transport in ("Velk A1", "Grellin S1"):
            for at in range(12):
                unit = past.unit(transport=transport)
                past.job(unit, 410, 400)
                if at < 3:
                    past.job(unit, 350)
    return past


def test_the_paper_says_the_question_the_answer_the_numbers_and_why(past):
    change_settings(past.shop.book, past.shop.ine, {SHOP_NAME: "Lanternfield Workshop", PAGE_SIZE: "Letter"})
    answer = comeback_rates(past.shop.book, Question())
    pdf = print_answer(past.shop.book, "Which repairs come back", answer, ASKED, "en")
    said = whole(pdf)
    for words in (
        "Which repairs come back",
        "No transport type can be told from the rest",
        "handed back at any time · Player: <b>Quellmar</b>",
        "25 %, 3 of 12",
        "Why this number",
        "24 repairs watched for 180 days; came back: 6.",
        "Source: E. B. Wilson",
        "Lanternfield Workshop, printed 12 Mar 2026",
        "page 1 of 1",
    ):
        assert words in said
    assert sizes(pdf)[0] == pytest.approx((215.9, 279.4), abs=0.1)


def test_german_says_all_of_it_in_german(past):
    answer = comeback_rates(past.shop.book, Question())
    said = whole(print_answer(past.shop.book, "Frage", answer, (), "de"))
    for words in (
        "Kein Laufwerktyp unterscheidet sich",
        "25 %, 3 von 12",
        "Warum diese Zahl",
        "Seite 1 von 1",
    ):
        assert words in said


def test_an_answer_of_nothing_is_a_paper_that_says_so(shop):
    answer = comeback_rates(shop.book, Question())
    said = whole(print_answer(shop.book, "Which repairs come back", answer, (), "en"))
    assert "No repair has been handed back yet." in said


BEGINS = (b"%PDF", b"<?xml", b"\x89PNG")


@pytest.mark.parametrize(("ending", "begin"), list(zip(ENDINGS, BEGINS, strict=True)))
def test_the_ending_says_what_is_written_and_a_file_that_is_there_is_replaced(past, tmp_path, ending, begin):
    path = tmp_path / f"picture{ending.upper()}"
    path.write_text("before")
    picture = picture_of(comeback_rates(past.shop.book, Question()))
    save_picture(picture, path, WORDS, ASKED)
    assert path.read_bytes().startswith(begin)
    assert [found.name for found in tmp_path.iterdir() if found.name.startswith("picture")] == [path.name]


def test_another_ending_nothing_to_draw_and_a_folder_that_is_not_there_are_sentences(past, tmp_path):
    picture = picture_of(comeback_rates(past.shop.book, Question()))
    with pytest.raises(Refusal) as refused:
        save_picture(picture, tmp_path / "picture.bmp", WORDS)
    assert refused.value.sentence.values == {"name": "picture.bmp"}
    with pytest.raises(Refusal) as refused:
        save_picture(picture, tmp_path / "nowhere" / "picture.png", WORDS)
    assert refused.value.sentence.key == "The file {path} could not be written."
    nothing = picture_of(comeback_rates(past.shop.book, Question(maker="Nobody")))
    with pytest.raises(Refusal) as refused:
        save_picture(nothing, tmp_path / "picture.png", WORDS)
    assert refused.value.next_step == nothing.title
    assert not (tmp_path / "picture.png").exists()
