"""A logo is checked when it is chosen; a paper then prints it."""

from __future__ import annotations

import base64
import io
from collections.abc import Callable
from dataclasses import replace

import pytest
from PIL import Image

from app.papers.logo import logo_for_papers
from app.trade.refusal import Fault, Refusal
from tests.papers.conftest import PAPERS, pdf_of
from tests.papers.reading import picture, texts
from tests.papers.story import INVOICE, RECEIPT, SHEET, SHOP, TICKET

Press = Callable[..., bytes]


def image(kind: str, size: tuple[int, int], mode: str = "RGB") -> bytes:
    colour: object = (200, 30, 30, 255) if mode == "RGBA" else (200, 30, 30)
    buffer = io.BytesIO()
    Image.new(mode, size, colour).save(buffer, kind)  # type: ignore[arg-type]
    return buffer.getvalue()


@pytest.mark.parametrize(("kind", "mode"), [("PNG", "RGB"), ("PNG", "RGBA"), ("JPEG", "RGB")])
def test_a_logo_prints_in_place_of_our_disc(press: Press, kind: str, mode: str) -> None:
    logo = logo_for_papers(image(kind, (300, 100), mode))
    for facts in (INVOICE, TICKET, RECEIPT):
        pdf = press(replace(facts, sheet=replace(SHEET, shop=replace(SHOP, logo=logo))))
        red = sum(
            count
            for count, (r, g, b) in picture(pdf, 60).convert("RGB").getcolors(1 << 20)
            if r > 150 and g < 80 and b < 80
        )
        assert red > 100
        assert len(texts(pdf)) == (2 if facts is INVOICE else 1)


def test_a_large_picture_is_made_smaller() -> None:
    kept = Image.open(io.BytesIO(base64.b64decode(logo_for_papers(image("PNG", (4000, 500))))))
    assert kept.size == (1200, 150)


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"no picture",
        image("PNG", (9, 9))[:40],
        image("GIF", (9, 9), "P"),
        image("PNG", (9, 9)) + b"x" * 21_000_000,
    ],
    ids=["empty", "text", "half", "another kind", "too large"],
)
def test_what_is_no_logo_is_refused_in_a_sentence(data: bytes) -> None:
    with pytest.raises(Refusal) as refused:
        logo_for_papers(data)
    assert refused.value.next_step is not None


def test_a_bomb_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Image, "MAX_IMAGE_PIXELS", 1000)
    with pytest.raises(Refusal):
        logo_for_papers(image("PNG", (40, 40)))
    with pytest.raises(Refusal):
        logo_for_papers(image("PNG", (400, 400)))


def test_a_logo_that_passed_no_check_is_our_fault_and_said_so(press: Press) -> None:
    with pytest.raises(Fault, match="logo"):
        press(replace(INVOICE, sheet=replace(SHEET, shop=replace(SHOP, logo="bm8gcGljdHVyZQ=="))))


def test_without_a_logo_our_neutral_disc_stands() -> None:
    assert len(pdf_of("invoice")) > 0
    assert all(facts.sheet.shop.logo == "" for facts in PAPERS.values())
