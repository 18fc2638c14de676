"""What a photo says besides its picture is taken out; the picture itself stays as it was."""

from __future__ import annotations

import struct
import zlib
from contextlib import suppress
from io import BytesIO
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image
from PIL.PngImagePlugin import PngInfo

from app.trade.bench.hidden_data import NotWhole, without_hidden_data

SECRET = b"Somebody was here"


def made(kind: str, turned: int = 1, **more: Any) -> bytes:
    exif = Image.Exif()
    exif[0x010F] = SECRET.decode()
    exif[0x0112] = turned
    out = BytesIO()
    Image.linear_gradient("L").resize((40, 30)).convert("RGB").save(out, format=kind, exif=exif, **more)
    return out.getvalue()


def pixels(content: bytes) -> bytes:
    with Image.open(BytesIO(content)) as image:
        return image.tobytes()


def chunk(name: bytes, data: bytes) -> bytes:
    return struct.pack(">L", len(data)) + name + data + struct.pack(">L", zlib.crc32(name + data))


@pytest.mark.parametrize("turned", [1, 3, 6, 8])
@pytest.mark.parametrize("kind", ["JPEG", "PNG"])
def test_the_way_it_is_to_be_turned_is_all_that_stays_of_exif(kind: str, turned: int) -> None:
    before = made(kind, turned)
    after = without_hidden_data(before, f"image/{kind.lower()}")
    assert SECRET in before
    assert SECRET not in after
    assert pixels(after) == pixels(before)  # oracle: Pillow
    with Image.open(BytesIO(after)) as image:
        exif = dict(image.getexif())
    assert exif == ({} if turned == 1 else {0x0112: turned})


def test_comments_of_a_jpeg_and_what_follows_its_end_go_and_its_colours_stay() -> None:
    profile = b"a profile" * 40
    before = made("JPEG", comment=SECRET, icc_profile=profile, progressive=True, quality=95) + SECRET
    after = without_hidden_data(before, "image/jpeg")
    assert SECRET not in after
    assert after.endswith(b"\xff\xd9")
    assert pixels(after) == pixels(before)
    with Image.open(BytesIO(after)) as image:
        assert image.info["icc_profile"] == profile


def test_restart_markers_fill_bytes_and_a_second_small_picture_are_gone_through() -> None:
    plain = made("JPEG", restart_marker_blocks=1)
    app0_end = 4 + struct.unpack(">H", plain[4:6])[0]
    extension = b"\xff\xff\xe0" + struct.pack(">H", 2 + 5 + len(SECRET)) + b"JFXX\0" + SECRET
    adobe = b"\xff\xee" + struct.pack(">H", 14) + b"Adobe\0d\0\0\0\0\0"
    other = b"\xff\xe2" + struct.pack(">H", 2 + 4 + len(SECRET)) + b"MPF\0" + SECRET
    before = plain[:app0_end] + extension + adobe + other + plain[app0_end:]
    before = before[:-2] + b"\xff\xff\xd9"  # fill before the last marker
    after = without_hidden_data(before, "image/jpeg")
    assert SECRET not in after
    assert b"Adobe" in after
    assert pixels(after) == pixels(plain)


@pytest.mark.parametrize(
    ("tiff", "way"),
    [
        (b"II*\0\x08\0\0\0\x01\0\x12\x01\x03\0\x01\0\0\0\x03\0\0\0", 3),
        (b"MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0\x09\0\0", 1),  # no such way
        (b"MM\0*\0\0\0\x08\0\x01\x01\x13\0\x03\0\0\0\x01\0\x06\0\0", 1),  # another tag, past it
        (b"MM\0*\0\0\0\x08\0\0", 1),
        (b"no Tiff at all", 1),
        (b"MM\0*", 1),
    ],
)
def test_only_an_orientation_that_is_one_is_believed(tiff: bytes, way: int) -> None:
    out = BytesIO()
    Image.new("RGB", (8, 6)).save(out, format="PNG")
    plain = out.getvalue()
    before = plain[:33] + chunk(b"eXIf", tiff) + plain[33:]
    after = without_hidden_data(before, "image/png")
    assert (chunk(b"eXIf", tiff) in after) is False
    with Image.open(BytesIO(after)) as image:
        assert image.getexif().get(0x0112, 1) == way


