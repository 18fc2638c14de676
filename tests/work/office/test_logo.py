"""The shop's logo: only a picture that papers can print, and nothing but its pixels."""

from __future__ import annotations

import hashlib
import io

import pytest
from PIL import Image
from PIL.PngImagePlugin import PngInfo

from app.trade.refusal import Refusal
from app.trade.settings import LOGO
from app.work.office import logo
from app.work.office.logo import logo_bytes, store_logo
from app.work.office.settings import change_settings


@pytest.fixture
def picture(tmp_path):
    path = tmp_path / "logo.png"
    told = PngInfo()
    told.add_text("Author", "somebody's name")
    Image.new("RGB", (40, 20), "teal").save(path, pnginfo=told)
    return path


def test_a_picture_becomes_a_png_beside_the_book(shop, picture):
    sha256 = store_logo(shop.book, picture)
    kept = logo_bytes(shop.book, sha256)
    assert hashlib.sha256(kept).hexdigest() == sha256
    with Image.open(io.BytesIO(kept)) as shown:
        assert (shown.size, shown.format) == ((40, 20), "PNG")
    assert b"somebody's name" not in kept
    change_settings(shop.book, shop.ine, {LOGO: sha256})


def test_a_large_picture_is_kept_as_small_as_papers_print_it(shop, tmp_path):
    path = tmp_path / "large.png"
    Image.new("RGB", (4000, 500), "teal").save(path)
    with Image.open(io.BytesIO(logo_bytes(shop.book, store_logo(shop.book, path)))) as kept:
        assert kept.size == (1200, 150)


def test_a_jpeg_will_do(shop, tmp_path):
    path = tmp_path / "logo.jpg"
    Image.new("L", (30, 30)).save(path)
    assert logo_bytes(shop.book, store_logo(shop.book, path)).startswith(b"\x89PNG")


@pytest.mark.parametrize("content", [b"", b"no picture", b"\x89PNG\r\n\x1a\n", b"%PDF-1.7"])
def test_what_is_no_picture_is_refused_by_its_name(shop, tmp_path, content):
    path = tmp_path / "letter.png"
    path.write_bytes(content)
    with pytest.raises(Refusal) as refusal:
        store_logo(shop.book, path)
    assert refusal.value.sentence.values["file"] == "letter.png"


def test_a_cut_off_picture_is_refused(shop, picture):
    picture.write_bytes(picture.read_bytes()[:-30])
    with pytest.raises(Refusal):
        store_logo(shop.book, picture)


def test_another_format_is_refused_whatever_it_is_called(shop, tmp_path):
    path = tmp_path / "logo.png"
    Image.new("RGB", (4, 4)).save(path, "GIF")
    with pytest.raises(Refusal):
        store_logo(shop.book, path)


def test_a_missing_file_is_refused(shop, tmp_path):
    with pytest.raises(Refusal):
        store_logo(shop.book, tmp_path / "gone.png")


def test_a_picture_too_large_to_be_a_logo_is_refused(shop, picture, tmp_path, monkeypatch):
    wide = tmp_path / "wide.png"
    Image.new("1", (4001, 1)).save(wide)
    with pytest.raises(Refusal, match="pixels to a side"):
        store_logo(shop.book, wide)
    monkeypatch.setattr(logo, "MOST_BYTES", 10)
    with pytest.raises(Refusal, match="larger than 5 MB"):
        store_logo(shop.book, picture)


def test_a_picture_that_unpacks_to_too_many_pixels_is_refused(shop, picture, monkeypatch):
    monkeypatch.setattr(Image, "MAX_IMAGE_PIXELS", 500)  # 40 by 20 is more: a warning, taken as an error
    with pytest.raises(Refusal):
        store_logo(shop.book, picture)
