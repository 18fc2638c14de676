"""The shop's logo on papers."""

from __future__ import annotations

import base64
import io
from collections.abc import Callable
from dataclasses import replace

import pytest
from PIL import Image

from app.trade.refusal import Fault
from tests.papers.conftest import PAPERS, pdf_of
from tests.papers.reading import picture, texts
from tests.papers.story import INVOICE, RECEIPT, SHEET, SHOP, TICKET

Press = Callable[..., bytes]


def logo(size: tuple[int, int], mode: str = "RGBA") -> str:
    """A red picture as the shop's facts bring it to a paper."""
    buffer = io.BytesIO()
    Image.new("RGBA", size, (200, 30, 30, 255)).convert(mode).save(buffer, "PNG")
    return base64.b64encode(buffer.getvalue()).decode("ascii")


@pytest.mark.parametrize("mode", ["RGB", "RGBA"])
def test_a_logo_prints_in_place_of_our_disc(press: Press, mode: str) -> None:
    red_one = logo((300, 100), mode)
    for facts in (INVOICE, TICKET, RECEIPT):
        pdf = press(replace(facts, sheet=replace(SHEET, shop=replace(SHOP, logo=red_one))))
        red = sum(
            count
            for count, (r, g, b) in picture(pdf, 60).convert("RGB").getcolors(1 << 20)
            if r > 150 and g < 80 and b < 80
        )
        assert red > 100
        assert len(texts(pdf)) == (2 if facts is INVOICE else 1)


def test_a_logo_that_passed_no_check_is_our_fault_and_said_so(press: Press) -> None:
    with pytest.raises(Fault, match="logo"):
        press(replace(INVOICE, sheet=replace(SHEET, shop=replace(SHOP, logo="bm8gcGljdHVyZQ=="))))


def test_without_a_logo_our_neutral_disc_stands() -> None:
    assert len(pdf_of("invoice")) > 0
    assert all(facts.sheet.shop.logo == "" for facts in PAPERS.values())