def test_words_in_a_png_go() -> None:
    words = PngInfo()
    words.add_text("Author", SECRET.decode())
    words.add_text("Comment", SECRET.decode(), zip=True)
    words.add_itxt("Title", SECRET.decode())
    before = made("PNG", pnginfo=words)
    after = without_hidden_data(before, "image/png")
    assert b"tEXt" not in after
    assert b"zTXt" not in after
    assert b"iTXt" not in after
    assert pixels(after) == pixels(before)


@pytest.mark.parametrize("more", [{}, {"xmp": SECRET}, {"lossless": True}])
def test_a_webp_loses_exif_and_xmp_and_the_flags_for_them(more: dict[str, Any]) -> None:
    before = made("WEBP", **more)
    after = without_hidden_data(before, "image/webp")
    assert SECRET not in after
    assert pixels(after) == pixels(before)
    plain = BytesIO()
    Image.new("RGB", (8, 8)).save(plain, format="WEBP")
    assert without_hidden_data(plain.getvalue(), "image/webp") == plain.getvalue()


def test_a_picture_that_can_hide_nothing_here_comes_back_as_it_is() -> None:
    assert without_hidden_data(b"BM and so on", "image/bmp") == b"BM and so on"


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
@pytest.mark.parametrize("part", [0, 1, 3, 9, 15, 25, 40, 60, 130, -3, -1, -40])
def test_a_picture_that_ends_too_soon_is_told(kind: str, part: int) -> None:
    with pytest.raises(NotWhole):
        without_hidden_data(made(kind)[:part], f"image/{kind.lower()}")


@given(st.sampled_from(["JPEG", "PNG", "WEBP"]), st.data())
def test_whatever_is_damaged_either_comes_out_or_is_told(kind: str, data: st.DataObject) -> None:
    content = bytearray(made(kind, 6))
    for _ in range(data.draw(st.integers(1, 4))):
        content[data.draw(st.integers(2, len(content) - 1))] = data.draw(st.integers(0, 255))
    with suppress(NotWhole):
        without_hidden_data(bytes(content), f"image/{kind.lower()}")


def test_a_webp_whose_part_says_it_is_longer_than_the_whole_is_told() -> None:
    before = made("WEBP")
    first_size = 16  # behind RIFF, the size of all, WEBP and the name of the first part
    longer = before[:first_size] + struct.pack("<L", len(before)) + before[first_size + 4 :]
    with pytest.raises(NotWhole):
        without_hidden_data(longer, "image/webp")


def gif(**more: Any) -> bytes:
    frames = [Image.new("RGB", (20, 10), colour) for colour in ("red", "green", "blue")]
    out = BytesIO()
    frames[0].save(out, format="GIF", save_all=True, append_images=frames[1:], loop=4, duration=80, **more)
    return out.getvalue()


def test_a_gif_keeps_its_frames_and_how_often_it_is_played_but_no_words() -> None:
    said = gif(comment=SECRET)
    program = b"\x21\xff\x0bXMP DataXMP" + bytes([len(SECRET)]) + SECRET + b"\0"
    said = said[:-1] + program + said[-1:]
    after = without_hidden_data(said + SECRET, "image/gif")
    assert SECRET in said
    assert SECRET not in after
    with Image.open(BytesIO(said)) as before, Image.open(BytesIO(after)) as image:  # oracle: Pillow
        assert image.n_frames == before.n_frames == 3
        assert image.info["loop"] == 4
        for at in range(3):
            before.seek(at)
            image.seek(at)
            assert image.convert("RGB").tobytes() == before.convert("RGB").tobytes()
            assert image.info["duration"] == 80
    assert without_hidden_data(after, "image/gif") == after


@pytest.mark.parametrize("end", [0, 6, 12, 13, 30, 60, -12, -2, -1])
def test_a_gif_that_ends_too_soon_is_told(end: int) -> None:
    with pytest.raises(NotWhole):
        without_hidden_data(gif()[:end], "image/gif")


def test_a_gif_of_parts_that_nobody_knows_is_told() -> None:
    whole = gif()
    colours = 13 + (3 << ((whole[10] & 7) + 1))
    with pytest.raises(NotWhole):
        without_hidden_data(whole[:colours] + b"\x99" + whole[colours:], "image/gif")


def test_a_still_gif_with_colours_of_its_own_comes_through() -> None:
    # A picture with a local table: GIF89a, hand-made, two pixels.
    still = b"GIF87a\x02\0\x01\0\0\0\0\x2c\0\0\0\0\x02\0\x01\0\x80\0\0\0\xff\xff\xff\x02\x02\x4c\x01\0\x3b"
    assert without_hidden_data(still, "image/gif") == still
