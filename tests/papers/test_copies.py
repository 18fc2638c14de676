"""A reprint is the filed PDF with "copy" laid over: nothing else changes."""

from __future__ import annotations

from PIL import ImageChops

from app.papers.copies import stamp_copy
from tests.papers.conftest import pdf_of
from tests.papers.reading import picture, sizes, texts, whole
from tests.papers.story import ENGLISH


def test_every_page_says_copy_and_all_else_stays(paper: tuple[str, bytes]) -> None:
    _, pdf = paper
    copy = stamp_copy(pdf, ENGLISH)
    assert sizes(copy) == sizes(pdf)
    for before, after in zip(texts(pdf), texts(copy), strict=True):
        assert "copy" in after
        assert set(before.split()) <= set(after.split())


def test_the_filed_paper_itself_is_not_touched() -> None:
    pdf = pdf_of("invoice")
    before = bytes(pdf)
    stamp_copy(pdf, ENGLISH)
    assert pdf == before
    assert "copy" not in whole(pdf)


def test_away_from_the_word_the_page_looks_the_same() -> None:
    pdf = pdf_of("invoice")
    copy = stamp_copy(pdf, ENGLISH)
    for number in (0, 1):
        before, after = picture(pdf, 100, number), picture(copy, 100, number)
        changed = ImageChops.difference(before.convert("RGB"), after.convert("RGB")).getbbox()
        assert changed is not None
        left, top, right, bottom = changed
        assert left > before.width * 0.2
        assert right < before.width * 0.85
        assert top > before.height * 0.25
        assert bottom < before.height * 0.8


def test_letters_under_the_word_stay_darker_than_it() -> None:
    """The stamp is seen through: no letter below it is lost."""
    copy = stamp_copy(pdf_of("invoice"), ENGLISH)
    image = picture(copy, 150, grey=True)
    middle = image.crop((image.width // 3, image.height // 3, image.width * 2 // 3, image.height // 2))
    assert middle.getextrema()[0] < 110
