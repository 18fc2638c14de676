"""A notice to collect: its day, what waits, and the terms."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from app.papers.facts import Customer, PaperSize
from tests.papers.conftest import pdf_of
from tests.papers.reading import texts, whole
from tests.papers.story_after import HOSTILE, LONG, UNCOLLECTED_NOTICE

Press = Callable[..., bytes]


def test_a_notice_names_its_day_what_waits_and_the_terms() -> None:
    text = whole(pdf_of("uncollected notice"))
    for words in (
        "Notice to collect 2087",
        "25 December 2026",
        "remote control; power cord",
        "20 October 2026",
        "Terms of storage",
        "Nothing happens by itself",
        "48.20 EUR",
    ):
        assert words in text.replace("\n", " ")


def test_a_notice_says_only_what_is_so(press: Press) -> None:
    bare = replace(UNCOLLECTED_NOTICE, told=None, things=(), earlier=(), open=None, terms="")
    nobody = replace(
        bare, customer=Customer("Xu"), sheet=replace(bare.sheet, shop=replace(bare.sheet.shop, name=""))
    )
    text = whole(press(nobody))
    for words in ("Last message", "With it", "Earlier notices", "Open on", "Terms of storage", "C 0418"):
        assert words not in text


@pytest.mark.parametrize("size", list(PaperSize))
def test_absurdly_long_and_hostile_texts_are_printed_as_they_stand(press: Press, size: PaperSize) -> None:
    sheet = replace(UNCOLLECTED_NOTICE.sheet, size=size)
    customer = replace(UNCOLLECTED_NOTICE.customer, name=HOSTILE)
    long = replace(
        UNCOLLECTED_NOTICE, sheet=sheet, customer=customer, text="\n".join([HOSTILE] * 9), writer=LONG
    )
    pages = texts(press(long))
    assert "<b>a & b</b>" in " ".join(pages)
    assert f"page {len(pages)} of {len(pages)}" in pages[-1]


def test_a_paragraph_of_the_shop_stands_on_its_own_line(press: Press) -> None:
    text = whole(press(replace(UNCOLLECTED_NOTICE, text="One.\n\nTwo.")))
    assert "One." in text
    assert "Two." in text
