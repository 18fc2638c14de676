"""What a photo says besides its picture: place, time, camera, name. Taken out without touching the picture itself.

Layouts from memory: JPEG (ITU-T T.81, JFIF, Exif), PNG (W3C), WebP (RIFF container), GIF (GIF89a).
"""

from __future__ import annotations

import struct
import zlib
from collections.abc import Iterator

# JPEG: the frame of JFIF, a colour profile and Adobe's note of the colour transform belong to the picture.
_JFIF, _ICC, _ADOBE, _EXIF = 0xE0, 0xE2, 0xEE, 0xE1
_COMMENT, _SCAN, _END = 0xFE, 0xDA, 0xD9
_ORIENTATION = 0x0112
_PNG = b"\x89PNG\r\n\x1a\n"
_PNG_HIDDEN = frozenset({b"eXIf", b"tEXt", b"zTXt", b"iTXt", b"tIME"})
# GIF: of what a program may add, how often it is played and a colour profile belong to the picture.
_GIF_IMAGE, _GIF_EXTENSION, _GIF_END, _GIF_COMMENT, _GIF_PROGRAM = 0x2C, 0x21, 0x3B, 0xFE, 0xFF
_GIF_SHOWN = (b"NETSCAPE2.0", b"ANIMEXTS1.0", b"ICCRGBG1012")
_WEBP_HIDDEN = {b"EXIF": 0x08, b"XMP ": 0x04}  # with their flags in VP8X


SEEN_THROUGH = frozenset({"image/jpeg", "image/png", "image/webp", "image/gif"})  # what is taken out of


class NotWhole(ValueError):
    """The bytes end too soon or do not hold together."""


def without_hidden_data(content: bytes, media_type: str) -> bytes:
    """The picture with everything removed that is not needed to show it; the way a JPEG or PNG is to be turned
    stays. Raises NotWhole. Types besides JPEG, PNG, WebP and GIF come back as they are: a BMP has no place for
    words."""
    take = {"image/jpeg": _jpeg, "image/png": _png, "image/webp": _webp, "image/gif": _gif}.get(media_type)
    return content if take is None else take(content)


def _jpeg(content: bytes) -> bytes:
    if content[:2] != b"\xff\xd8":
        raise NotWhole
    kept, turned = [b"\xff\xd8"], 1
    for code, segment in _segments(content):
        if code == _EXIF and segment[4:10] == b"Exif\0\0":
            turned = _way_of(segment[10:]) or turned
        if not _is_hidden(code, segment):
            kept.append(segment)
    if turned != 1:
        kept.insert(1, _turned(turned))
    return b"".join(kept)


def _is_hidden(code: int, segment: bytes) -> bool:
    if code == _COMMENT:
        return True
    if not 0xE0 <= code <= 0xEF or code == _ADOBE:
        return False
    if code == _JFIF:
        return not segment[4:].startswith(b"JFIF\0")  # JFXX holds a small picture of its own
    return code != _ICC or not segment[4:].startswith(b"ICC_PROFILE\0")


def _segments(content: bytes) -> Iterator[tuple[int, bytes]]:
    """Each marker with its bytes, a scan with its data, up to the end of the first picture."""
    at = 2
    while True:
        while content[at + 1 : at + 2] == b"\xff":  # fill bytes
            at += 1
        head = content[at : at + 4]
        if len(head) >= 2 and head[0] == 0xFF and head[1] == _END:
            yield _END, head[:2]
            return
        if len(head) < 4 or head[0] != 0xFF:
            raise NotWhole
        end = at + 2 + struct.unpack(">H", head[2:])[0]
        if head[1] == _SCAN:
            end = _end_of_scan(content, end)
        if end > len(content) or end < at + 4:
            raise NotWhole
        yield head[1], content[at:end]
        at = end


def _end_of_scan(content: bytes, at: int) -> int:
    """Where the next marker after a scan's data begins: neither a stuffed byte nor a restart."""
    while True:
        at = content.find(b"\xff", at)
        after = content[at + 1 : at + 2]
        if at < 0 or not after:
            raise NotWhole
        if after == b"\0" or 0xD0 <= after[0] <= 0xD7:
            at += 2
        elif after == b"\xff":
            at += 1
        else:
            return at


