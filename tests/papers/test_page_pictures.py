"""Pages of a paper as pictures."""

from __future__ import annotations

import io

from PIL import Image, ImageChops

from app.papers.page_pictures import page_pictures
from tests.papers.conftest import pdf_of
from tests.papers.reading import picture


def test_every_page_is_a_picture_of_its_own_as_large_as_it_is_printed() -> None:
    pdf = pdf_of("invoice")
    pictures = [Image.open(io.BytesIO(one)) for one in page_pictures(pdf)]
    assert len(pictures) == 2
    for number, one in enumerate(pictures):
        assert one.format == "PNG"
        assert [round(dots) for dots in one.info["dpi"]] == [150, 150]
        assert abs(one.width / 150 * 25.4 - 210) < 0.3
        assert (
            ImageChops.difference(one.convert("RGB"), picture(pdf, 150, number).convert("RGB")).getbbox()
            is None
        )