def _way_of(tiff: bytes) -> int | None:
    """The orientation 1 to 8 in the first directory of Exif, None where it says none."""
    order = {b"II*\0": "<", b"MM\0*": ">"}.get(tiff[:4])
    if order is None or len(tiff) < 8:
        return None
    start = struct.unpack(order + "L", tiff[4:8])[0]
    entries = tiff[start + 2 :]
    for at in range(0, len(entries) - 11, 12):
        tag, kind, count, value = struct.unpack(order + "HHLH", entries[at : at + 10])
        if (tag, kind, count) == (_ORIENTATION, 3, 1) and 1 <= value <= 8:
            return int(value)
        if tag > _ORIENTATION:  # tags stand in order
            break
    return None


def _turned(way: int) -> bytes:
    tiff = b"MM\0*" + struct.pack(">LHHHLHHL", 8, 1, _ORIENTATION, 3, 1, way, 0, 0)
    body = b"Exif\0\0" + tiff
    return b"\xff\xe1" + struct.pack(">H", len(body) + 2) + body


def _png(content: bytes) -> bytes:
    if content[:8] != _PNG:
        raise NotWhole
    kept, at, turned = [_PNG], 8, 1
    while True:
        if len(content) < at + 12:
            raise NotWhole
        size, name = struct.unpack(">L4s", content[at : at + 8])
        end = at + 12 + size
        if end > len(content):
            raise NotWhole
        if name == b"eXIf":
            turned = _way_of(content[at + 8 : end - 4]) or turned
        if name not in _PNG_HIDDEN:
            kept.append(content[at:end])
        if name == b"IEND":
            break
        at = end
    if turned != 1:
        data = b"eXIf" + _turned(turned)[10:]
        kept.insert(2, struct.pack(">L", len(data) - 4) + data + struct.pack(">L", zlib.crc32(data)))
    return b"".join(kept)


def _webp(content: bytes) -> bytes:
    if content[:4] != b"RIFF" or content[8:12] != b"WEBP":
        raise NotWhole
    whole = 8 + struct.unpack("<L", content[4:8])[0]
    if whole > len(content):
        raise NotWhole
    kept, at = [], 12
    while at + 8 <= whole:
        name, size = content[at : at + 4], struct.unpack("<L", content[at + 4 : at + 8])[0]
        end = at + 8 + size + size % 2
        if end > whole:
            raise NotWhole
        chunk = content[at:end]
        if name == b"VP8X" and size >= 1:
            flags = chunk[8] & ~sum(_WEBP_HIDDEN.values())
            chunk = chunk[:8] + bytes([flags]) + chunk[9:]
        if name not in _WEBP_HIDDEN:
            kept.append(chunk)
        at = end
    body = b"WEBP" + b"".join(kept)
    return b"RIFF" + struct.pack("<L", len(body)) + body


def _gif(content: bytes) -> bytes:
    if content[:6] not in (b"GIF87a", b"GIF89a") or len(content) < 13:
        raise NotWhole
    at = 13 + _colours(content[10])
    kept = [content[:at]]
    while True:
        mark = content[at : at + 1]
        if mark == bytes([_GIF_END]):
            return b"".join([*kept, mark])
        if len(content) < at + 10:
            raise NotWhole
        if mark[0] == _GIF_IMAGE:
            end = _end_of_blocks(content, at + 11 + _colours(content[at + 9]))
        elif mark[0] == _GIF_EXTENSION:
            end = _end_of_blocks(content, at + 2)
        else:
            raise NotWhole
        if not _is_said(content[at:end]):
            kept.append(content[at:end])
        at = end


def _colours(flags: int) -> int:
    """Bytes of a table of colours, where there is one."""
    return 3 << ((flags & 7) + 1) if flags & 0x80 else 0


def _end_of_blocks(content: bytes, at: int) -> int:
    while True:
        size = content[at : at + 1]
        if not size:
            raise NotWhole
        at += 1 + size[0]
        if not size[0]:
            return at


def _is_said(block: bytes) -> bool:
    """Whether a block of a GIF says something instead of showing it."""
    if block[0] != _GIF_EXTENSION:
        return False
    return block[1] == _GIF_COMMENT or (block[1] == _GIF_PROGRAM and block[3:14] not in _GIF_SHOWN)
